"""Say which header of a file is which column; the file is then read again."""

from collections.abc import Mapping

from models.intake.columns.column_names import named_twice
from models.services.frozen_question import freeze_question
from models.services.named_columns import checked_headers, checked_mapping
from models.services.submit_import import queue_for
from models.services.submitted import Submitted
from models.store.records import ImportRecord, LotRecord, ShopId
from models.store.states import FileState, JobKind
from models.store.unit_of_work import UnitOfWork
from models.values.lines import LINE_COLUMNS
from models.values.sales import SALES_COLUMNS


def store_import_mapping(
    work: UnitOfWork, shop: ShopId, import_id: str, mapping: Mapping[str, str]
) -> Submitted[ImportRecord]:
    """Read a sold history again under this mapping; what it added before is replaced."""
    upload = work.imports.require_upload(shop, import_id)
    work.uploads.require_kept(shop, upload.id)
    named = _said(checked_mapping(mapping, SALES_COLUMNS), work.imports.require(shop, import_id))
    work.uploads.set_mapping(shop, upload.id, named)
    made = work.imports.set_state(shop, import_id, FileState.READING)
    return Submitted(
        made, work.jobs.queue(shop, JobKind.IMPORT_SALES, queue_for(upload), import_id, {"mapping": named})
    )


def store_lot_mapping(work: UnitOfWork, shop: ShopId, lot_id: str, mapping: Mapping[str, str]) -> Submitted[LotRecord]:
    """Read a manifest again under this mapping, then evaluate it."""
    upload = work.lots.require_upload(shop, lot_id)
    work.uploads.require_kept(shop, upload.id)
    named = _said(checked_mapping(mapping, LINE_COLUMNS), work.lots.require(shop, lot_id))
    work.uploads.set_mapping(shop, upload.id, named)
    lot = work.lots.set_state(shop, lot_id, FileState.READING)
    question = freeze_question(work, shop, lot, work.models.get_active_number(shop))
    payload = question.as_payload() | {"mapping": named}
    return Submitted(lot, work.jobs.queue(shop, JobKind.EVALUATE_LOT, queue_for(upload), lot_id, payload))


def _said(named: dict[str, str], subject: ImportRecord | LotRecord) -> dict[str, str]:
    """What is said now; a file that still asks keeps what was said before, but of headings that now are another."""
    checked_headers(named, subject.file.headers)
    if subject.state is not FileState.NEEDS_COLUMNS:
        return named
    said = {**subject.file.mapping, **named}
    twice = named_twice(said, subject.file.headers).keys() - named.keys()
    return {key: value for key, value in said.items() if key not in twice}
