"""A pivot's rows of groups, which sum the rows below them, are no goods; goods that come out by chance stay."""

import pytest
from intake_files import delimited

from models.intake.manifest import ReadManifest, read_manifest

PIVOT: list[list[object]] = [
    ["Lighting", 5, 150], ["Table lamp", 2, 60], ["Desk lamp", 3, 90], ["Decor", 5, 105], ["Clock", 4, 60],
    ["Mirror", 1, 45],
]  # fmt: skip
GOODS = ["Table lamp", "Desk lamp", "Clock", "Mirror"]


def read(*rows: list[object]) -> ReadManifest:
    header = ["Row Labels", "Sum of Qty", "Sum of Ext Retail"]
    return read_manifest(delimited([header, *rows]), "m.csv", {}, "USD")


@pytest.mark.parametrize("total", [[["Grand Total", 10, 255]], []])
def test_rows_of_groups_are_named_and_no_lines(total: list[list[object]]) -> None:
    done = read(*PIVOT, *total)
    assert done.lines.description.tolist() == GOODS
    assert (int(done.lines.quantity.sum()), done.problems.items) == (10, ())
    [told] = [one.what for one in done.cautions if "no goods" in one.what]
    assert "'Lighting 5 150' (row 2), 'Decor 5 105' (row 5)" in " ".join(told.split())
    assert not any("does not agree" in one.what for one in done.cautions)


def test_without_money_a_total_must_tell() -> None:
    rows = [[name, units, ""] for name, units, _ in PIVOT]
    assert read(*rows, ["Grand Total", 10, ""]).lines.description.tolist() == GOODS
    assert len(read(*rows).lines) == 6
    assert len(read(*rows, ["Grand Total", 20, ""]).lines) == 6


@pytest.mark.parametrize(
    "rows",
    [
        [["Mug", 1, 5], ["Jug", 1, 5], ["Pot", 1, 5], ["Pan", 1, 5]],  # each the sum of the one below
        [["Set", 2, 10], ["Mug", 1, 5], ["Jug", 1, 5]],  # one group
        [*PIVOT, ["Vase", 1, 8]],  # goods beside the groups
    ],
)
def test_what_comes_out_by_chance_is_goods(rows: list[list[object]]) -> None:
    assert len(read(*rows).lines) == len(rows)
