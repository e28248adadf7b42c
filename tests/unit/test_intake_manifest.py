"""A manifest becomes lines: every rule for quantities, tags, currencies, counts and refusals."""

import numpy as np
import pytest
from intake_files import delimited, ods, xls, xlsx

from models.intake.manifest import ReadManifest, read_manifest
from models.values.errors import NeedsColumns, Rejected, Unreadable

HEADER = ["Description", "Qty", "Unit Retail", "Ext. Retail", "Condition", "UPC", "Brand"]


def read(*rows: list[object], header: list[str] | None = None, currency: str = "USD") -> ReadManifest:
    return read_manifest(delimited([header or HEADER, *rows]), "load.csv", {}, currency)


def told(done: ReadManifest) -> list[tuple[int, str, str]]:
    return [(item.row, item.column, item.done) for item in done.problems.items]


MESSY = """Autumn Returns Load #4471,,,,,,,,
"12 Dock Road, Springfield",,,,,,,,
Printed 2026-05-01,,,,,,,,
,,,,,,,,
Item #,Item Description,Brand,Cond.,Qty,Unit Retail,Ext. Retail,UPC,Category
A1,Blue mug,Orrin,New,"1,200","$1,234.50","$1,481,400.00",36000291452,Home > Kitchen
A2,"Desk lamp, LED",Vell,Open Box,2 EA,$20.00,$41.00,3.6E+10,Home
A3,Kettle,,Customer Returns,-,($5.00),,SHELF-9,Home
A4,Toaster,Quib,Grade B,,-,30.00,,Home
A5,Blender,Quib,Used - Good,0,10,,,
A6,Blender,Quib,Used - Good,-2,10,,,
A7,Blender,Quib,parts,1.5,10,,,
A8,,Quib,parts,1,10,,,
Item #,Item Description,Brand,Cond.,Qty,Unit Retail,Ext. Retail,UPC,Category
A9,Asst knit tops 24M-5T,Various,Shelf Pull,96,9.99,,,Apparel
A10,Fan,Quib,works great,two,10,,,
A9,Asst knit tops 24M-5T,Various,Shelf Pull,96,9.99,,,Apparel
,TOTAL,,,1395,,"$1,500,000.00",,
All sales are final.,,,,,,,,
"""


def test_a_messy_file_whole() -> None:
    done = read_manifest(MESSY.encode(), "load.csv", {}, "USD")
    lines = done.lines
    assert lines.no.tolist() == [1, 2, 3, 4, 5, 6]
    assert lines.row.tolist() == [6, 7, 8, 9, 15, 17]
    assert lines.description.tolist()[:2] == ["Blue mug", "Desk lamp, LED"]
    assert lines.quantity.tolist() == [1200, 2, 1, 1, 96, 96]
    assert lines.condition.tolist() == [0, 1, 4, -1, 0, 0]
    assert lines.gtin.tolist() == ["036000291452", "", "", "", "", ""]
    assert lines.assorted.tolist() == [False] * 4 + [True] * 2
    np.testing.assert_array_equal(lines.tag_each, [123450, 2000, np.nan, 3000, 999, 999])
    assert (done.problems.rows, done.problems.kept, done.problems.set_aside) == (11, 6, 5)
    assert told(done) == [
        (7, "tag_line", "the tag of one unit is kept"),
        (7, "gtin", "left blank"),
        (8, "quantity", "counted as 1"),
        (8, "tag_each", "left blank"),
        (8, "gtin", "left blank"),
        (9, "quantity", "counted as 1"),
        (9, "condition", "taken as unknown"),
        (10, "quantity", "set aside"),
        (11, "quantity", "set aside"),
        (12, "quantity", "set aside"),
        (13, "description", "set aside"),
        (16, "quantity", "set aside"),
    ]
    assert done.mapping["tag_line"] == "Ext. Retail"
    assert [caution.what[:48] for caution in done.cautions] == ["The file's own total does not agree with its lin"]


@pytest.mark.parametrize("build", [xlsx, ods, xls])
def test_workbooks_give_the_same_lines(build) -> None:
    rows = [["Load 7"], HEADER, ["Blue mug", 2, 9.5, 19, "New", 36000291452, "Orrin"], ["Jug", 1, 3, 3, "Used", "", ""]]
    lines = read_manifest(build(rows), "load.bin", {}, "USD").lines
    assert (lines.row.tolist(), lines.quantity.tolist(), lines.tag_each.tolist()) == ([3, 4], [2, 1], [950, 300])
    assert lines.gtin.tolist() == ["036000291452", ""]


def test_types_of_the_columns() -> None:
    lines = read(["Mug", 1, 2, 2, "New", "", ""]).lines
    kinds = {name: getattr(lines, name).dtype.str.lstrip("<|") for name in lines.__dataclass_fields__}
    assert kinds == {
        "no": "i8", "row": "i8", "description": "O", "brand": "O", "category": "O", "condition": "i1", "quantity": "i8",
        "tag_each": "f8", "sku": "O", "gtin": "O", "weight_kg": "f8", "pallet": "O", "assorted": "b1",
        "condition_said": "O",
    }  # fmt: skip
    assert all(isinstance(text, str) for text in lines.description)


def test_a_tag_of_the_line_alone_is_divided_and_zero_is_as_claimed() -> None:
    done = read(["Mug", 3, "", 10, "", "", ""], ["Jug", 1, 0, "", "", "", ""])
    assert done.lines.tag_each.tolist() == [pytest.approx(1000 / 3), 0.0]
    assert told(done) == []


def test_rounding_of_a_unit_tag_is_no_contradiction() -> None:
    assert told(read(["Mug", 3, "3.33", "10.00", "", "", ""])) == []
    assert told(read(["Mug", 3, "3.30", "10.00", "", "", ""])) == [(2, "tag_line", "the tag of one unit is kept")]


def test_a_negative_tag_of_the_line_is_blank_and_named() -> None:
    done = read(["Mug", 2, "", -10, "", "", ""])
    assert np.isnan(done.lines.tag_each[0])
    assert told(done) == [(2, "tag_line", "left blank")]


def test_a_price_of_unknown_meaning_is_asked() -> None:
    with pytest.raises(NeedsColumns) as caught:
        read(["Mug", 10], header=["Description", "Price"])
    assert caught.value.missing == ("tag_each",)


@pytest.mark.parametrize(
    ("cells", "currency", "words"),
    [
        (["$5", "$6"], "USD", []),
        (["$5", "$6"], "CAD", []),
        (["US$5", "$6"], "USD", []),
        (["5", "6"], "USD", []),
        (["$5", "€6"], "USD", ["mixes currency"]),
        (["€5", "€6"], "USD", ["currency in force is USD"]),
        (["£5", "6"], "EUR", ["currency in force is EUR"]),
    ],
)
def test_currency_signs(cells: list[str], currency: str, words: list[str]) -> None:
    done = read(*[["Mug", 1, cell, "", "", "", ""] for cell in cells], currency=currency)
    assert len(done.cautions) == len(words)
    assert all(word in caution.what for word, caution in zip(words, done.cautions, strict=True))
    assert done.lines.tag_each.tolist() == [500, 600]


def test_a_currency_in_the_header_counts_and_a_stranger_is_named() -> None:
    done = read(["Mug", "5"], ["Jug", "$6"], ["Pot", "7"], header=["Description", "Retail (EUR)"], currency="EUR")
    assert "currency" in done.cautions[0].what
    assert told(done) == [(3, "tag_each", "kept as written")]


@pytest.mark.parametrize(("currency", "minor"), [("JPY", 1234), ("USD", 123400), ("KWD", 1234000)])
def test_minor_units_of_the_currency(currency: str, minor: float) -> None:
    assert read(["Mug", 1, 1234, "", "", "", ""], currency=currency).lines.tag_each[0] == minor


def test_duplicates_stay_lines() -> None:
    row = ["Mug", 1, 5, 5, "New", "", "Orrin"]
    assert len(read(row, row, row).lines) == 3


def test_a_mapping_is_used_and_told() -> None:
    data = delimited([["Was", "Wert"], ["Mug", "5"]])
    done = read_manifest(data, "x.csv", {"description": "Was", "tag_each": "Wert", "title": "Elsewhere"}, "USD")
    assert done.mapping == {"description": "Was", "tag_each": "Wert"}
    again = read_manifest(data, "x.csv", done.mapping, "USD")
    assert again.lines.tag_each.tolist() == [500]


def test_a_mended_row_is_named() -> None:
    data = b'Description,Brand,Qty,Tag\n"Big mug,Orrin,1,2\nJug,Orrin,1,2\n'
    done = read_manifest(data, "x.csv", {}, "USD")
    assert done.lines.quantity.tolist() == [1, 1]
    assert told(done) == [(2, "", "read as an ordinary sign")]


def test_a_long_cell_is_told_shortened() -> None:
    done = read(["Mug", "x" * 999, "", "", "", "", ""], ["Jug", 1, "", "", "", "", ""])
    assert len(done.problems.items[0].value) == 200


@pytest.mark.parametrize(
    ("rows", "says"),
    [([HEADER], "header but no lines"), ([HEADER, ["Mug", 0, "", "", "", "", ""]], "all 1 rows were set aside")],
)
def test_a_manifest_without_a_line_is_refused(rows: list[list[object]], says: str) -> None:
    with pytest.raises(Unreadable, match=says):
        read_manifest(delimited(rows), "load.csv", {}, "USD")


def test_other_refusals() -> None:
    with pytest.raises(NeedsColumns):
        read(["Mug", "1"], header=["Thing", "Qty"])
    with pytest.raises(Rejected):
        read(["Mug", 1, "", "", "", "", ""], currency="dollars")
    with pytest.raises(Rejected):
        read_manifest(delimited([HEADER]), "x.csv", {"colour": "Brand"}, "USD")
