"""Take a sold history in: keep its bytes, queue the reading. Nothing is computed here, so nothing can be lost."""

from collections.abc import Mapping

from models.services.named_columns import checked_mapping
from models.services.submitted import Submitted
from models.store.records import ImportRecord, ShopId, Upload, UploadRecord
from models.store.states import JobKind, Queue
from models.store.unit_of_work import UnitOfWork
from models.values.sales import SALES_COLUMNS

LARGE_BYTES = 16 * 1024 * 1024  # beyond this a file is long work: minutes, not seconds


def submit_import(
    work: UnitOfWork, shop: ShopId, file: Upload, mapping: Mapping[str, str] | None = None
) -> Submitted[ImportRecord]:
    """Keep the file, queue its reading."""
    named = checked_mapping(mapping or {}, SALES_COLUMNS)
    upload = work.uploads.add(shop, file)
    made = work.imports.add(shop, upload, named)
    job = work.jobs.queue(shop, JobKind.IMPORT_SALES, queue_for(upload), made.id, {"mapping": named})
    return Submitted(made, job)


def queue_for(upload: UploadRecord) -> Queue:
    """Small files are quick work."""
    return Queue.LONG if upload.size > LARGE_BYTES else Queue.QUICK
