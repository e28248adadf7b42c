"""The table of lines: the columns outside checks rely on, money untouched, no text that a spreadsheet would run."""

import csv
from pathlib import Path
from typing import Any

import pytest

from api.cli.answers import Answer
from api.cli.line_table import write_lines
from models.values.spreadsheet_text import harmless

COLUMNS = [
    "no", "source_row", "item", "description", "brand", "category", "condition", "quantity", "tag_each", "tag_used",
    "sku", "gtin", "unit_price_mean", "unit_price_p10", "unit_price_p50", "unit_price_p90", "share_sold",
    "days_to_sell", "listing_minutes", "cash_proceeds", "proceeds_after_pay", "action", "basis", "sales_like_it",
]  # fmt: skip
LINE: dict[str, Any] = {
    "no": 1,
    "source_row": 5,
    "item": "kettle | sealed",
    "description": '=HYPERLINK("x")',
    "brand": "@brand",
    "category": "Kitchen > Appliances",
    "condition": "sealed",
    "quantity": 3,
    "tag_each": "39.99",
    "tag_used": None,
    "sku": "-7",
    "gtin": "012345000065",
    "unit_price": {"mean": "12.00", "p10": "8.00", "p50": "11.50", "p90": "17.00"},
    "share_sold": 0.8,
    "days_to_sell": None,
    "listing_minutes": 14.5,
    "cash_proceeds": "-2.50",
    "proceeds_after_pay": "-9.00",
    "action": "skip",
    "evidence": {"basis": "own_item", "sales_like_it": 4},
}


def table(path: Path) -> list[list[str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.reader(file))


def test_columns_and_values(tmp_path: Path) -> None:
    write_lines(tmp_path / "out.csv", (Answer(Path("a.csv"), {}, (LINE,)),))
    head, row = table(tmp_path / "out.csv")
    assert head == COLUMNS
    found = dict(zip(head, row, strict=True))
    assert found["description"] == '\'=HYPERLINK("x")'
    assert (found["brand"], found["sku"]) == ("'@brand", "'-7")
    assert (found["cash_proceeds"], found["tag_used"], found["days_to_sell"]) == ("-2.50", "", "")
    assert (found["unit_price_p90"], found["basis"], found["gtin"]) == ("17.00", "own_item", "012345000065")


def test_several_manifests_name_theirs_first(tmp_path: Path) -> None:
    answers = (
        Answer(Path("a.csv"), {}, (LINE,)),
        Answer(Path("b.csv"), {}, (), "no"),
        Answer(Path("c.csv"), {}, (LINE,)),
    )
    write_lines(tmp_path / "out.csv", answers)
    rows = table(tmp_path / "out.csv")
    assert rows[0] == ["manifest", *COLUMNS]
    assert [row[0] for row in rows[1:]] == ["a.csv", "c.csv"]


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r"])
def test_a_text_that_would_run_is_made_harmless(sign: str) -> None:
    assert harmless(sign + "1") == "'" + sign + "1"
    assert harmless("1" + sign) == "1" + sign
