"""Answers kept for requests that come twice."""

import sqlalchemy as sa
from sqlalchemy.exc import IntegrityError

from models.store.now import now_ms
from models.store.records import ShopId, StoredAnswer
from models.store.tables.jobs import idempotency_key
from models.values.errors import Conflict


class Answers:
    """Queries over `idempotency_key`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def get(self, shop: ShopId, key: str) -> StoredAnswer | None:
        """The answer first given under this key."""
        query = sa.select(idempotency_key).where(idempotency_key.c.shop_id == shop, idempotency_key.c.key == key)
        row = self._connection.execute(query).one_or_none()
        return None if row is None else StoredAnswer(row.request_fingerprint, row.status, row.body)

    def add(self, shop: ShopId, key: str, answer: StoredAnswer) -> None:
        """Keep an answer; Conflict if another request with this key was quicker: the transaction then goes back."""
        values = {"shop_id": shop, "key": key, "request_fingerprint": answer.request_fingerprint}
        said = {"status": answer.status, "body": dict(answer.body)}
        try:
            self._connection.execute(idempotency_key.insert().values(**values, **said, created_at=now_ms()))
        except IntegrityError as error:
            raise Conflict("A request with this Idempotency-Key is being answered; try again.") from error

    def prune(self, older_than_ms: int) -> int:
        """Forget old answers of every shop."""
        old = idempotency_key.c.created_at < now_ms() - older_than_ms
        return self._connection.execute(idempotency_key.delete().where(old)).rowcount
