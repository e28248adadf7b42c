"""The appraisal on files: read, fit once, appraise each manifest; one that cannot be read does not stop the others."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
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
from models.intake.history import ReadHistory
from models.values.errors import Rejected
from models.values.given import Given
from models.values.in_force import in_force


@dataclass(frozen=True)
class Basis:
    """What every manifest is appraised with."""

    history: ReadHistory
    model: Model
    given: Given
    pairs: Pairs


def evaluations(wish: Wish) -> tuple[Answer, ...]:
    """One answer a manifest, told on stdout as it comes; Rejected if nothing can be appraised at all."""
    basis = _basis(wish)
    answers = []
    for path in wish.manifests:
        answer = _answer(wish, basis, path)
        answers.append(answer)
        _tell(answer)
    say("\n".join(standing_caution_lines()))
    _tell_unused(basis, answers)
    return tuple(answers)


def _basis(wish: Wish) -> Basis:
    given = read_settings(wish.settings)
    pairs = read_map(wish.given_map)
    currency = given.get("currency", "USD")
    with shown_progress("Learning from your sales") as report:
        history = read_sales(wish.sales, pairs, currency)
        for caution in history.cautions:
            typer.echo(f"{wish.sales.name}: {caution.what} {caution.check}".rstrip(), err=True)
        return Basis(history, fit(history.sales, wish.as_of, currency, report), given, pairs)


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
    document = evaluation.document | {"model_version": version, "sales": asdict(basis.history.problems)}
    return Answer(path, document, evaluation.lines, headers=frozenset(read.mapping.values()))


def _tell_unused(basis: Basis, answers: Sequence[Answer]) -> None:
    """A header misspelt on the command line would otherwise do nothing, silently."""
    if any(answer.error for answer in answers):
        return
    found = frozenset(basis.history.mapping.values()).union(*(answer.headers for answer in answers))
    for name, header in unused(basis.pairs, found):
        typer.echo(f"lotwright: --map {name}={header}: no file has that header; nothing was changed by it.", err=True)


def _tell(answer: Answer) -> None:
    if answer.error:
        typer.echo(f"lotwright: {answer.error}", err=True)
        return
    say("\n".join(summary(answer.document)))
