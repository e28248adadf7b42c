"""How may lines be sorted and filtered?"""

from typing import Any

import sqlalchemy as sa

from models.values.errors import Rejected

NUMBERS = (
    "no", "quantity", "tag_each", "unit_price_mean", "share_sold", "days_to_sell", "listing_minutes", "cash_proceeds",
    "proceeds_after_pay", "sales_like_it",
)  # fmt: skip
TEXTS = ("description", "brand", "category", "condition", "action", "basis")
SORTABLE = NUMBERS + TEXTS
TERMS = ("brand", "category", "condition", "action", "basis")


def sort_column(table: sa.Table, sort: str) -> tuple[sa.Column[Any], bool]:
    """The column of a `sort` and whether it falls; Rejected if lines have none such."""
    name = sort.removeprefix("-")
    if name not in SORTABLE or name not in table.c:
        raise Rejected(f"Lines cannot be sorted by '{name}'; use one of {', '.join(SORTABLE)}.")
    return table.c[name], sort.startswith("-")


def filtered(table: sa.Table, words: str) -> list[sa.ColumnElement[bool]]:
    """Conditions of a `filter`: every word is held, every name:value term matches in lower case."""
    conditions: list[sa.ColumnElement[bool]] = []
    for word in words.lower().split():
        name, colon, value = word.partition(":")
        if colon and name in TERMS:
            if name not in table.c:
                raise Rejected(f"Lines have no '{name}' before the lot is evaluated.")
            conditions.append(sa.func.lower(table.c[name]).contains(value, autoescape=True))
        else:
            conditions.append(_searched(table).contains(word, autoescape=True))
    return conditions


def _searched(table: sa.Table) -> sa.ColumnElement[str]:
    if "searched" in table.c:
        return table.c.searched
    spaced = table.c.description + " " + table.c.brand + " " + table.c.category
    return sa.func.lower(spaced)
