"""The seller's files on disk -> what the appraisal takes.  A named column goes to every file that has it."""

import tomllib
from collections.abc import Sequence
from pathlib import Path

from api.cli.named_columns import Named, Pairs
from models.intake.confined import read_history_confined, read_manifest_confined
from models.intake.history import ReadHistory
from models.intake.manifest import ReadManifest
from models.intake.sales.future_days import without_future_days
from models.services.clock import machine_date
from models.values.errors import NeedsColumns, Rejected
from models.values.given import Given, read_given
from models.values.lines import LINE_COLUMNS
from models.values.questions import ANSWERS, NO_COLUMN, fault_of, is_answer
from models.values.sales import SALES_COLUMNS


def read_settings(path: Path | None) -> Given:
    """The settings of a TOML file, checked; none without a file."""
    if path is None:
        return {}
    try:
        document = tomllib.loads(path.read_text(encoding="utf-8-sig"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        hint = "a number needs a digit before its point (0.08), a text needs quotation marks"
        raise Rejected(f"{path}: not a TOML file: {error}; {hint}.") from error
    try:
        return read_given(document)
    except Rejected as error:
        raise Rejected(f"{path}: {error.message}", error.faults) from error


def read_map(given: Sequence[str]) -> Pairs:
    """`CANONICAL=HEADER` texts as pairs; Rejected if one is not."""
    known = {*SALES_COLUMNS, *LINE_COLUMNS}
    pairs = []
    for text in given:
        name, equals, header = (part.strip() for part in text.partition("="))
        if not equals or not header or not (name in known or is_answer(name)):
            raise Rejected(
                f"--map {text}: write COLUMN=HEADER; COLUMN is one of {', '.join(sorted(known | {*ANSWERS}))}."
            )
        if is_answer(name) and (fault := fault_of(name, header)):
            raise Rejected(f"--map {text}: {name} {fault}.")
        pairs.append((name, header))
    return pairs


def read_sales(path: Path, pairs: Pairs, currency: str) -> ReadHistory:
    """The sold history; Rejected names the file and, where columns are asked for, the --map to give."""
    data = path.read_bytes()
    named = Named(pairs, SALES_COLUMNS)
    try:
        read = named.read(lambda mapping: read_history_confined(data, path.name, mapping, currency))
    except Rejected as error:
        raise _of_file(path, error) from error
    return without_future_days(read, machine_date())


def read_manifest(path: Path, pairs: Pairs, currency: str) -> ReadManifest:
    """One manifest, as `read_sales`."""
    data = path.read_bytes()
    named = Named(pairs, LINE_COLUMNS)
    try:
        return named.read(lambda mapping: read_manifest_confined(data, path.name, mapping, currency))
    except Rejected as error:
        raise _of_file(path, error) from error


def _of_file(path: Path, error: Rejected) -> Rejected:
    """What is wrong, with the file named once."""
    said = error.message
    named = said if path.name in said else f"{path}: {said}"
    if not isinstance(error, NeedsColumns):
        return Rejected(named, error.faults)
    guesses = {question.key: question.guess for question in error.questions}
    asked = " ".join(f'--map {name}="{guesses.get(name) or "..."}"' for name in error.missing)
    none = (
        f' Where the file has no such column, give --map {error.missing[0]}="{NO_COLUMN}".' if _may_lack(error) else ""
    )
    return Rejected(f"{named} Give {asked}{none}")


def _may_lack(error: NeedsColumns) -> bool:
    return any(choice.value == NO_COLUMN for question in error.questions[:1] for choice in question.choices)
