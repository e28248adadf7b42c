"""Headings above goods give their condition to lines that have none of their own, beside a column of them too."""

from intake_files import delimited

from models.intake.manifest import read_manifest
from models.values.conditions import name_of


def test_blank_conditions_are_those_of_the_heading_above() -> None:
    rows: list[list[object]] = [
        ["Item", "Cond.", "Qty", "Unit MSRP"],
        ["PALLET A - 2 SKUs - OPEN BOX"],
        ["Copper kettle", "", 4, "39.99"],
        ["Glass teapot", "Not tested", 2, "24.00"],
        ["PALLET B - SALVAGE"],
        ["Desk lamp", "", 3, "45.00"],
        ["Desk lamp shade", "New", 1, "12.00"],
    ]
    read = read_manifest(delimited(rows), "m.csv", {}, "USD")
    assert [name_of(code) for code in read.lines.condition] == ["opened", "untested", "salvage", "sealed"]
    said = [one.what for one in read.cautions if "heading" in one.what]
    assert said == ["2 lines have no condition in the column of conditions: it was taken from the heading above."]


def test_how_many_is_a_count() -> None:
    rows: list[list[object]] = [["Item", "How many", "Unit MSRP"], ["Copper kettle", 4, "39.99"]]
    assert read_manifest(delimited(rows), "m.csv", {}, "USD").lines.quantity.tolist() == [4]
