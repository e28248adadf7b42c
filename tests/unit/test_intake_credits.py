"""What is taken off the price is nothing to sell: set aside and named, and goods with a tag below zero stay."""

import pytest
from intake_files import delimited

from models.intake.lines.credits import CREDIT
from models.intake.manifest import ReadManifest, read_manifest

HEADER = ["Description", "Qty", "Unit Retail", "Ext Retail", "SKU"]


def read(*rows: list[object]) -> ReadManifest:
    goods = [["Kettle", 2, 30, 60, "a"], ["Lamp", 4, 15, 60, "b"], ["Mug", 1, 45, 45, "c"]]
    return read_manifest(delimited([HEADER, *goods, *rows]), "m.csv", {"tag_is": "unit"}, "USD")


@pytest.mark.parametrize(
    "row",
    [
        ["Discount", 1, "-12.00", "", ""], ["Refund of a lamp", 1, "(15.00)", "", ""], ["Credit memo", "", -15, "", ""],
        ["Adjustment", 1, "", "-5", ""], ["Less: 10% shrink", "", "", "-12", ""], ["Gutschrift", 1, "-3,00", "", ""],
        ["Goodwill", "", "", "(15.00)", ""], ["Return credit", 1, "15.00-", "", ""],
    ],
)  # fmt: skip
def test_a_credit_is_set_aside_and_named(row: list[object]) -> None:
    done = read(row)
    assert done.lines.description.tolist() == ["Kettle", "Lamp", "Mug"]
    assert [(one.row, one.reason) for one in done.problems.items if one.done == "set aside"] == [(5, CREDIT)]


@pytest.mark.parametrize(
    "row",
    [
        ["Vase", 1, -5, "", ""], ["Wireless mouse", 1, -5, "", ""], ["Discount card game", 1, -5, "", "d"],
        ["Credit card holder", 1, 5, "", ""], ["Shorts", 1, -5, "", ""],
    ],
)  # fmt: skip
def test_goods_are_lines_whatever_their_tag(row: list[object]) -> None:
    assert read(row).lines.description.tolist() == ["Kettle", "Lamp", "Mug", row[0]]


def test_where_most_amounts_are_below_zero_nothing_is_told_by_it() -> None:
    rows = [["Description", "Retail", "Qty"], ["Kettle", -30, ""], ["Lamp", -15, ""], ["Mug", -45, ""]]
    assert len(read_manifest(delimited(rows), "m.csv", {"tag_is": "unit"}, "USD").lines) == 3
