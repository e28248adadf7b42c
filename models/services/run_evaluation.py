"""Read a lot's manifest if that is still to do, then appraise it."""

from typing import Any

from models.services.changed_since import with_changes
from models.services.frozen_question import FrozenQuestion
from models.services.read_manifest import read_manifest
from models.services.running import Running
from models.services.submit_evaluation import submit_evaluation
from models.store.queries.evaluations import NewEvaluation
from models.store.states import FileState
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.problems import Problems
from models.values.streams import DRAW_FORMAT


def run_evaluation(running: Running) -> None:
    """Job body: load, appraise, save in one transaction."""
    if "mapping" in running.job.payload and not read_manifest(running):
        return
    question = FrozenQuestion.of_payload(running.job.payload)
    if question.model_version is None:
        _wait_for_model(running)
    else:
        _appraise(running, question, question.model_version)


def _wait_for_model(running: Running) -> None:
    """There was no model when this was asked; if there is one by now, ask again."""
    job = running.job
    with running.finish() as work:
        work.shops.lock(job.shop)  # so that an activation either is seen here or sees this lot waiting
        work.lots.set_state(job.shop, job.subject_id, FileState.NEEDS_MODEL)
        if work.models.get_active_number(job.shop) is not None:
            submit_evaluation(work, job.shop, job.subject_id)


def _appraise(running: Running, frozen: FrozenQuestion, number: int) -> None:
    from models.appraisal.appraise import appraise
    from models.appraisal.model import Model

    job = running.job
    question, artifact, read = _question(running, frozen, number)
    running.progress(0.3, "valuing the lines")
    model = Model.from_bytes(artifact)
    found = appraise(question, model, lambda share, step: running.progress(0.3 + 0.6 * share, step))
    new = NewEvaluation(
        number, frozen.seed, frozen.as_of, DRAW_FORMAT, _frozen(frozen) | read,
        found.document, found.lines, found.components,
    )  # fmt: skip
    with running.finish() as work:
        work.evaluations.add(job.shop, job.subject_id, job.id, with_changes(work, job.shop, job.subject_id, new))


def _question(running: Running, frozen: FrozenQuestion, number: int) -> tuple[Any, bytes, dict[str, Any]]:
    """What the appraisal is asked, the model's bytes, and what was read for it: settings learned, columns."""
    from models.appraisal.question import Question

    job = running.job
    with running.read() as work:
        lot = work.lots.require(job.shop, job.subject_id)
        learned = work.models.require(job.shop, number).learned
        file = work.lots.require_upload(job.shop, job.subject_id)
        items = work.uploads.all_problems(job.shop, file.id)
        problems = Problems(lot.file.rows, lot.file.kept, lot.file.set_aside, items, lot.file.stated)
        lines = work.lines.load(job.shop, job.subject_id)
        artifact = work.models.artifact(job.shop, number)
    held = in_force(frozen.given, learned)
    asked = lot.name, held, frozen.as_of, frozen.seed, frozen.zone
    question = Question(lines, problems, lot.file.cautions, *asked, *_typed_in(frozen, lines))
    return question, artifact, {"learned": learned, "mapping": dict(lot.file.mapping)}


def _typed_in(frozen: FrozenQuestion, lines: Lines) -> tuple[dict[int, tuple[float, ...]], dict[int, str]]:
    """Looked-up prices and chosen actions by line number; a row that is no line any more says nothing."""
    numbers = dict(zip(lines.row.tolist(), lines.no.tolist(), strict=True))
    edits = [(numbers[edit["row"]], edit) for edit in frozen.edits if edit["row"] in numbers]
    looked_up = {no: tuple(edit["looked_up"]) for no, edit in edits if edit["looked_up"]}
    return looked_up, {no: edit["action"] for no, edit in edits if edit["action"]}


def _frozen(frozen: FrozenQuestion) -> dict[str, Any]:
    return {"given": list(frozen.given), "edits": list(frozen.edits)}
