"""One row a line, as a spreadsheet opens it; a text that a spreadsheet would run as a formula is made harmless."""

import csv
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from api.cli.answers import Answer
from models.values.spreadsheet_text import harmless

COLUMNS = (
    "no", "source_row", "item", "description", "brand", "category", "condition", "quantity", "tag_each", "tag_used",
    "sku", "gtin", "unit_price_mean", "unit_price_p10", "unit_price_p50", "unit_price_p90", "share_sold",
    "days_to_sell", "listing_minutes", "cash_proceeds", "proceeds_after_pay", "action", "basis", "sales_like_it",
)  # fmt: skip
TEXTS = frozenset(
    {"manifest", "item", "description", "brand", "category", "condition", "sku", "gtin", "action", "basis"}
)


def write_lines(path: Path, answers: tuple[Answer, ...]) -> None:
    """The lines of every manifest that could be read; of several manifests each row names its own first."""
    columns = COLUMNS if len(answers) == 1 else ("manifest", *COLUMNS)
    with path.open("w", encoding="utf-8", newline="") as file:
        table = csv.writer(file)
        table.writerow(columns)
        for answer in answers:
            for line in answer.lines:
                table.writerow([_cell(name, line, str(answer.path)) for name in columns])


def _cell(name: str, line: Mapping[str, Any], manifest: str) -> Any:
    value = manifest if name == "manifest" else _value(name, line)
    if value is None:
        return ""
    return harmless(str(value)) if name in TEXTS else value


def _value(name: str, line: Mapping[str, Any]) -> Any:
    if name.startswith("unit_price_"):
        return line["unit_price"][name.removeprefix("unit_price_")]
    if name in ("basis", "sales_like_it"):
        return line["evidence"][name]
    return line[name]
