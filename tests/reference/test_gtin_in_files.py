"""GS1 General Specifications, section 7.9, and its zero-suppressed UPC-E numbers, as files hold them: as text,
as numbers that lost their zeros, in scientific notation.  What comes out is valid or blank, never wrong.

Numbers: 036000291452, 5901234123457, 9638507(4), 10614141000415; UPC-E 04252614 = 042100005264.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from unit.intake_files import xlsx

from models.intake.cells.gtin import check_digit, is_valid
from models.intake.manifest import read_manifest

PUBLISHED = ["036000291452", "5901234123457", "96385074", "10614141000415"]
BODIES = st.integers(10**9, 10**11 - 1)


def read(cells: list[object]) -> list[str]:
    rows = [["description", "quantity", "gtin"], *[[f"mug no. {place}", 1, cell] for place, cell in enumerate(cells)]]
    return [str(gtin) for gtin in read_manifest(xlsx(rows), "m.xlsx", {}, "USD").lines.gtin]


def test_published_numbers_as_text_and_as_numbers() -> None:
    assert read(list(PUBLISHED)) == PUBLISHED
    assert read([int(number) for number in PUBLISHED]) == PUBLISHED
    assert read([float(number) for number in PUBLISHED]) == PUBLISHED


def test_upc_e_as_text_and_as_a_number() -> None:
    assert read(["04252614", 4252614]) == ["042100005264"] * 2


@pytest.mark.parametrize("cell", ["3.6E+10", "3.60003E+10", "5,90123E+12", "9.6E+7", 36000300000, "36000000000"])
def test_scientific_notation_is_lost(cell: object) -> None:
    assert read([cell, PUBLISHED[0]]) == ["", PUBLISHED[0]]


def upc_a(body: int) -> str:
    text = f"{body:011d}"
    return f"{text}{check_digit(text)}"


@settings(max_examples=40, deadline=None)
@given(st.lists(BODIES, min_size=1, max_size=6))
def test_a_column_of_numbers_keeps_every_upc_or_says_it_is_lost(bodies: list[int]) -> None:
    numbers = [upc_a(body) for body in bodies]
    for number, found in zip(numbers, read([int(number) for number in numbers]), strict=True):
        assert found in (number, "")
        assert found == number or number.endswith("00000") or len(number.lstrip("0")) <= 10


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(BODIES, st.integers(1, 9)), min_size=1, max_size=6))
def test_a_wrong_check_digit_is_never_believed(wrong: list[tuple[int, int]]) -> None:
    numbers = [upc_a(body) for body, _ in wrong]
    numbers = [number[:-1] + str((int(number[-1]) + off) % 10) for number, (_, off) in zip(numbers, wrong, strict=True)]
    assert not any(map(is_valid, numbers))
    assert read(list(numbers)) == [""] * len(numbers)
