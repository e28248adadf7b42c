"""The same request sent twice under one Idempotency-Key is answered once."""

import hashlib
from collections.abc import Mapping
from typing import Any

from models.store.records import ShopId, StoredAnswer
from models.store.unit_of_work import UnitOfWork
from models.values.errors import Conflict, Rejected

LONGEST_KEY = 200


def request_fingerprint(method: str, path: str, *parts: bytes) -> str:
    """What makes two requests the same: method, path and content (a file: its SHA-256)."""
    digest = hashlib.sha256()
    for part in (method.encode(), path.encode(), *parts):
        digest.update(len(part).to_bytes(8, "big") + part)
    return digest.hexdigest()


def get_answer(work: UnitOfWork, shop: ShopId, key: str, fingerprint: str) -> StoredAnswer | None:
    """The first answer under this key, None if there is none; Conflict if the key came with another request."""
    if not 0 < len(key) <= LONGEST_KEY:
        raise Rejected(f"An Idempotency-Key has 1 to {LONGEST_KEY} characters.")
    answer = work.answers.get(shop, key)
    if answer is not None and answer.request_fingerprint != fingerprint:
        raise Conflict("This Idempotency-Key was used for another request.")
    return answer


def keep_answer(
    work: UnitOfWork, shop: ShopId, key: str, fingerprint: str, status: int, body: Mapping[str, Any]
) -> None:
    """Keep the answer in the transaction that made the thing; Conflict if the same key won a race meanwhile."""
    work.answers.add(shop, key, StoredAnswer(fingerprint, status, body))
