"""Files as they really come: each of the corpus comes out as its table, or asks what only its seller can know."""

from collections.abc import Mapping
from dataclasses import asdict
from typing import Any

import numpy as np
import pytest
from unit.intake_files import delimited

from corpus.case import Case
from corpus.cells import CELLS
from corpus.history_files import HISTORY
from corpus.joined_files import JOINED
from corpus.meanings import MEANINGS
from corpus.money import MONEY
from corpus.named_columns import NAMED_COLUMNS
from corpus.odd_histories import ODD_HISTORIES
from corpus.odd_shapes import ODD_SHAPES
from corpus.readers import READERS
from corpus.shape import SHAPE
from corpus.sheets import SHEETS
from corpus.states import STATES
from corpus.two_prices import TWO_PRICES
from corpus.unsold_histories import UNSOLD_HISTORIES
from corpus.which_price import WHICH_PRICE
from corpus.workbooks import GOODS, gzipped, zipped
from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history
from models.intake.limits import Limits, held_to
from models.intake.manifest import ReadManifest, read_manifest
from models.values.conditions import name_of
from models.values.errors import NeedsColumns, TooLarge

CASES = (
    *READERS,
    *SHAPE,
    *SHEETS,
    *CELLS,
    *MEANINGS,
    *MONEY,
    *HISTORY,
    *JOINED,
    *ODD_SHAPES,
    *ODD_HISTORIES,
    *UNSOLD_HISTORIES,
    *TWO_PRICES,
    *STATES,
    *WHICH_PRICE,
    *NAMED_COLUMNS,
)
Read = ReadManifest | ReadHistory


def read(case: Case, mapping: Mapping[str, str]) -> Read:
    if not case.history:
        ((filename, data),) = case.files
        return read_manifest(data, filename, mapping, case.currency)
    parts = [(name, read_history(data, name, mapping, case.currency)) for name, data in case.files]
    return histories_together(parts)


def table_of(found: Read) -> Any:
    return found.lines if isinstance(found, ReadManifest) else found.sales


def plain(name: str, value: Any) -> Any:
    """A cell of an array as the corpus writes it."""
    if name in ("condition", "sourced"):
        return name_of(int(value)) if name == "condition" else int(value)
    if isinstance(value, np.datetime64):
        return None if np.isnat(value) else str(value)
    if isinstance(value, str):
        return " ".join(value.split())
    number = float(value)
    return None if np.isnan(number) else round(number, 4)


def columns(found: Read, names: list[str]) -> list[tuple[Any, ...]]:
    table = table_of(found)
    return [tuple(plain(name, getattr(table, name)[index]) for name in names) for index in range(len(table))]


def check_table(case: Case, found: Read) -> None:
    names = list(case.table)
    got, wanted = columns(found, names), list(zip(*case.table.values(), strict=True))
    if case.history and names:  # joining may order rows anew
        assert sorted(map(_like_read, got)) == sorted(map(_like_read, wanted)), f"columns {names}"
    elif names:
        assert got == wanted, f"columns {names}"
    assert case.units in (None, units(found))
    if case.money is not None:
        sales = table_of(found)
        assert round(float(np.nansum(sales.sold_price * sales.quantity)), 6) == case.money


def _like_read(row: tuple[Any, ...]) -> str:
    return repr(tuple(float(cell) if isinstance(cell, int) else cell for cell in row))


def units(found: Read) -> int:
    table = table_of(found)
    return int(table.quantity.sum() if isinstance(found, ReadManifest) else table.quantity[table.sold].sum())


def check_problems(case: Case, found: Read) -> None:
    told = found.problems
    assert told.rows == told.kept + told.set_aside
    named = {(one.row, one.column) for one in told.items}
    assert {row for row, _ in named} == set(case.problems), told.items
    for row, column in case.problems.items():
        assert column == "*" or (row, column) in named, told.items
    assert told.set_aside == len(case.aside), told.items
    if isinstance(found, ReadManifest):
        assert told.kept == len(found.lines)
        assert not set(case.aside) & set(found.lines.row.tolist())


def check_words(case: Case, found: Read) -> None:
    said = [f"{one.what} {one.check}" for one in found.cautions]
    said += [f"{one.value} {one.reason} {one.done}" for one in found.problems.items]
    for words in case.says:
        assert any(word in text.casefold() for text in said for word in words.casefold().split("|")), (words, said)
    everything = repr((said, [array.tolist() for array in asdict(table_of(found)).values()], found.problems))
    assert not [words for words in case.unsaid if words in everything]


def check(case: Case, found: Read) -> None:
    check_table(case, found)
    check_problems(case, found)
    check_words(case, found)
    if case.stated is not None:
        assert tuple((one.units, one.tags) for one in found.problems.stated) == case.stated


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_file_as_it_comes(case: Case) -> None:
    if case.rejected:
        with pytest.raises(case.rejected):
            read(case, {})
        return
    if case.asks:
        with pytest.raises(NeedsColumns) as asked:
            read(case, {})
        assert set(case.asks) <= set(asked.value.missing)
        if not case.answers:
            return
    try:
        found = read(case, case.answers)
    except NeedsColumns as asked_then:
        assert set(asked_then.missing) & set(case.may_ask), (asked_then.missing, asked_then.message)  # noqa: PT017
        return
    check(case, found)


def test_names_are_unique() -> None:
    assert len({case.name for case in CASES}) == len(CASES) >= 60


def test_what_unpacks_to_too_much_is_refused() -> None:
    """A bomb in small: a limit of 1 MiB, 3 MiB of blanks in a few kB."""
    bomb = delimited(GOODS) + b" " * (3 << 20)
    for data, name in ((gzipped(bomb), "m.csv.gz"), (zipped({"m.csv": bomb}), "m.zip")):
        assert len(data) < 10_000
        with held_to(Limits(max_uncompressed_mib=1)), pytest.raises(TooLarge):
            read_manifest(data, name, {}, "USD")
