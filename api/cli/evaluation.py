"""The appraisal on files: read, fit once, appraise each manifest; one that cannot be read does not stop the others."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import typer

from api.cli.answers import Answer, Wish
from api.cli.caution_lines import standing_caution_lines
from api.cli.named_columns import Pairs, require_used
from api.cli.own_files import read_manifest, read_map, read_sales, read_settings
from api.cli.progress import Report, shown_progress
from api.cli.say import say
from api.cli.summary import summary
from api.cli.work_log_file import read_work_log
from models.appraisal.appraise import appraise
from models.appraisal.model import Model
from models.appraisal.question import Question
from models.appraisal.training import fit
from models.intake.histories import histories_together
from models.intake.history import ReadHistory
from models.intake.manifest import ReadManifest
from models.values.errors import Rejected
from models.values.given import Given
from models.values.in_force import in_force
from models.values.stated_totals import problems_document


@dataclass(frozen=True)
class Basis:
    """What every manifest is appraised with."""

    history: ReadHistory
    model: Model
    given: Given


def evaluations(wish: Wish) -> tuple[Answer, ...]:
    """One answer a manifest, told on stdout as it comes; Rejected if nothing can be appraised at all."""
    given, pairs = read_settings(wish.settings), read_map(wish.given_map)
    currency = given.get("currency", "USD")
    sales = [(path.name, read_sales(path, pairs, currency)) for path in wish.sales]
    manifests = [(path, _read(path, pairs, currency, alone=len(wish.manifests) == 1)) for path in wish.manifests]
    lots = {path.name: read for path, read in manifests if isinstance(read, ReadManifest)}
    if len(lots) == len(manifests):  # a file that cannot be read may have the headers that others lack
        require_used(pairs, {**dict(sales), **lots})
    basis = _basis(wish, sales, given, currency)
    answers = []
    for path, read in manifests:
        answer = _answer(wish, basis, path, read) if isinstance(read, ReadManifest) else read
        answers.append(answer)
        _tell(answer)
    _tell_history(wish, basis)
    say("\n".join(standing_caution_lines()))
    return tuple(answers)


def _read(path: Path, pairs: Pairs, currency: str, *, alone: bool) -> ReadManifest | Answer:
    try:
        return read_manifest(path, pairs, currency)
    except (Rejected, OSError) as error:
        if alone:
            raise
        return _refused(path, error)


def _refused(path: Path, error: Rejected | OSError) -> Answer:
    reason = error.message if isinstance(error, Rejected) else f"{path}: {error.strerror}"
    return Answer(path, {"lot": {"name": path.stem}, "error": reason}, error=reason)


def _basis(wish: Wish, sales: Sequence[tuple[str, ReadHistory]], given: Given, currency: str) -> Basis:
    log = read_work_log(wish.work_log, wish.as_of)
    with shown_progress("Learning from your sales") as report:
        history = histories_together(sales)
        return Basis(history, fit(history.sales, wish.as_of, currency, report, log), given)


def _answer(wish: Wish, basis: Basis, path: Path, read: ReadManifest) -> Answer:
    try:
        with shown_progress(path.name) as report:
            return _appraised(wish, basis, path, read, report)
    except Rejected as error:
        if len(wish.manifests) == 1:
            raise
        return _refused(path, error)


def _appraised(wish: Wish, basis: Basis, path: Path, read: ReadManifest, report: Report) -> Answer:
    held = in_force([basis.given], basis.model.learned)
    question = Question(read.lines, read.problems, read.cautions, path.stem, held, wish.as_of, wish.seed)
    evaluation = appraise(question, basis.model, report)
    version = {"number": 1, "trained_on": wish.as_of.isoformat(), "sales_used": basis.model.sales_used}
    sales = problems_document(basis.history.problems, basis.model.currency)
    document = evaluation.document | {"model_version": version, "sales": sales}
    return Answer(path, document, evaluation.lines)


def _tell_history(wish: Wish, basis: Basis) -> None:
    """Of several files each caution names its own."""
    of = f"{wish.sales[0].name}: " if len(wish.sales) == 1 else ""
    for caution in basis.history.cautions:
        typer.echo(f"{of}{caution.what} {caution.check}".rstrip(), err=True)


def _tell(answer: Answer) -> None:
    if answer.error:
        typer.echo(f"lotwright: {answer.error}", err=True)
        return
    say("\n".join(summary(answer.document)))
