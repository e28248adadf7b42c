"""Which figures of a contract line can be sorted by?"""

from collections.abc import Mapping
from typing import Any

_TEXTS = ("description", "brand", "category")
_FIGURES = ("tag_each", "share_sold", "days_to_sell", "listing_minutes", "cash_proceeds", "proceeds_after_pay")


def evaluation_row(line: Mapping[str, Any]) -> dict[str, Any]:
    """The columns of one line; a figure the line does not have yet is blank."""
    said = {name: line.get(name) or "" for name in _TEXTS}
    evidence = line.get("evidence", {})
    return {
        "no": line["no"],
        "searched": " ".join(said.values()).lower(),
        **said,
        "condition": line.get("condition"),
        "action": line.get("action"),
        "basis": evidence.get("basis"),
        "quantity": line["quantity"],
        "sales_like_it": evidence.get("sales_like_it"),
        "unit_price_mean": _number(line.get("unit_price", {}).get("mean")),
        **{name: _number(line.get(name)) for name in _FIGURES},
        "document": dict(line),
    }


def _number(value: Any) -> float | None:
    return None if value in (None, "") else float(value)
