"""What is written into a file, in whatever usual form, comes out of it again; and no bytes can crash the reader."""

import csv
import io
from decimal import Decimal

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from models.intake.cells.amounts import read_amounts
from models.intake.cells.gtin import LENGTHS, check_digit, is_valid
from models.intake.cells.gtin_cells import read_gtins
from models.intake.files.delimited import delimited_grid
from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.values.errors import Rejected

WORDS = st.text("abcdefghij äöü,;\"'", min_size=3, max_size=20).map(lambda text: "Mug " + " ".join(text.split()))
LINES = st.lists(
    st.tuples(WORDS, st.integers(1, 5000), st.integers(1, 10_000_000)), min_size=1, max_size=12
)  # description, units, tag in cents
FORMS = st.sampled_from([",", ";", "\t", "|"])
ENCODINGS = st.sampled_from(["utf-8", "utf-8-sig", "utf-16", "cp1252"])
SEED = """Load 7
Item,Brand,Qty,Unit Retail,UPC,Condition
"Mug, blue",Orrin,"1,200",$9.50,036000291452,New
Jug,,-,x,3E+10,?
Total,,3,,,
"""


def point(cents: int) -> str:
    return f"{Decimal(cents) / 100:,.2f}"


def comma(cents: int) -> str:
    return point(cents).replace(",", " ").replace(".", ",").replace(" ", ".")


@given(LINES, FORMS, ENCODINGS, st.booleans())
def test_lines_come_back(lines: list[tuple[str, int, int]], delimiter: str, encoding: str, with_comma: bool) -> None:
    text = io.StringIO()
    write = csv.writer(text, delimiter=delimiter)
    write.writerow(["Description", "Qty", "Unit Retail"])
    for words, units, cents in lines:
        write.writerow([words, units, comma(cents) if with_comma else point(cents)])
    read = read_manifest(text.getvalue().encode(encoding), "x.csv", {}, "USD").lines
    assert read.description.tolist() == [words for words, _, _ in lines]
    assert read.quantity.tolist() == [units for _, units, _ in lines]
    assert read.tag_each.tolist() == [cents for _, _, cents in lines]


@given(st.lists(st.integers(-10_000_000, 10_000_000), min_size=1))
def test_money_in_either_spelling_is_the_same_money(cents: list[int]) -> None:
    for spelled in (point, comma):
        read = read_amounts({"cost": [spelled(amount) for amount in cents]}, "EUR", False)["cost"]
        np.testing.assert_array_equal(read.minor, np.array(cents, dtype=float))


# Marks that nobody sees (Cf) are taken out of cells on purpose, and codes that Unicode leaves free (Cn) are no text.
CELLS = st.text(
    st.characters(exclude_categories=["Cs", "Cc", "Cf", "Cn"]) | st.sampled_from('\n",; '), min_size=1, max_size=8
).map(str.strip)


@given(st.lists(st.lists(CELLS, min_size=3, max_size=3), min_size=2, max_size=8))
def test_any_cells_survive_quoting(rows: list[list[str]]) -> None:
    rows = [[cell.lstrip("='") or "x" for cell in row] for row in rows]
    text = io.StringIO()
    csv.writer(text, quoting=csv.QUOTE_ALL).writerows([["description", "brand", "sku"], *rows])
    grid = delimited_grid("sep=,\r\n" + text.getvalue(), "x.csv")
    assert grid.rows[1:] == [[cell.strip() for cell in row] for row in rows]


@given(st.integers(1, 10**13 - 1), st.sampled_from([12, 13, 14]))
def test_a_gtin_that_lost_its_zeros_is_the_same_number(value: int, length: int) -> None:
    body = str(value).zfill(length - 1)[-(length - 1) :]
    number = int(f"{body}{check_digit(body)}")
    (read,) = read_gtins([number])
    if number >= 10**10 and number % 10**5:  # shorter ones may be UPC-E or ISBN, rounded ones are lost
        assert (int(read.value), len(read.value) in LENGTHS) == (number, True)
    assert read.value == "" or is_valid(read.value)


@settings(max_examples=300, deadline=None)
@given(st.binary(max_size=400))
def test_no_bytes_crash_the_reader(data: bytes) -> None:
    for read in (read_manifest, read_history):
        try:
            problems = read(data, "x", {}, "USD").problems
        except Rejected:
            continue
        assert problems.rows == problems.kept + problems.set_aside


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_mutated_files_are_read_or_refused(data: st.DataObject) -> None:
    """Cut, doubled, overwritten: counts add up, every line has what a line must have, or the file is refused."""
    raw = bytearray(SEED.encode())
    for _ in range(data.draw(st.integers(1, 8))):
        place = data.draw(st.integers(0, len(raw)))
        piece = data.draw(st.binary(max_size=3) | st.sampled_from([b'"', b",", b";", b"\r\n", b"\x00", b"-", b"\xe9"]))
        raw[place : place + data.draw(st.integers(0, 4))] = piece
    try:
        read = read_manifest(bytes(raw), "x.csv", {}, "USD")
    except Rejected:
        return
    assert read.problems.rows == read.problems.kept + read.problems.set_aside
    assert read.problems.kept == len(read.lines)
    assert (read.lines.quantity >= 1).all()
    assert all(words for words in read.lines.description)
    assert all(gtin == "" or is_valid(gtin) for gtin in read.lines.gtin)
    assert not (read.lines.tag_each < 0).any()
