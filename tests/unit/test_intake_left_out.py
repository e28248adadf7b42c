"""No row goes without a word: it is a line, a row set aside, or named among the rows that are no goods."""

import itertools
from collections.abc import Sequence

import pytest
from intake_files import delimited, xls, xlsx

from models.intake.grid import Cell, Grid
from models.intake.history import read_history
from models.intake.manifest import ReadManifest, read_manifest
from models.intake.shape.left_out import MAY_BE_GOODS
from models.intake.shape.rows import sort_rows

HEADER = ["Description", "Qty", "Retail", "SKU"]
MUG, JUG = ["Blue mug", 2, 9, "a"], ["Jug", 1, 3, "b"]


def read(*rows: Sequence[object], mapping: dict[str, str] | None = None) -> ReadManifest:
    return read_manifest(delimited([HEADER, *rows]), "m.csv", {"tag_is": "unit"} | (mapping or {}), "USD")


def alone(words: str) -> list[object]:
    return [words, "", "", ""]


@pytest.mark.parametrize("words", ["Manifest journal", "Note pad set", "Contact lens case", "Thank you cards", "*Vase"])
@pytest.mark.parametrize("last", [True, False])
def test_goods_that_are_called_like_a_note_are_set_aside_and_named(words: str, last: bool) -> None:
    done = read(MUG, JUG, alone(words)) if last else read(MUG, alone(words), JUG)
    [problem] = done.problems.items
    assert (done.problems.rows, done.problems.kept, done.problems.set_aside) == (3, 2, 1)
    assert (problem.row, problem.value, problem.reason) == (4 if last else 3, words, MAY_BE_GOODS)


def test_goods_that_begin_like_a_total_are_a_line() -> None:
    done = read(MUG, alone("Total Gym bar"), JUG)
    assert done.lines.description.tolist() == ["Blue mug", "Total Gym bar", "Jug"]
    assert [(one.row, one.column) for one in done.problems.items] == [(3, "quantity")]


def test_in_a_list_of_names_alone_every_name_is_a_line() -> None:
    done = read_manifest(b"Description\nBlue mug\nManifest journal\nContact lens case\n", "m.csv", {}, "USD")
    assert done.lines.description.tolist() == ["Blue mug", "Manifest journal", "Contact lens case"]


@pytest.mark.parametrize("words", ["All sales final", "Page 2 of 3", "Prepared by A. Quill", "Manifest is not done"])
def test_plain_notes_are_no_rows(words: str) -> None:
    done = read(MUG, alone(words), JUG)
    assert (done.problems.rows, done.problems.items) == (2, ())


def test_words_that_are_read_as_a_heading_are_named_with_the_count_of_all_other_rows() -> None:
    done = read(alone("KITCHEN"), MUG, HEADER, ["Sub-total", 2, 18, ""], [], alone("Garden"), JUG, ["Total", 3, 21, ""])
    [told] = [one.what for one in done.cautions if "no goods" in one.what]
    assert told == (
        "Beside 2 rows of goods the file has 2 rows of words that were read as no goods: 'KITCHEN' (row 2), "
        "'Garden' (row 7); and 2 totals, 1 repeated header, 1 blank row."
    )


def test_a_short_row_between_a_sub_total_and_more_goods_may_be_goods() -> None:
    short = ["Desk lamp", 1, "", ""]
    done = read(MUG, ["Sub-total", 2, 18, ""], short, JUG, ["Pot", 1, 7, "c"], ["Pan", 2, 8, "d"])
    assert [(one.row, one.reason) for one in done.problems.items] == [(4, MAY_BE_GOODS)]
    done = read(MUG, JUG, ["Total", 3, 21, ""], ["Warehouse", 250, "", ""])
    assert done.problems.rows == 2
    assert done.cautions[0].what.startswith("Beside 2 rows of goods the file has 1 row of words")


@pytest.mark.parametrize("words", ["Freight", "Shipping & handling", "Buyer's premium 15%", "MwSt:"])
def test_a_cost_among_the_goods_is_set_aside(words: str) -> None:
    done = read(MUG, JUG, ["Total", 3, 21, ""], [words, 1, 250, ""])
    assert [(one.row, one.reason) for one in done.problems.items] == [(5, "a cost, not goods")]
    assert read(MUG, [words, 1, 250, "K-7"], JUG).problems.set_aside == 0  # with a SKU it is what it is called


def test_a_total_of_cases_is_no_line() -> None:
    done = read(MUG, JUG, ["Total cases", 5, "", ""])
    assert done.lines.description.tolist() == ["Blue mug", "Jug"]
    assert [(one.units, one.cases) for one in done.problems.stated] == [(None, 5.0)]


@pytest.mark.parametrize("total", ["Total SKUs", "Total lines", "Total pallets"])
def test_a_total_of_rows_is_not_held_against_units(total: str) -> None:
    assert read(MUG, JUG, [total, 2, "", ""]).problems.stated == ()


@pytest.mark.parametrize("total", ["Total retail", "Total MSRP:", "Grand total retail value"])
def test_a_total_of_money_in_the_only_column_left_counts_no_units(total: str) -> None:
    done = read(MUG, JUG, [total, 21, "", ""])
    assert [(one.units, one.tags) for one in done.problems.stated] == [(None, 2100.0)]
    assert not any("does not agree" in one.what for one in done.cautions)
    assert [(one.units, one.tags) for one in read(MUG, JUG, [total, 3, 21, ""]).problems.stated] == [(3, 2100)]


ROWS: list[list[Cell]] = [
    ["Blue mug", 2, 9, "a"], ["", "", "", ""], ["TOTAL", 3, "", ""], ["PALLET 4", "", "", ""], ["KITCHEN", "", "", ""],
    ["Note pad", "", "", ""], ["Description", "Qty", "Retail", "SKU"], ["", "", "see below please", ""],
    ["Freight", 250, "", ""],
]  # fmt: skip


def test_every_row_is_of_one_kind() -> None:
    columns = {"description": 0, "quantity": 1, "tag_each": 2, "sku": 3}
    for picked in itertools.permutations(ROWS, 3):
        rows = [list(HEADER), ["Jug", 1, 3, "b"], *map(list, picked)]
        done = sort_rows(Grid("", rows, 1), range(1), rows[0], columns, "description")
        groups = (done.data, done.totals, done.parts, done.notes, done.headers, done.blank)
        assert sorted(itertools.chain(*groups)) == list(range(1, len(rows)))
        assert set(done.doubted) <= set(done.data)


PALLETS = [alone("PALLET 1"), MUG, ["Saw", 3, 5, "c"], alone("PALLET 2"), JUG, ["Kite", 4, 2, "d"]]


@pytest.mark.parametrize(
    ("label", "units", "ours"),
    [
        ("GRAND TOTAL", 5, 10), ("Manifest total", 5, 10), ("Gesamtsumme", 5, 10),
        ("Sub-total", 10, 5), ("Pallet total", 10, 5), ("Zwischensumme", 10, 5), ("Total", 5, 5),
    ],
)  # fmt: skip
def test_a_total_is_held_against_what_its_words_say(label: str, units: int, ours: int) -> None:
    first = ["Sub-total", 5, "", ""]
    done = read(*PALLETS[:3], first, *PALLETS[3:], [label, units, "", ""])
    assert [one.counted_units for one in done.problems.stated] == [5, ours]
    assert any("does not agree" in one.what for one in done.cautions) == (units != ours)


def test_totals_of_cases_are_called_cases_and_held_against_cases() -> None:
    rows = [["Description", "Cases"], ["PALLET 1 - 5 cases", ""], ["Mug", 2], ["Saw", 3], ["Total", 6]]
    done = read_manifest(delimited(rows), "m.csv", {"quantity_is": "12"}, "USD")
    assert done.lines.quantity.tolist() == [24, 36]
    assert set(done.lines.pallet.tolist()) == {"PALLET 1"}
    assert [(one.units, one.cases, one.counted_cases) for one in done.problems.stated] == [(None, 5, 5), (None, 6, 5)]
    [told] = [one.what for one in done.cautions if "does not agree" in one.what]
    assert "says 6 cases; the lines used make 5" in told


@pytest.mark.parametrize("filled", [[7, "", "", 8, ""], ["P1", "-", "", "P2", ""]])
def test_a_pallet_that_is_named_once_a_block_is_filled_down(filled: list[object]) -> None:
    rows = [["Pallet", "Description", "Qty"], *([name, f"Mug {place}", 1] for place, name in enumerate(filled))]
    done = read_manifest(delimited(rows), "m.csv", {}, "USD")
    assert done.lines.pallet.tolist() == [str(filled[0])] * 3 + [str(filled[3])] * 2
    assert any("first row of each block" in one.what for one in done.cautions)


def test_pallets_that_come_again_are_not_filled_down() -> None:
    rows = [["Pallet", "Description", "Qty"], ["P1", "Mug", 1], ["P1", "Jug", 1], ["", "Pot", 1], ["P2", "Pan", 1]]
    assert read_manifest(delimited(rows), "m.csv", {}, "USD").lines.pallet.tolist() == ["P1", "P1", "", "P2"]


def test_marks_nobody_sees_leave_words_as_they_read() -> None:
    words = "Wa\u00adter\u200b jug\ufeff\u2060"
    for data in (delimited([["Item", "Qty"], [words, 1]]), xlsx([["Item", "Qty"], [words, 1]])):
        done = read_manifest(data, "m", {}, "USD")
        assert (done.lines.description.tolist(), done.problems.items) == (["Water jug"], ())


@pytest.mark.parametrize("kind", ["manifest", "history"])
def test_where_hidden_rows_cannot_be_known_it_is_said(kind: str) -> None:
    rows = [["Title", "Sold price"], ["Mug", 8]] if kind == "history" else [["Item", "Qty"], ["Mug", 8]]
    reader = read_history if kind == "history" else read_manifest
    assert any("(XLS)" in one.what for one in reader(xls(rows), "m.xls", {}, "USD").cautions)
    assert not any("hidden" in one.what for one in reader(xlsx(rows), "m.xlsx", {}, "USD").cautions)
