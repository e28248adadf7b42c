"""Uploaded files, their column mappings and what was wrong with their rows."""

from collections.abc import Mapping
from dataclasses import asdict, replace
from typing import Any

import sqlalchemy as sa

from models.store.now import now_ms
from models.store.paging import limited, page_of, read_cursor
from models.store.queries.blobs import Blobs
from models.store.records import FileFacts, Page, ShopId, Upload, UploadRecord
from models.store.tables.base import new_id
from models.store.tables.files import blob, column_mapping, row_problem, upload
from models.values.errors import Conflict, NotFound
from models.values.problems import Caution, RowProblem, stated_totals
from models.values.questions import question_of

LONGEST_NAME = 200
_MATCHED = ("questions", "found", "confidence", "remembered", "shop_cautions")
_PRUNED = "The file itself is no longer kept; upload it again."


class Uploads:
    """Queries over `upload`, `column_mapping` and `row_problem`."""

    def __init__(self, connection: sa.Connection) -> None:
        self._connection = connection
        self._blobs = Blobs(connection)

    def add(self, shop: ShopId, file: Upload) -> UploadRecord:
        """Keep a file."""
        blob_id, size, sha256 = self._blobs.add(shop, file.chunks)
        made = UploadRecord(new_id(), _shown(file.filename), size, sha256)
        nothing_yet = {"rows": 0, "kept": 0, "set_aside": 0, "cautions": []}
        self._connection.execute(
            upload.insert().values(**asdict(made), shop_id=shop, blob_id=blob_id, created_at=now_ms(), **nothing_yet)
        )
        return made

    def require(self, shop: ShopId, upload_id: str) -> UploadRecord:
        """The file's record; NotFound if the shop has none such."""
        row = self._connection.execute(_of(shop, upload_id)).one_or_none()
        if row is None:
            raise NotFound("There is no such file.")
        return UploadRecord(row.id, row.filename, row.size, row.sha256)

    def content(self, shop: ShopId, upload_id: str) -> bytes:
        """The file's bytes; Conflict if they were pruned."""
        row = self._connection.execute(_of(shop, upload_id)).one()
        if row.blob_id is None:
            raise Conflict(_PRUNED)
        return self._blobs.read(shop, row.blob_id)

    def require_kept(self, shop: ShopId, upload_id: str) -> None:
        """Conflict if the file's bytes were pruned."""
        if self._connection.execute(_of(shop, upload_id)).one().blob_id is None:
            raise Conflict(_PRUNED)

    def set_mapping(self, shop: ShopId, upload_id: str, mapping: Mapping[str, str]) -> None:
        """Replace which header is which column."""
        self._connection.execute(
            column_mapping.delete().where(column_mapping.c.upload_id == upload_id, column_mapping.c.shop_id == shop)
        )
        for column, header in mapping.items():
            values = {"upload_id": upload_id, "shop_id": shop, "column": column, "header": header}
            self._connection.execute(column_mapping.insert(), values)

    def facts(self, shop: ShopId, upload_id: str) -> FileFacts:
        """What reading the file told."""
        row = self._connection.execute(_of(shop, upload_id)).one()
        query = sa.select(column_mapping.c["column"], column_mapping.c.header)
        pairs = self._connection.execute(
            query.where(column_mapping.c.upload_id == upload_id, column_mapping.c.shop_id == shop)
        )
        mapping = dict(sorted((column, header) for column, header in pairs))
        asked = tuple(row.headers or ()), tuple(row.missing or ())
        cautions = tuple(Caution(**one) for one in row.cautions)
        stated = tuple(stated_totals(one) for one in row.stated or ())
        matched = row.asked or {"questions": (), "found": {}, "confidence": {}}
        questions = tuple(map(question_of, matched["questions"]))
        counts, told = (row.rows, row.kept, row.set_aside), (matched["found"], matched["confidence"])
        of_shop = tuple(Caution(**one) for one in matched.get("shop_cautions", ()))
        facts = FileFacts(mapping, *asked, *counts, cautions, stated, questions, *told)
        return replace(facts, remembered=matched.get("remembered", {}), shop_cautions=of_shop)

    def save_facts(self, shop: ShopId, upload_id: str, facts: FileFacts) -> None:
        """Keep what reading the file told, its mapping included."""
        plain = {key: value for key, value in asdict(facts).items() if key not in ("mapping", *_MATCHED)}
        plain["asked"] = {key: value for key, value in asdict(facts).items() if key in _MATCHED}
        plain |= {key: list(plain[key]) for key in ("headers", "missing", "cautions", "stated")}
        self._connection.execute(
            upload.update().where(upload.c.id == upload_id, upload.c.shop_id == shop).values(**plain)
        )
        self.set_mapping(shop, upload_id, facts.mapping)

    def save_problems(self, shop: ShopId, upload_id: str, problems: tuple[RowProblem, ...]) -> None:
        """Replace the file's row problems."""
        self._connection.execute(
            row_problem.delete().where(row_problem.c.upload_id == upload_id, row_problem.c.shop_id == shop)
        )
        rows = [
            {"upload_id": upload_id, "shop_id": shop, "no": no} | asdict(one)
            for no, one in enumerate(problems, start=1)
        ]
        if rows:
            self._connection.execute(row_problem.insert(), rows)

    def problems(self, shop: ShopId, upload_id: str, limit: int, cursor: str | None) -> Page[RowProblem]:
        """Row problems in the file's order."""
        query = sa.select(row_problem).where(row_problem.c.upload_id == upload_id, row_problem.c.shop_id == shop)
        if cursor is not None:
            query = query.where(row_problem.c.no > read_cursor(cursor, (int,))[0])
        rows = self._connection.execute(query.order_by(row_problem.c.no).limit(limited(limit) + 1)).all()
        return page_of(rows, limit, lambda row: (row.no,), _problem)

    def all_problems(self, shop: ShopId, upload_id: str) -> tuple[RowProblem, ...]:
        """Every row problem of a file."""
        query = sa.select(row_problem).where(row_problem.c.upload_id == upload_id, row_problem.c.shop_id == shop)
        return tuple(_problem(row) for row in self._connection.execute(query.order_by(row_problem.c.no)))

    def keep_instead(self, shop: ShopId, upload_id: str, content: bytes | None) -> None:
        """Keep these bytes in place of those that came, or none at all; its name, size and SHA-256 stay."""
        mine = sa.and_(upload.c.id == upload_id, upload.c.shop_id == shop)
        old = self._connection.execute(sa.select(upload.c.blob_id).where(mine)).scalar_one()
        made = None if content is None else self._blobs.add(shop, [content])[0]
        self._connection.execute(upload.update().where(mine).values(blob_id=made))
        if old is not None:
            self._blobs.delete(shop, [old])

    def delete(self, shop: ShopId, upload_id: str) -> None:
        """Forget a file with all that hangs on it."""
        blobs = sa.select(upload.c.blob_id).where(upload.c.id == upload_id, upload.c.shop_id == shop)
        held = [one for one in self._connection.execute(blobs).scalars() if one]
        self._connection.execute(upload.delete().where(upload.c.id == upload_id, upload.c.shop_id == shop))
        self._blobs.delete(shop, held)

    def prune(self, older_than_ms: int) -> int:
        """Forget the bytes of old files of every shop; what was read from them stays."""
        old = sa.select(upload.c.blob_id).where(
            upload.c.blob_id.is_not(None), upload.c.created_at < now_ms() - older_than_ms
        )
        return self._connection.execute(blob.delete().where(blob.c.id.in_(old))).rowcount


def _shown(filename: str) -> str:
    """The end of a name as it can be stored and shown."""
    return "".join(letter for letter in filename if letter.isprintable())[-LONGEST_NAME:]


def _of(shop: ShopId, upload_id: str) -> sa.Select[Any]:
    return sa.select(upload).where(upload.c.id == upload_id, upload.c.shop_id == shop)


def _problem(row: Any) -> RowProblem:
    return RowProblem(row.row, row.column, row.value, row.reason, row.done)
