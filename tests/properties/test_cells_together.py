"""Reading a column's cells together says of each what reading it alone says."""

import math
from unittest.mock import patch

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from models.intake.cells.amounts import read_amounts
from models.intake.cells.gtin import check_digit
from models.intake.cells.gtin_cells import read_gtins
from models.intake.cells.sourcing import saying_assorted, says_assorted
from models.intake.cells.words import read_texts
from models.intake.files.damage import CellCleaner
from models.intake.files.spreadsheets import quickly_read
from models.intake.grid import Cell, Grid, are_plain, plain_text, without_case
from models.intake.many import columns_of, in_small_letters, mostly_distinct
from models.intake.shape.row_kinds import RowJudge
from models.intake.shape.row_words import is_odd, odd_ones
from models.intake.shape.rows import SortedRows, sort_rows
from models.values.money import to_minor

WORDS = st.text("aASs TtOoLlMmIixXeEdDß&;\u0130\u0131\u017f\u00a0\n-=' #.:12łé", max_size=14) | st.sampled_from(
    [
        "Total",
        "TOTAL 12",
        "Pallet A",
        "BİN 5",
        "Lot 4471",
        "MİXED",
        "Aſſorted",
        "A & B",
        "A &amp; B",
        "N/A",
        "5-Oct",
        "1E5",
    ]
)
LARGEST = 1e9  # major units; larger ones are named


@given(
    st.lists(st.floats(-LARGEST, LARGEST) | st.integers(-(10**9), 10**9), max_size=4),
    st.sampled_from(["USD", "JPY", "KWD"]),
)
def test_typed_amounts_are_what_their_digits_say(numbers: list[float], currency: str) -> None:
    digits = {"USD": 2, "JPY": 0, "KWD": 3}[currency]
    read = [read_amounts({"cost": [number]}, currency, False)["cost"] for number in numbers]
    for number, one in zip(numbers, read, strict=True):
        scaled = number * 10**digits
        near = abs(scaled - round(scaled)) <= 1e-12 * max(1.0, abs(scaled))
        exact = float(round(scaled)) if near else to_minor(number, currency)
        assert math.isnan(one.minor[0]) or one.minor[0] in (exact, np.rint(exact))


@given(st.lists(WORDS, max_size=8))
def test_names_and_words_of_many_are_as_each_alone(texts: list[str]) -> None:
    assert odd_ones(texts) == {text for text in texts if is_odd(text)}
    assert saying_assorted(in_small_letters(texts)) == {text for text in texts if says_assorted(text)}
    for keys in (False, True):
        together = read_texts(texts, keys)
        assert list(together) == [read_texts([text], keys)[0] for text in texts]
        assert all(one.doubt or one.value == plain_text(text) for one, text in zip(together, texts, strict=True))


@given(st.lists(WORDS | st.integers(0, 9), max_size=4))
def test_plain_cells_are_left_as_they_stand(cells: list[str | int]) -> None:
    if are_plain(cells):
        assert [plain_text(cell) for cell in cells] == cells


@given(st.lists(WORDS, max_size=8))
def test_small_letters_are_of_all_texts(texts: list[str]) -> None:
    pieces = list(in_small_letters(texts))
    assert sorted(text for some, _ in pieces for text in some) == sorted(texts)
    assert all(lines == "".join(without_case(f"\n{text}") for text in some) for some, lines in pieces)


def _typed(number: float) -> float | str:
    if not math.isfinite(number):
        return ""
    return int(number) if number == int(number) and abs(number) < 1e15 else number


@given(st.lists(st.lists(WORDS | st.floats() | st.integers(0, 9), min_size=2, max_size=2), max_size=12))
def test_sheets_are_read_as_each_cell_alone(rows: list[list[str | float | int]]) -> None:
    cleaner, known = CellCleaner(longest=12), CellCleaner(longest=12)
    for column in zip(*rows, strict=True):
        for start in range(0, len(column), 3):
            cells = list(column[start : start + 3])
            quickly = quickly_read(cells, cleaner)
            alone = [known[cell] if isinstance(cell, str) else _typed(cell) for cell in cells]
            assert quickly is None or (quickly == alone and list(map(type, quickly)) == list(map(type, alone)))
            if quickly is None:
                assert all(cleaner[cell] == known[cell] for cell in cells if isinstance(cell, str))


@given(st.lists(WORDS, max_size=8), st.integers(0, 2))
def test_few_repeats_or_many_are_the_same_cells(texts: list[str], times: int) -> None:
    assert set(mostly_distinct(texts * times)) == set(texts * times)


@given(st.lists(WORDS, max_size=8))
def test_clean_cells_are_left_as_they_stand(cells: list[str]) -> None:
    cleaner = CellCleaner(longest=12)
    if cleaner.leaves(cells):
        assert [cleaner[cell] for cell in cells] == cells
        assert not cleaner.damage


@given(st.lists(st.integers(0, 10**13) | st.text("0123456789", max_size=14), max_size=6), st.booleans())
def test_article_numbers_of_few_are_as_each_alone(cells: list[str | int], valid: bool) -> None:
    if valid:
        cells = [f"{cell}{check_digit(str(cell))}" for cell in cells if str(cell)]
    assert list(read_gtins(cells)) == [read_gtins([cell])[0] for cell in cells]


@given(st.lists(st.lists(st.integers(0, 9), max_size=4), max_size=5))
def test_columns_are_the_rows_cells(rows: list[list[int]]) -> None:
    assert columns_of(rows, range(4)) == [[row[at] if at < len(row) else "" for row in rows] for at in range(4)]


NAMES = ["Item", "Qty", "SKU", "Tag"]
CELLS = WORDS.filter(lambda text: text != "") | st.integers(0, 9)
ROWS = (
    st.lists(CELLS, min_size=4, max_size=4)
    | st.lists(WORDS, max_size=4)
    | st.sampled_from([["", "", "", ""], [*NAMES], ["Qty", "Item", "Tag", "SKU"], ["Mug", 1, "a", 2], ["Mug", 2]])
)


def _reads_as(cell: Cell) -> str | None:
    return {"Item": "description", "Qty": "quantity"}.get(str(cell))


@given(st.lists(ROWS, max_size=9))
def test_rows_told_at_sight_are_what_a_closer_look_says(rows: list[list[str | int]]) -> None:
    def sort() -> SortedRows:
        columns = {"description": 0, "quantity": 1, "sku": 2, "tag_each": 3}
        table: list[list[Cell]] = [[*NAMES], *([*row] for row in rows)]
        grid = Grid("", table, 1)
        return sort_rows(grid, range(1), NAMES, columns, "description", _reads_as)

    quickly = sort()
    with patch.object(RowJudge, "surely_goods", lambda _, rows: [False] * len(rows)):
        assert sort() == quickly
