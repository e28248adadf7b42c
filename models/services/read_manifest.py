"""Read a lot's manifest into lines."""

import numpy as np

from models.services.recalled import MANIFEST, recall_for, remember
from models.services.remembered_columns import Remembering, asked_facts
from models.services.remembered_grades import grades_of, remember_grades, without_grades
from models.services.running import Running
from models.store.records import FileFacts
from models.store.states import FileState
from models.values.errors import NeedsColumns, Unreadable
from models.values.lines import Lines


def read_manifest(running: Running) -> bool:
    """Keep what a limited child parses.  False if columns must be named first; the job is done then."""
    from models.intake.confined import read_manifest_confined  # only workers read files

    job = running.job
    with running.read() as work:
        file = work.lots.require_upload(job.shop, job.subject_id)
        content = work.uploads.content(job.shop, file.id)
        shop = work.shops.require(job.shop)
        source = work.lots.require(job.shop, job.subject_id).source
        grades = grades_of(work, job.shop, source)
    running.progress(0.05, "reading the manifest")
    reader = Remembering(
        lambda mapping: read_manifest_confined(content, file.filename, {**grades, **mapping}, shop.currency),
        recall_for(running, MANIFEST, shop.time_zone, source),
    )
    try:
        read = reader.read(job.payload["mapping"])
    except NeedsColumns as asked:
        with running.finish() as work:
            work.uploads.save_facts(job.shop, file.id, asked_facts(reader.used, asked))
            work.lots.set_state(job.shop, job.subject_id, FileState.NEEDS_COLUMNS)
        return False
    except Unreadable as refused:
        _keep_problems(running, file.id, refused)
        raise
    counts = read.problems
    told = counts.rows, counts.kept, counts.set_aside, (*reader.cautions, *read.cautions), counts.stated
    facts = FileFacts(read.mapping, read.headers, (), *told, confidence=read.confidence, remembered=reader.remembered)
    with running.save() as work:
        work.lines.replace(job.shop, job.subject_id, read.lines)
        work.uploads.save_facts(job.shop, file.id, facts)
        work.uploads.save_problems(job.shop, file.id, counts.items)
        remember(work, job.shop, MANIFEST, read.headers, without_grades(job.payload["mapping"]), source)
        remember_grades(work, job.shop, source, job.payload["mapping"])
        work.lots.save_read(job.shop, job.subject_id, len(read.lines), *_totals(read.lines))
        work.lots.set_state(job.shop, job.subject_id, FileState.EVALUATING)
    return True


def _keep_problems(running: Running, file_id: str, refused: Unreadable) -> None:
    """Which rows were set aside and why, all of them; a lot that was read before keeps what it was read as."""
    job, found = running.job, refused.problems
    if found is None:
        return
    with running.save() as work:
        if work.lots.require(job.shop, job.subject_id).lines == 0:
            facts = FileFacts(job.payload["mapping"], (), (), found.rows, found.kept, found.set_aside, (), found.stated)
            work.uploads.save_facts(job.shop, file_id, facts)
            work.uploads.save_problems(job.shop, file_id, found.items)


def _totals(lines: Lines) -> tuple[int, float | None]:
    """Units, and the tags of all of them [minor units], None where no line has one."""
    tags = lines.tag_each * lines.quantity
    return int(lines.quantity.sum()), None if np.isnan(tags).all() else float(np.nansum(tags))
