"""Where the lines are in a file: headers of two rows, merged cells, headings of pallets, totals."""

import pytest
from manifest_reading import HEADER, goods, read, saved, sheet_of

from models.intake.manifest import read_manifest


def test_titles_addresses_blank_rows_and_columns_around_the_table() -> None:
    done = read(
        ["", "Northgate Salvage", "", ""], ["", "12 Dock Road", "", ""], ["", "", "", ""],
        ["", "Printed:", "2026-05-01", ""], ["", "ITEM\nDESCRIPTION:", "", "QTY:"], ["", "", "", ""],
        ["", "Mug", "", 2],
        ["", "", "", ""], ["", "Jug", "", 1],
    )  # fmt: skip
    assert goods(done) == [(7, "Mug", 2), (9, "Jug", 1)]
    assert done.problems.rows == 2


def test_a_header_of_two_rows_with_groups() -> None:
    done = read(["", "", "Retail", ""], ["Item", "Qty", "Unit", "Ext."], ["Mug", 2, 5, 10], ["Jug", 1, 4, 4])
    assert done.mapping == {
        "description": "Item", "quantity": "Qty", "tag_each": "Retail Unit", "tag_line": "Retail Ext."
    }  # fmt: skip
    assert done.lines.tag_each.tolist() == [500, 400]


def test_a_header_that_wraps_and_is_repeated() -> None:
    top, low = ["Item", "", "Unit", "Ext."], ["Description", "Qty", "Retail", "Retail"]
    done = read(top, low, ["Mug", 2, 5, 10], ["Jug", 1, 4, 4], top, low, ["Pot", 3, 2, 6])
    assert goods(done) == [(3, "Mug", 2), (4, "Jug", 1), (7, "Pot", 3)]
    assert done.mapping["tag_line"] == "Ext. Retail"


def test_merged_group_headers_of_a_workbook() -> None:
    book, sheet = sheet_of(["Item", "Qty", "Retail", ""], ["", "", "Unit", "Ext."], ["Mug", 2, 5, 10])
    for cells in ("A1:A2", "B1:B2", "C1:D1"):
        sheet.merge_cells(cells)
    done = read_manifest(saved(book), "x.xlsx", {}, "USD")
    assert goods(done) == [(3, "Mug", 2)]
    assert (done.mapping["tag_each"], done.mapping["tag_line"]) == ("Retail Unit", "Retail Ext.")


def test_a_title_above_a_one_row_header_is_no_part_of_it() -> None:
    done = read(["Kitchen load", "", "", ""], HEADER, ["Mug", 2, 5, 10])
    assert done.mapping["description"] == "Item"


def test_words_of_merged_cells_are_written_down_and_numbers_are_not() -> None:
    book, sheet = sheet_of(
        ["Brand", "Item", "Qty", "Pallet"], ["Orrin", "Mug", 5, 3], ["", "Jug", "", ""], ["", "Pot", 2, ""]
    )
    for cells in ("A2:A4", "C2:C3", "D2:D4"):
        sheet.merge_cells(cells)
    done = read_manifest(saved(book), "x.xlsx", {}, "USD")
    assert done.lines.brand.tolist() == ["Orrin"] * 3
    assert done.lines.pallet.tolist() == ["3"] * 3
    assert done.lines.quantity.tolist() == [5, 1, 2]
    told = {(item.row, item.column, item.done) for item in done.problems.items}
    assert (2, "quantity", "counted in its first row only") in told
    assert (3, "quantity", "counted as 1") in told


def test_rows_that_are_high_by_merging_are_not_doubled() -> None:
    book, sheet = sheet_of(["Item", "Qty"], ["Mug", 2], ["", ""], ["Jug", 1], ["", ""])
    for cells in ("A2:A3", "B2:B3", "A4:A5", "B4:B5"):
        sheet.merge_cells(cells)
    assert goods(read_manifest(saved(book), "x.xlsx", {}, "USD")) == [(2, "Mug", 2), (4, "Jug", 1)]


PALLETS = [
    HEADER, ["PALLET 1 OF 2 - 5 units", "", "", ""], ["Mug", 2, 5, 10], ["Jug", 3, 4, 12], ["Sub-total", 5, "", 22],
    ["", "", "", ""], ["PALLET 2 OF 2", "", "8 units", ""], ["Pot", 4, 5, 20], ["Pan", 3, 5, 15],
    ["Sub-total", 7, "", 35], ["GRAND TOTAL", 12, "", 57],
]  # fmt: skip


def test_pallet_headings_are_filled_down_and_counted_in_nothing() -> None:
    done = read(*PALLETS)
    assert goods(done) == [(3, "Mug", 2), (4, "Jug", 3), (8, "Pot", 4), (9, "Pan", 3)]
    assert done.lines.pallet.tolist() == ["PALLET 1 OF 2"] * 2 + ["PALLET 2 OF 2"] * 2
    assert (done.problems.rows, done.problems.kept, done.problems.items) == (4, 4, ())


def test_what_headings_and_totals_say_is_kept_with_the_rows_it_is_about() -> None:
    told = [(one.units, one.tags, one.row, one.covers) for one in read(*PALLETS).problems.stated]
    assert told == [
        (5, None, 2, (3, 6)), (5, 2200, 5, (3, 4)), (8, None, 7, (8, 11)), (7, 3500, 10, (8, 9)), (12, 5700, 11, None)
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("heading", "pallet", "units"),
    [
        ("Pallet #7: 1,204 pcs", "Pallet #7", 1204),
        ("SKID A - 12 items", "SKID A", 12),
        ("Palette 3 von 5 | 40 Stück", "Palette 3 von 5", 40),
        ("Gaylord 12 (approx. 90 units)", "Gaylord 12", None),
        ("BOX B-77", "BOX B-77", None),
        ("Pallet 4 - kitchen, Qty: 6", "Pallet 4 - kitchen", 6),
    ],
)
def test_wordings_of_headings(heading: str, pallet: str, units: int | None) -> None:
    done = read(HEADER, [heading, "", "", ""], ["Mug", 2, 5, 10], ["Jug", 1, 4, 4])
    assert goods(done) == [(3, "Mug", 2), (4, "Jug", 1)]
    assert done.lines.pallet.tolist() == [pallet] * 2
    assert [one.units for one in done.problems.stated] == ([] if units is None else [units])


def test_a_pallet_column_goes_before_headings() -> None:
    done = read(["Item", "Qty", "Pallet"], ["PALLET 1", "", ""], ["Mug", 2, "P-9"])
    assert done.lines.pallet.tolist() == ["P-9"]


def test_goods_that_sound_like_headings_are_lines() -> None:
    done = read(HEADER, ["Lot of 5 mugs", 1, 5, 5], ["Pallet 2", 4, 5, 20], ["Box cutter 9 in", 1, 4, 4])
    assert [line for _, line, _ in goods(done)] == ["Lot of 5 mugs", "Pallet 2", "Box cutter 9 in"]


def test_titles_say_totals_of_the_whole_file() -> None:
    done = read(["Total Units:", "1,204", "", ""], ["Total Retail: $34,000.50", "", "", ""], HEADER, ["Mug", 2, 5, 10])
    assert [(one.units, one.tags, one.row, one.covers) for one in done.problems.stated] == [
        (1204, None, 1, None), (None, 3400050, 2, None)
    ]  # fmt: skip


def test_a_total_without_the_word_is_seen_by_its_sums() -> None:
    done = read(HEADER, ["Mug", 2, 5, 10], ["Jug", 3, 4, 12], ["", 5, "", 22])
    assert [(one.units, one.tags) for one in done.problems.stated] == [(5, 2200)]


def test_a_second_header_in_another_order_is_obeyed_and_told() -> None:
    first = [["Item", "Qty", "Retail"], ["Mug", 1, 3], ["Cup", 2, 3], ["Jar", 3, 4], ["Jug", 1, 4]]
    done = read(*first, [], ["Retail", "Qty", "Item"], [5, 2, "Pot"], [6, 4, "Pan"])
    assert goods(done)[3:] == [(5, "Jug", 1), (8, "Pot", 2), (9, "Pan", 4)]
    assert done.lines.tag_each.tolist() == [300, 300, 400, 400, 500, 600]
    assert "columns change their order inside the file (row 7)" in done.cautions[0].what


def test_a_repeated_header_in_other_words_is_no_line() -> None:
    done = read(["Item", "Qty", "Retail"], ["Mug", 1, 3], ["Artikel", "Menge", "UVP"], ["Pot", 2, 5])
    assert goods(done) == [(2, "Mug", 1), (4, "Pot", 2)]
    assert done.problems.rows == 2


def test_a_repeated_header_with_two_names_of_goods_changes_nothing() -> None:
    header = ["Item", "Item Description", "Qty"]
    done = read(header, ["A-1", "Blue mug", 1], header, ["A-2", "Red jug", 2])
    assert goods(done) == [(2, "Blue mug", 1), (4, "Red jug", 2)]
    assert done.cautions == ()


def test_a_row_of_units_below_the_header_belongs_to_it() -> None:
    done = read(["Item", "Qty", "Weight", "Retail"], ["", "pcs", "(kg)", "USD"], ["Mug", 2, 0.5, 5], ["Jug", 1, 0.7, 4])
    assert goods(done) == [(3, "Mug", 2), (4, "Jug", 1)]
    assert done.lines.weight_kg.tolist() == [0.5, 0.7]


def test_boxes_that_each_have_heading_header_and_total() -> None:
    header = ["Item", "Qty", "Retail", "Brand"]
    done = read(
        ["Box 1", "", "", ""], header, ["Mug", 1, 3, "Orrin"], ["Jug", 2, 4, "Vell"], ["Box total", 3, "", ""],
        ["Box 2", "", "", ""], header, ["Pot", 3, 5, "Quib"], ["Box total", 3, "", ""],
    )  # fmt: skip
    assert goods(done) == [(3, "Mug", 1), (4, "Jug", 2), (8, "Pot", 3)]
    assert done.lines.pallet.tolist() == ["Box 1", "Box 1", "Box 2"]
    assert [(one.units, one.covers) for one in done.problems.stated] == [(3, (3, 4)), (3, (8, 8))]


@pytest.mark.parametrize("named", ["Ext.", "Retail Ext.", "ext"])
def test_a_column_of_a_two_row_header_may_be_named_by_either_line(named: str) -> None:
    rows = [["", "", "Retail", ""], ["Item", "Qty", "Unit", "Ext."], ["Mug", 2, 5, 10], ["Jug", 1, 4, 4]]
    done = read(*rows, mapping={"tag_line": named})
    assert done.mapping["tag_line"] == "Retail Ext."
    assert done.lines.tag_each.tolist() == [500, 400]
