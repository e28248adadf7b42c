"""Counts always add up: every data row is a line or a named row set aside, whatever its cells say."""

import csv
import io

from hypothesis import given, settings
from hypothesis import strategies as st

from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.values.errors import Rejected
from models.values.problems import Problems

QUANTITIES = st.sampled_from(["", "1", "3", "0", "-2", "1.5", "two", "2 EA", "1,200", "-", "n/a", "999999999", "1e3"])
MONEY = st.sampled_from(["", "12.50", "$1,234.50", "(3.00)", "-", "free", "-4", "0", "1.234,50", "9e9", "inf", "nan"])
WORDS = st.sampled_from(["Blue mug", "Jug", "", " ", "Total", "Description", "=1+1", "Kettle 2 l", "12345", "N/A"])
DAYS = st.sampled_from(["", "2026-01-05", "05/06/2026", "5-Oct", "45000", "soon", "2026-02-30"])
CONDITIONS = st.sampled_from(["", "New", "Grade B", "used - good", "???"])
LINES = st.lists(st.tuples(WORDS, QUANTITIES, MONEY, CONDITIONS), min_size=1, max_size=12)
SALES = st.lists(st.tuples(WORDS, MONEY, QUANTITIES, DAYS, DAYS), min_size=1, max_size=12)


def table(header: str, rows: list[tuple[str, ...]]) -> bytes:
    """A plain CSV file."""
    written = io.StringIO()
    csv.writer(written).writerows([header.split(","), *rows])
    return written.getvalue().encode()


def check(problems: Problems, kept: int) -> None:
    """What holds of every reading."""
    aside = {one.row for one in problems.items if "set aside" in one.done}
    assert problems.rows == problems.kept + problems.set_aside
    assert problems.kept == kept
    assert len(aside) == problems.set_aside, "every row set aside is named"


@settings(max_examples=150, deadline=None)
@given(LINES)
def test_rows_of_a_manifest_are_lines_or_set_aside(rows: list[tuple[str, ...]]) -> None:
    try:
        read = read_manifest(table("Description,Quantity,Unit retail,Condition", rows), "m.csv", {}, "USD")
    except Rejected:
        return
    check(read.problems, len(read.lines))
    named = {one.row for one in read.problems.items if "set aside" in one.done}
    assert not named & set(read.lines.row.tolist()), "no row is both"
    assert len(set(read.lines.row.tolist())) == len(read.lines), "no row is two lines"


@settings(max_examples=150, deadline=None)
@given(SALES)
def test_rows_of_a_history_are_sales_or_set_aside(rows: list[tuple[str, ...]]) -> None:
    try:
        read = read_history(table("Title,Sold price,Quantity,Listed on,Sold on", rows), "h.csv", {}, "USD")
    except Rejected:
        return
    check(read.problems, len(read.sales))
