"""Which of a file's rows are the lot: several lots or sheets, hidden rows, and what titles and notes say of it."""

import pytest
from intake_files import ods, xlsx
from manifest_reading import HEADER, goods, read, said, saved, sheet_of

from models.intake.manifest import read_manifest
from models.values.conditions import CONDITIONS, name_of
from models.values.errors import NeedsColumns

LOTS = [
    ["LOT 4471", "", "", ""],
    HEADER,
    ["Mug", 2, 5, 10],
    ["Jug", 3, 4, 12],
    ["LOT 4472", "", "", ""],
    HEADER,
    ["Pot", 4, 5, 20],
]


def test_two_lots_in_one_file_are_asked_about() -> None:
    with pytest.raises(NeedsColumns, match=r"'LOT 4471' \(2 rows\), 'LOT 4472' \(1 row") as asked:
        read(*LOTS)
    assert asked.value.missing == ("lot_is",)
    assert [choice.value for choice in asked.value.questions[0].choices] == ["LOT 4471", "LOT 4472", "all"]


@pytest.mark.parametrize("named", ["LOT 4472", "4472", "lot #4472"])
def test_the_named_lot_alone_is_read_and_the_other_set_aside(named: str) -> None:
    done = read(*LOTS, mapping={"lot_is": named})
    assert goods(done) == [(7, "Pot", 4)]
    assert (done.problems.rows, done.problems.kept, done.problems.set_aside) == (3, 1, 2)
    assert {item.reason for item in done.problems.items} == {"belongs to another lot in the file"}


def test_all_lots_as_one() -> None:
    done = read(*LOTS, mapping={"lot_is": "all"})
    assert [row for row, _, _ in goods(done)] == [3, 4, 7]
    assert done.lines.pallet.tolist() == ["LOT 4471", "LOT 4471", "LOT 4472"]


def test_a_lot_column_with_several_lots_is_asked_but_numbered_lines_are_not() -> None:
    header = ["Lot #", "Item", "Qty"]
    with pytest.raises(NeedsColumns, match="2 lots"):
        read(header, [7, "Mug", 1], [7, "Jug", 1], [8, "Pot", 1], [8, "Pan", 1])
    assert len(read(header, [1, "Mug", 1], [2, "Jug", 1], [3, "Pot", 1]).lines) == 3
    assert len(read(header, [7, "Mug", 1], [7, "Jug", 1]).lines) == 2


def test_a_catalogue_of_one_row_a_lot_is_asked_about() -> None:
    rows = [["Lot #", "Item", "Qty"], [101, "Mug", 1], [102, "Jug", 2], [103, "Pot", 3]]
    with pytest.raises(NeedsColumns, match="3 lots"):
        read(*rows)
    assert goods(read(*rows, mapping={"lot_is": "102"})) == [(3, "Jug", 2)]
    assert len(read(*rows, mapping={"lot_is": "all"}).lines) == 3


def test_a_column_of_lots_that_is_not_asked_about_is_told_and_can_be_answered() -> None:
    many = [["Lot #", "Item", "Qty"], *[[number, f"Mug {number}", number] for number in range(501, 541)]]
    lines = [["Lot #", "Item", "Qty"], [1, "Mug", 1], [2, "Jug", 1], [3, "Pot", 1]]
    for rows in (many, lines):
        assert f"'Lot #' has {len(rows) - 1} different entries; all lines were read as one lot" in said(read(*rows))
        assert "different entries" not in said(read(*rows, mapping={"lot_is": "all"}))
    assert goods(read(*many, mapping={"lot_is": "510"})) == [(11, "Mug 510", 510)]


def test_the_sheet_of_lines_is_found_and_what_was_taken_out_is_told() -> None:
    instructions = [["How to read this list"], ["The list covers about 80% of the load."]]
    data = xlsx(
        instructions,
        {"Stock": [HEADER, ["Mug", 2, 5, 10], ["Jug", 1, 4, 4]], "Removed items": [HEADER, ["Jug", 1, 4, 4]]},
        hidden=["Sheet"],
    )
    done = read_manifest(data, "x.xlsx", {}, "USD")
    assert goods(done) == [(2, "Mug", 2), (3, "Jug", 1)]
    assert "'Removed items' lists goods that, by its name, are not in the lot (1 row)" in said(done)
    assert "1 of these goods also stand among the lines" in said(done)
    assert "80%" in said(done)


def test_instructions_on_a_hidden_first_sheet() -> None:
    book, sheet = sheet_of(["Item", "what it is"], ["Qty", "how many"])
    sheet.sheet_state = "hidden"
    lines = book.create_sheet("Lines")
    lines.append(HEADER)
    lines.append(["Mug", 2, 5, 10])
    assert goods(read_manifest(saved(book), "x.xlsx", {}, "USD")) == [(2, "Mug", 2)]


def test_lines_on_a_hidden_sheet_are_read_where_nothing_else_is_a_table_and_told() -> None:
    data = xlsx([["See the other sheet"]], {"Data": [HEADER, ["Mug", 2, 5, 10]]}, hidden=["Data"])
    done = read_manifest(data, "x.xlsx", {}, "USD")
    assert goods(done) == [(2, "Mug", 2)]
    assert "hidden sheet 'Data'" in said(done)


def test_several_sheets_of_lines_are_asked_about() -> None:
    data = xlsx([HEADER, ["Mug", 2, 5, 10]], {"Pallet 2": [HEADER, ["Jug", 1, 4, 4]]})
    with pytest.raises(NeedsColumns, match="Several sheets") as asked:
        read_manifest(data, "x.xlsx", {}, "USD")
    assert [choice.value for choice in asked.value.questions[0].choices] == ["Sheet", "Pallet 2", "all"]
    done = read_manifest(data, "x.xlsx", {"sheet_is": "Pallet 2"}, "USD")
    assert [line for _, line, _ in goods(done)] == ["Jug"]


def test_all_sheets_as_one_lot() -> None:
    other = [["Article", "Qty", "Brand"], ["Jug", 1, "Vell"], ["", 2, ""]]
    data = xlsx([HEADER, ["Mug", 2, 5, 10]], {"Pallet 2": other, "Removed": other, "Notes": [["x"]]})
    done = read_manifest(data, "x.xlsx", {"sheet_is": "all"}, "USD")
    assert goods(done) == [(2, "Mug", 2), (2, "Jug", 1)]
    assert done.lines.pallet.tolist() == ["Sheet", "Pallet 2"]
    assert done.lines.brand.tolist() == ["", "Vell"]
    assert done.lines.no.tolist() == [1, 2]
    assert (done.problems.rows, done.problems.kept) == (3, 2)
    assert "The lines of 2 sheets were read as one lot: 'Sheet' (1 row), 'Pallet 2' (2 rows)" in said(done)


def test_totals_of_sheets_read_as_one_are_said_not_to_be_held_against_the_lines() -> None:
    sheets = [HEADER, ["Mug", 2, 5, 10], ["Total", 7, "", 90]], [HEADER, ["Jug", 1, 4, 4]]
    done = read_manifest(xlsx(sheets[0], {"Pallet 2": sheets[1]}), "x.xlsx", {"sheet_is": "all"}, "USD")
    assert done.problems.stated == ()
    assert "The sheets' own totals ('Sheet') were not held against the lines" in said(done)
    done = read_manifest(xlsx(sheets[1], {"Pallet 2": sheets[1]}), "x.xlsx", {"sheet_is": "all"}, "USD")
    assert "own totals" not in said(done)


def test_hidden_rows_are_read_named_and_told() -> None:
    book, sheet = sheet_of(HEADER, ["Mug", 2, 5, 10], ["Jug", 1, 4, 4])
    sheet.row_dimensions[3].hidden = True
    done = read_manifest(saved(book), "x.xlsx", {}, "USD")
    assert goods(done) == [(2, "Mug", 2), (3, "Jug", 1)]
    assert [(item.row, item.reason) for item in done.problems.items] == [(3, "the row is hidden in the file")]
    assert "1 row is hidden in the file (row 3)" in said(done)


def test_filtered_rows_of_an_open_document_are_named_too() -> None:
    data = ods([HEADER, ["Mug", 2, 5, 10], ["Jug", 1, 4, 4]], hidden_rows=[3])
    done = read_manifest(data, "x.ods", {}, "USD")
    assert [(item.row, item.reason) for item in done.problems.items] == [(3, "the row is hidden in the file")]


def test_formulas_without_a_result_and_errors_are_blank_and_named() -> None:
    book, sheet = sheet_of(HEADER, ["Mug", 2, "=1+4", "=B2*C2"], ["Jug", 1, "#REF!", 4])
    sheet["C3"].data_type = "e"
    done = read_manifest(saved(book), "x.xlsx", {}, "USD")
    told = [(item.row, item.column, item.value, item.reason) for item in done.problems.items]
    assert (2, "tag_each", "", "a formula without a stored result") in told
    assert (3, "tag_each", "#REF!", "the cell shows an error") in told
    assert "2 cells are a formula whose result is not stored" in said(done)


@pytest.mark.parametrize(
    ("title", "name", "condition"),
    [
        ("Customer Returns - Kitchen", "load.csv", "untested"),
        ("Load 7, condition: Open Box", "load.csv", "opened"),
        ("Load 7", "shelf_pulls_load-7.csv", "sealed"),
        ("Load 7", "7 salvage.csv", "salvage"),
        ("New Jersey warehouse, all sales as is", "load.csv", None),
        ("Overstock and customer returns", "load.csv", None),
        ("Overstock and returns", "load.csv", None),
        ("Used tools and others, all new in box", "load.csv", None),
        ("No salvage, returns or shelf pulls", "load.csv", None),
        ("Garden goods - excludes salvage", "load.csv", None),
        ("Store returns are not part of this load", "load.csv", None),
        ("Mostly brand new goods", "load.csv", None),
        ("May contain customer returns", "load.csv", None),
        ("80% new in box", "load.csv", None),
        ("100% customer returns", "load.csv", "untested"),
        ("Shelf pulls, no customer returns", "load.csv", "sealed"),
        ("Pallet no. 7: customer returns", "load.csv", "untested"),
        ("Load 7, condition: New, missing parts", "load.csv", "salvage"),
        ("Load 7, condition: mostly new", "load.csv", None),
    ],
)
def test_a_condition_outside_the_table(title: str, name: str, condition: str | None) -> None:
    done = read([title, "", "", ""], HEADER, ["Mug", 2, 5, 10], name=name)
    code = int(done.lines.condition[0])
    assert (None if code < 0 else CONDITIONS[code]) == condition
    assert ("that was taken for every line" in said(done)) == (condition is not None)


def test_a_condition_column_goes_before_titles() -> None:
    done = read(["Customer returns", "", ""], ["Item", "Qty", "Condition"], ["Mug", 2, "New"], ["Jug", 1, ""])
    assert done.lines.condition.tolist() == [0, -1]


def test_conditions_of_single_pallets() -> None:
    done = read(
        HEADER,
        ["PALLET 1 - customer returns", "", "", ""],
        ["Mug", 2, 5, 10],
        ["PALLET 2 - overstock", "", "", ""],
        ["Jug", 1, 4, 4],
    )
    assert [CONDITIONS[code] for code in done.lines.condition] == ["untested", "sealed"]
    assert "taken from the headings above the goods" in said(done)


@pytest.mark.parametrize("note", ["Note: customer returns are not accepted", "We cannot take store returns."])
def test_a_note_of_what_goods_are_not_is_told_and_not_taken(note: str) -> None:
    done = read(HEADER, ["Mug", 2, 5, 10], ["", "", "", ""], [note, "", "", ""])
    assert done.lines.condition.tolist() == [-1]
    assert f"The note says '{note}': no condition was taken from that" in said(done)


def test_a_note_below_the_lines_is_not_called_a_title() -> None:
    done = read(HEADER, ["Mug", 2, 5, 10], ["", "", "", ""], ["Note: all customer returns.", "", "", ""])
    assert "The note says 'customer returns': that was taken for every line." in said(done)


HEADED_LOTS = [
    ["LOT 1 - brand new", "", "", ""],
    HEADER,
    ["Mug", 2, 5, 10],
    ["LOT 2 - salvage", "", "", ""],
    HEADER,
    ["PALLET 1", "", "", ""],
    ["Jug", 3, 4, 12],
    ["PALLET 2 - untested", "", "", ""],
    ["Pan", 3, 4, 12],
    ["LOT 3", "", "", ""],
    HEADER,
    ["Pot", 4, 5, 20],
]


@pytest.mark.parametrize(
    ("lot", "conditions"),
    [
        ("LOT 2", ["salvage", "untested"]),
        ("LOT 3", [None]),
        ("all", ["sealed", "salvage", "untested", None]),
    ],
)
def test_a_lot_has_the_condition_of_its_own_heading(lot: str, conditions: list[str | None]) -> None:
    done = read(*HEADED_LOTS, mapping={"lot_is": lot})
    assert [name_of(code) for code in done.lines.condition.tolist()] == conditions
    assert "title" not in said(done)


def test_a_section_of_the_list_speaks_for_the_goods_below_it() -> None:
    rows = ["Mug", 2, 5, 10], ["SALVAGE ITEMS", "", "", ""], ["Jug", 3, 4, 12], ["KITCHEN", "", "", ""]
    done = read(HEADER, ["NEW ITEMS", "", "", ""], *rows, ["Pot", 1, 5, 5])
    assert [name_of(code) for code in done.lines.condition.tolist()] == ["sealed", "salvage", None]
    assert "Lines below headings that name none have none." in said(done)


def test_a_condition_on_a_sheet_without_lines_is_taken_and_told() -> None:
    cover = [["Load 7"], ["Condition:", "Salvage"]]
    done = read_manifest(xlsx(cover, {"Stock": [HEADER, ["Mug", 2, 5, 10]]}), "x.xlsx", {}, "USD")
    assert done.lines.condition.tolist() == [5]
    assert "The sheet 'Sheet' says 'Salvage': that was taken for every line of the sheet 'Stock'." in said(done)


def test_a_condition_of_one_sheet_is_not_told_of_all() -> None:
    sheets = {"B": [["Customer returns"], HEADER, ["Jug", 1, 4, 4]]}
    done = read_manifest(xlsx([HEADER, ["Mug", 2, 5, 10]], sheets), "x.xlsx", {"sheet_is": "all"}, "USD")
    assert done.lines.condition.tolist() == [-1, 4]
    assert "that was taken for every line of the sheet 'B'." in said(done)


@pytest.mark.parametrize(
    ("words", "share"),
    [
        ("This list covers about 80% of the load", "80%"),
        ("Manifest represents approx. 75-85 % of contents", "75 to 85%"),
        ("Load is 60% manifested", "60%"),
        ("PARTIALLY MANIFESTED", "a part"),
        ("The list covers 100% of the load", None),
        ("Save 20% on freight", None),
    ],
)
@pytest.mark.parametrize("above", [True, False])
def test_a_list_of_a_part_is_a_caution(words: str, share: str | None, above: bool) -> None:
    note, rows = [words, "", "", ""], [HEADER, ["Mug", 2, 5, 10], ["Jug", 1, 4, 4]]
    done = read(note, *rows) if above else read(*rows, ["", "", "", ""], note)
    assert len(done.lines) == 2
    told = " | ".join(one.what for one in done.cautions if "no goods" not in one.what)
    assert told == ("" if share is None else f"The list does not cover the whole load, but {share}: '{words}'")
