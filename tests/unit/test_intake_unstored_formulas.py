"""Workbooks whose formulas have no stored results: names, and quantities that tags tell, or nobody."""

from typing import Any

import pytest
from manifest_reading import saved, sheet_of

from models.intake.manifest import ReadManifest, read_manifest
from models.values.errors import NeedsColumns, Unreadable

GOODS = (("Kettle", 2, 9.5), ("Lamp", 3, 24.0), ("Mug", 1, 3.0), ("Pan", 5, 7.0))


def read(*rows: list[Any], **mapping: str) -> ReadManifest:
    book, _ = sheet_of(*rows)
    return read_manifest(saved(book), "load.xlsx", mapping, "USD")


def test_two_tags_tell_quantities_without_results() -> None:
    rows = [[goods, f"={units}+0", tag, units * tag] for goods, units, tag in GOODS]
    done = read(["Item", "Qty", "Unit Retail", "Ext. Retail"], *rows)
    assert done.lines.quantity.tolist() == [2, 3, 1, 5]
    assert [one.done for one in done.problems.items if one.row == 2] == ["left blank", "counted as 2"]


def test_quantities_without_results_that_nothing_tells_are_asked() -> None:
    rows = [["Item", "Qty", "Unit Retail"], *([goods, f"={units}+0", tag] for goods, units, tag in GOODS)]
    with pytest.raises(NeedsColumns, match="formulas whose results are not stored") as asked:
        read(*rows)
    assert asked.value.missing == ("quantity",)
    assert read(*rows, quantity="-").lines.quantity.tolist() == [1, 1, 1, 1]


def test_some_quantities_without_results_are_counted_as_one_and_named() -> None:
    rows = [[goods, units if units > 1 else "=1+0", tag] for goods, units, tag in GOODS]
    done = read(["Item", "Qty", "Unit Retail"], *rows)
    assert done.lines.quantity.tolist() == [2, 3, 1, 5]
    assert "counted as 1" in [one.done for one in done.problems.items]


def test_names_without_results_are_said_to_be_formulas() -> None:
    rows = [[f'=HYPERLINK("https://shop.example/{goods}","{goods}")', units, tag] for goods, units, tag in GOODS]
    with pytest.raises(Unreadable, match=r"formula whose result is not stored in the file\. Open the file"):
        read(["Item Description", "Qty", "Unit Retail"], *rows)
