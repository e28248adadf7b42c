"""Bytes in rows of at most 1 MiB, each with its SHA-256, checked when read."""

import hashlib
from collections.abc import Iterable, Iterator

import sqlalchemy as sa

from models.store.now import now_ms
from models.store.records import ShopId
from models.store.tables.base import new_id
from models.store.tables.files import blob, chunk

CHUNK_BYTES = 1024 * 1024


class Blobs:
    """Queries over `blob` and `chunk`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection

    def add(self, shop: ShopId, content: Iterable[bytes]) -> tuple[str, int, str]:
        """Keep the content; its id, size [bytes] and SHA-256."""
        made, size, whole = new_id(), 0, hashlib.sha256()
        values = {"id": made, "shop_id": shop, "size": 0, "sha256": "", "created_at": now_ms()}
        self._connection.execute(blob.insert().values(**values))
        for no, data in enumerate(_even(content)):
            size += len(data)
            whole.update(data)
            self._connection.execute(
                chunk.insert(), {"blob_id": made, "no": no, "sha256": hashlib.sha256(data).hexdigest(), "data": data}
            )
        self._connection.execute(blob.update().where(blob.c.id == made).values(size=size, sha256=whole.hexdigest()))
        return made, size, whole.hexdigest()

    def read(self, shop: ShopId, blob_id: str) -> bytes:
        """The content; OSError if a chunk is missing or was changed."""
        query = sa.select(chunk.c.data, chunk.c.sha256).join(blob).where(blob.c.id == blob_id, blob.c.shop_id == shop)
        parts = []
        for data, sha256 in self._connection.execute(query.order_by(chunk.c.no)):
            if hashlib.sha256(data).hexdigest() != sha256:
                raise OSError(f"A stored chunk of {blob_id} is damaged.")
            parts.append(bytes(data))
        content = b"".join(parts)
        size = self._connection.execute(sa.select(blob.c.size).where(blob.c.id == blob_id, blob.c.shop_id == shop))
        if size.scalar_one_or_none() != len(content):
            raise OSError(f"Stored bytes of {blob_id} are missing.")
        return content

    def delete(self, shop: ShopId, blob_ids: Iterable[str]) -> None:
        """Forget contents."""
        self._connection.execute(blob.delete().where(blob.c.shop_id == shop, blob.c.id.in_(list(blob_ids))))


def _even(content: Iterable[bytes]) -> Iterator[bytes]:
    """The same bytes in chunks of exactly CHUNK_BYTES but for the last."""
    held = bytearray()
    for part in content:
        held += part
        while len(held) >= CHUNK_BYTES:
            yield bytes(held[:CHUNK_BYTES])
            del held[:CHUNK_BYTES]
    if held:
        yield bytes(held)
