"""The appraisal on files: read, fit once, appraise each manifest; one that cannot be read does not stop the others."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import typer

from api.cli.answers import Answer, Wish
from api.cli.caution_lines import standing_caution_lines
from api.cli.named_columns import Pairs, unused
from api.cli.own_files import read_manifest, read_map, read_sales, read_settings
from api.cli.progress import Report, shown_progress
from api.cli.say import say
from api.cli.summary import summary
from models.appraisal.appraise import appraise
from models.appraisal.model import Model
from models.appraisal.question import Question
from models.appraisal.training import fit
from models.intake.histories import histories_together
from models.intake.history import ReadHistory
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
    pairs: Pairs
    headers: frozenset[str]  # of the history's columns that were recognised


def evaluations(wish: Wish) -> tuple[Answer, ...]:
    """One answer a manifest, told on stdout as it comes; Rejected if nothing can be appraised at all."""
    basis = _basis(wish)
    answers = []
    for path in wish.manifests:
        answer = _answer(wish, basis, path)
        answers.append(answer)
        _tell(answer)
    _tell_history(wish, basis)
    say("\n".join(standing_caution_lines()))
    _tell_unused(basis, answers)
    return tuple(answers)


def _basis(wish: Wish) -> Basis:
    given = read_settings(wish.settings)
    pairs = read_map(wish.given_map)
    currency = given.get("currency", "USD")
    with shown_progress("Learning from your sales") as report:
        read = [(path.name, read_sales(path, pairs, currency)) for path in wish.sales]
        history = histories_together(read)
        headers = frozenset(header for _, one in read for header in one.mapping.values())
        return Basis(history, fit(history.sales, wish.as_of, currency, report), given, pairs, headers)


def _answer(wish: Wish, basis: Basis, path: Path) -> Answer:
    try:
        with shown_progress(path.name) as report:
            return _appraised(wish, basis, path, report)
    except (Rejected, OSError) as error:
        if len(wish.manifests) == 1:
            raise
        reason = error.message if isinstance(error, Rejected) else f"{path}: {error.strerror}"
        return Answer(path, {"lot": {"name": path.stem}, "error": reason}, error=reason)


def _appraised(wish: Wish, basis: Basis, path: Path, report: Report) -> Answer:
    read = read_manifest(path, basis.pairs, basis.model.currency)
    held = in_force([basis.given], basis.model.learned)
    question = Question(read.lines, read.problems, read.cautions, path.stem, held, wish.as_of, wish.seed)
    evaluation = appraise(question, basis.model, report)
    version = {"number": 1, "trained_on": wish.as_of.isoformat(), "sales_used": basis.model.sales_used}
    sales = problems_document(basis.history.problems, basis.model.currency)
    document = evaluation.document | {"model_version": version, "sales": sales}
    return Answer(path, document, evaluation.lines, headers=frozenset(read.mapping.values()))


def _tell_history(wish: Wish, basis: Basis) -> None:
    """Of several files each caution names its own."""
    of = f"{wish.sales[0].name}: " if len(wish.sales) == 1 else ""
    for caution in basis.history.cautions:
        typer.echo(f"{of}{caution.what} {caution.check}".rstrip(), err=True)


def _tell_unused(basis: Basis, answers: Sequence[Answer]) -> None:
    """A header misspelt on the command line would otherwise do nothing, silently."""
    if any(answer.error for answer in answers):
        return
    found = basis.headers.union(*(answer.headers for answer in answers))
    for name, header in unused(basis.pairs, found):
        typer.echo(f"lotwright: --map {name}={header}: no file has that header; nothing was changed by it.", err=True)


def _tell(answer: Answer) -> None:
    if answer.error:
        typer.echo(f"lotwright: {answer.error}", err=True)
        return
    say("\n".join(summary(answer.document)))
