"""Read a sold history, join it with the shop's others; the first one of a shop queues a training."""

from dataclasses import replace
from typing import TYPE_CHECKING

from models.services.clock import local_date
from models.services.join_sales import JoinedSales, join_sales, keep_joined
from models.services.recalled import HISTORY, recall_for, remember
from models.services.remembered_columns import Remembering, asked_facts
from models.services.running import Running
from models.services.submit_training import submit_training
from models.store.records import FileFacts, ShopId
from models.store.states import FileState
from models.store.unit_of_work import UnitOfWork
from models.values.errors import NeedsColumns

if TYPE_CHECKING:  # what reads files loads pandas: only workers do
    from models.intake.history import ReadHistory


def run_import(running: Running) -> None:
    """Job body: parse in a limited child, save sales and problems in one transaction."""
    from models.intake.confined import read_history_confined, without_buyers_confined  # only workers read files
    from models.intake.sales.future_days import without_future_days

    job = running.job
    with running.read() as work:
        file = work.imports.require_upload(job.shop, job.subject_id)
        content = work.uploads.content(job.shop, file.id)
        shop = work.shops.require(job.shop)
    running.progress(0.05, "reading the file")
    reader = Remembering(
        lambda mapping: read_history_confined(content, file.filename, mapping, shop.currency),
        recall_for(running, HISTORY, shop.time_zone),
    )
    try:
        read = reader.read(job.payload["mapping"])
    except NeedsColumns as asked:
        with running.finish() as work:
            work.uploads.save_facts(job.shop, file.id, asked_facts(reader.used, asked))
            work.imports.set_state(job.shop, job.subject_id, FileState.NEEDS_COLUMNS)
        return
    read = without_future_days(read, local_date(shop.time_zone))
    running.progress(0.6, "joining it with your other files")
    with running.read() as work:
        joined = join_sales(work, job.shop, job.subject_id, read.part)
    clean = without_buyers_confined(content, file.filename, read.mapping, shop.currency) if read.buyers else None
    running.progress(0.8, "saving the sales")
    with running.finish() as work:
        joined = keep_joined(work, job.shop, job.subject_id, read.part, joined)
        work.imports.forget_shop_cautions(job.shop)
        work.uploads.save_facts(job.shop, file.id, _facts(read, joined, reader))
        work.uploads.save_problems(job.shop, file.id, read.problems.items)
        remember(work, job.shop, HISTORY, read.headers, job.payload["mapping"], None)
        if read.buyers:  # their names and addresses are none of our business
            work.uploads.keep_instead(job.shop, file.id, clean)
        if len(joined.sales) or not len(read.part):  # fees alone teach nothing
            _train_first(work, job.shop)


def _facts(read: "ReadHistory", joined: JoinedSales, reader: "Remembering[ReadHistory]") -> FileFacts:
    """What the file told, and apart from it what all files together leave unsaid."""
    counts = read.problems
    cautions = (*reader.cautions, *read.file_cautions)
    told = counts.rows, counts.kept, counts.set_aside, cautions, counts.stated
    facts = FileFacts(read.mapping, read.headers, (), *told, confidence=read.confidence)
    return replace(facts, remembered=reader.remembered, shop_cautions=joined.cautions)


def _train_first(work: UnitOfWork, shop: ShopId) -> None:
    if not work.models.any_usable(shop):
        submit_training(work, shop)
