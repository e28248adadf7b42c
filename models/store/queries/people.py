"""Users, memberships, tokens, sessions and sign-in links.  Secrets arrive hashed."""

from typing import Any

import sqlalchemy as sa

from models.store.now import moment, now_ms, optional_moment
from models.store.records import Caller, ShopId, TokenRecord, UserRecord
from models.store.states import Role
from models.store.tables.base import new_id
from models.store.tables.people import membership, session, sign_in_link, token, user


class People:
    """Queries over who may come in."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def add_user(self, email: str) -> UserRecord:
        """A new user; the address must be free."""
        made = new_id()
        self._connection.execute(user.insert().values(id=made, email=email, created_at=now_ms()))
        return UserRecord(made, email)

    def get_user(self, email: str) -> UserRecord | None:
        """A user by address."""
        row = self._connection.execute(sa.select(user).where(user.c.email == email.strip().lower())).one_or_none()
        return None if row is None else UserRecord(row.id, row.email)

    def add_member(self, shop: ShopId, user_id: str, role: Role) -> None:
        """Let a user into a shop."""
        values = {"shop_id": shop, "user_id": user_id, "role": role.value, "created_at": now_ms()}
        self._connection.execute(membership.insert().values(**values))

    def get_membership(self, user_id: str) -> tuple[ShopId, Role] | None:
        """The shop a user joined first."""
        query = sa.select(membership).where(membership.c.user_id == user_id)
        row = self._connection.execute(query.order_by(membership.c.created_at, membership.c.shop_id)).first()
        return None if row is None else (ShopId(row.shop_id), Role(row.role))

    def get_first_owner(self, shop: ShopId) -> UserRecord | None:
        """The shop's oldest owner."""
        query = (
            sa.select(user).join(membership).where(membership.c.shop_id == shop, membership.c.role == Role.OWNER.value)
        )
        row = self._connection.execute(query.order_by(membership.c.created_at, user.c.id)).first()
        return None if row is None else UserRecord(row.id, row.email)

    def add_link(self, user_id: str, secret_hash: str, lives_ms: int) -> None:
        """A one-time sign-in link."""
        times = {"created_at": now_ms(), "expires_at": now_ms() + lives_ms}
        self._connection.execute(
            sign_in_link.insert().values(id=new_id(), user_id=user_id, secret_hash=secret_hash, **times)
        )

    def use_link(self, secret_hash: str) -> str | None:
        """The link's user, None if it is unknown, used or expired; of two at once, one gets in."""
        query = sign_in_link.update().where(
            sign_in_link.c.secret_hash == secret_hash,
            sign_in_link.c.used_at.is_(None),
            sign_in_link.c.expires_at > now_ms(),
        )
        return self._connection.execute(
            query.values(used_at=now_ms()).returning(sign_in_link.c.user_id)
        ).scalar_one_or_none()

    def is_live_link(self, secret_hash: str) -> bool:
        """True for a link that would still let its user in; asking does not use it up."""
        alive = (sign_in_link.c.used_at.is_(None), sign_in_link.c.expires_at > now_ms())
        query = sa.select(sign_in_link.c.id).where(sign_in_link.c.secret_hash == secret_hash, *alive)
        return self._connection.execute(query).first() is not None

    def add_session(self, user_id: str, secret_hash: str, lives_ms: int) -> None:
        """A session in the shop the user joined first."""
        joined = self.get_membership(user_id)
        if joined is not None:
            values = {"id": new_id(), "shop_id": joined[0], "user_id": user_id, "secret_hash": secret_hash}
            times = {"created_at": now_ms(), "expires_at": now_ms() + lives_ms}
            self._connection.execute(session.insert().values(**values, **times))

    def get_session_caller(self, secret_hash: str) -> Caller | None:
        """Who a live session stands for."""
        alive = sa.and_(session.c.secret_hash == secret_hash, session.c.expires_at > now_ms())
        row = self._caller_row(session, alive)
        return None if row is None else Caller(row.shop_id, row.user_id, row.email, Role(row.role), "session", row.id)

    def end_session(self, secret_hash: str) -> None:
        """Forget a session."""
        self._connection.execute(session.delete().where(session.c.secret_hash == secret_hash))

    def add_token(self, shop: ShopId, user_id: str, name: str, secret_hash: str) -> TokenRecord:
        """A bearer token."""
        made = new_id()
        values = {"id": made, "shop_id": shop, "user_id": user_id, "name": name, "secret_hash": secret_hash}
        self._connection.execute(token.insert().values(**values, created_at=now_ms()))
        return next(one for one in self.tokens(shop) if one.id == made)

    def get_token_caller(self, secret_hash: str) -> Caller | None:
        """Who a token in force stands for."""
        shown = sa.and_(token.c.secret_hash == secret_hash, token.c.revoked_at.is_(None))
        row = self._caller_row(token, shown, token.c.name)
        if row is None:
            return None
        return Caller(row.shop_id, row.user_id, row.email, Role(row.role), "token", token=row.name)

    def tokens(self, shop: ShopId) -> tuple[TokenRecord, ...]:
        """The shop's tokens, oldest first."""
        query = sa.select(token).where(token.c.shop_id == shop).order_by(token.c.created_at, token.c.id)
        return tuple(
            TokenRecord(row.id, row.name, moment(row.created_at), optional_moment(row.revoked_at))
            for row in self._connection.execute(query)
        )

    def revoke_token(self, shop: ShopId, token_id: str) -> bool:
        """True if the shop has such a token; revoking twice keeps the first time."""
        query = token.update().where(token.c.shop_id == shop, token.c.id == token_id)
        return bool(
            self._connection.execute(query.values(revoked_at=sa.func.coalesce(token.c.revoked_at, now_ms()))).rowcount
        )

    def prune(self) -> int:
        """Forget expired sessions and links."""
        gone = self._connection.execute(session.delete().where(session.c.expires_at < now_ms())).rowcount
        return (
            gone + self._connection.execute(sign_in_link.delete().where(sign_in_link.c.expires_at < now_ms())).rowcount
        )

    def _caller_row(self, shown: sa.Table, condition: sa.ColumnElement[bool], *more: sa.Column[str]) -> Any:
        """The membership is read each time, so that leaving a shop ends its sessions and tokens."""
        belongs = sa.and_(membership.c.shop_id == shown.c.shop_id, membership.c.user_id == shown.c.user_id)
        query = sa.select(shown.c.id, shown.c.shop_id, shown.c.user_id, user.c.email, membership.c.role, *more)
        joined = shown.join(user, user.c.id == shown.c.user_id).join(membership, belongs)
        return self._connection.execute(query.select_from(joined).where(condition)).one_or_none()
