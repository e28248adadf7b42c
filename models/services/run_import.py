"""Read a sold history, keep its sales; the first one of a shop queues a training."""

from models.services.clock import local_date
from models.services.running import Running
from models.services.submit_training import submit_training
from models.store.records import FileFacts, ShopId
from models.store.states import FileState
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NeedsColumns


def run_import(running: Running) -> None:
    """Job body: parse in a limited child, save sales and problems in one transaction."""
    from models.intake.confined import read_history_confined  # only workers read files
    from models.intake.future_days import without_future_days

    job = running.job
    with running.read() as work:
        file = work.imports.require_upload(job.shop, job.subject_id)
        content = work.uploads.content(job.shop, file.id)
        shop = work.shops.require(job.shop)
    running.progress(0.05, "reading the file")
    try:
        read = read_history_confined(content, file.filename, job.payload["mapping"], shop.currency)
    except NeedsColumns as asked:
        with running.finish() as work:
            facts = FileFacts(job.payload["mapping"], asked.headers, asked.missing)
            work.uploads.save_facts(job.shop, file.id, facts)
            work.imports.set_state(job.shop, job.subject_id, FileState.NEEDS_COLUMNS)
        return
    read = without_future_days(read, local_date(shop.time_zone))
    running.progress(0.6, "saving the sales")
    counts = read.problems
    facts = FileFacts(read.mapping, read.headers, (), counts.rows, counts.kept, counts.set_aside, read.cautions)
    with running.finish() as work:
        work.shops.lock(job.shop)
        added = work.sales.replace(job.shop, job.subject_id, read.sales)
        work.uploads.save_facts(job.shop, file.id, facts)
        work.uploads.save_problems(job.shop, file.id, counts.items)
        work.imports.save_read(job.shop, job.subject_id, added, len(read.sales) - added)
        _train_first(work, job.shop)


def _train_first(work: UnitOfWork, shop: ShopId) -> None:
    if not work.models.any_usable(shop):
        submit_training(work, shop)
