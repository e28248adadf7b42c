"""Figures about all rows at the end of the goods are no goods: means, extremes, counts of rows, a net."""

import pytest
from intake_files import delimited

from models.intake.manifest import ReadManifest, read_manifest
from models.intake.shape.tallies import LIKE_TOTAL

GOODS = (["Kettle", 2, 30], ["Lamp", 4, 15], ["Mug", 1, 45])


def read(*rows: list[object]) -> ReadManifest:
    return read_manifest(
        delimited([["Description", "Qty", "Retail"], *GOODS, *rows]), "m.csv", {"tag_is": "unit"}, "USD"
    )


@pytest.mark.parametrize(
    "figures",
    [
        [["Min", 1, 15], ["Max", 4, 45], ["Median", 2, 30], ["Mean", 2, 30], ["Avg.", 2, 30], ["Count", 3, 3]],
        [["Average price", "", 30]], [["Rows: 3", "", ""]], [["No. of lines", 3, ""]], [["Durchschnitt", 2, 30]],
        [["Net", "", 108]], [["Netto", "", 108]],
    ],
)  # fmt: skip
@pytest.mark.parametrize("total", [True, False])
def test_figures_at_the_end_are_set_aside_and_named(figures: list[list[object]], total: bool) -> None:
    done = read(*([["Total", 7, 165]] if total else []), *figures)
    assert done.lines.description.tolist() == ["Kettle", "Lamp", "Mug"]
    assert [one.reason for one in done.problems.items] == [LIKE_TOTAL] * len(figures)
    assert not any("does not agree" in one.what for one in done.cautions)


@pytest.mark.parametrize("name", ["Max drill", "Mini lamp", "Mean machine toy", "Net bag", "Count mask", "Row boat"])
def test_goods_that_begin_so_are_lines(name: str) -> None:
    assert read([name, 3, 20]).lines.description.tolist()[-1] == name


@pytest.mark.parametrize("row", [["Max", 3, 20], ["Net", 3, 20]])
def test_among_the_goods_they_are_lines(row: list[object]) -> None:
    assert row[0] in read(row, ["Vase", 1, 8]).lines.description.tolist()


def test_a_net_that_is_counted_is_a_line() -> None:
    assert read(["Net", 3, 20]).lines.description.tolist()[-1] == "Net"
