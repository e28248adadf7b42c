"""Lines of an order that are none of its goods: a discount is taken off their prices, a tip or gift wrap set aside.

Common practice, no source: what is taken off an order as it is made is part of the price, what is paid back later is a
refund.
"""

import re
from collections import defaultdict
from collections.abc import Mapping

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.reading import ASIDE
from models.intake.cells.word_lists import word_list
from models.intake.grid import is_blank, plain_text, written_cell
from models.intake.sales.sale_orders import orders_of
from models.intake.sales.sale_words import Kind, row_kind
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray

_BESIDE = "|".join(
    word_list(r"""
        tips?; gratuity; gift[ -]?(?:wrap(?:ping)?|packag(?:e|ing)|note|message)(?: fee)?; trinkgeld;
        geschenkverpackung; pourboire; emballage cadeau; propina; envoltorio(?: de)? regalo; mancia; confezione regalo;
        fooi; cadeauverpakking; donation; rounding; p\s*&\s*p; postage (?:and|&|\+) packing;
        (?:standard|express|economy|priority|free|tracked|insured|(?:first|second)[ -]class|international)
        (?:shipping|postage|delivery|mail); (?:shipping|delivery) insurance; insurance
    """)
)
_DISCOUNT = re.compile(
    r"(?i:(?:(?:order|bundle|volume|seller|shop|promo(?:tion(?:al)?)?)\s+)?(?:discount|coupon|voucher|promo(?:tion)?|"
    r"rabatt|gutschein|nachlass|remise|réduction|descuento|cupón|sconto|buono|korting))(?:\s+(?:code\s+)?[A-Z0-9%-]+)?"
)
# Of many titles, one a line: few orders have such a line, which is told of all at once.
_NONE = re.compile(rf"\n((?i:{_BESIDE})|{_DISCOUNT.pattern})(?=\n)")
_KEYS = ("sku", "gtin", "listing_ref")


def taken_off(table: Table, amounts: Mapping[str, Amounts], findings: Findings) -> FloatArray:
    """Set lines of orders aside that are no goods.

    Parameters
    ----------
    table : Table
        The file.
    amounts : mapping
        Its money columns [minor units a row].
    findings : Findings
        Told of each such line.

    Returns
    -------
    ndarray of shape (n_rows,)
        Discount of the order [minor units] on each of its rows, 0 for none.

    Notes
    -----
    Such a line stands in an order of other goods and has no key of its own.  A discount is below zero and of the same
    day as the goods, called neither like one of them nor a refund, and less than their prices; or it is called one.
    """
    off = np.zeros(len(table))
    if not {"sold_price", "order_ref", "title"} <= set(table.columns) or "sold_price" not in amounts:
        return off
    price, below = amounts["sold_price"].minor.tolist(), bool((amounts["sold_price"].minor < 0).any())
    titles, cells = table.cells("title"), table.cells("sold_price")
    none = set(_NONE.findall("\n".join(["", *map(str, titles), ""])))
    for order in orders_of(table, ~findings.aside) if none or below else ():
        odd = [row for row in order if price[row] < 0 or titles[row] in none]
        goods = [row for row in order if price[row] > 0 and row not in odd]
        for row in odd if goods else ():
            amount, called = abs(price[row]), bool(_DISCOUNT.fullmatch(plain_text(titles[row])))
            if not _keyless(table, row) or not amount > 0:
                continue
            less = called or (price[row] < 0 and _reduces(table, row, goods))
            if less and amount < sum(price[other] for other in goods):
                off[goods] += amount
                findings.name(row, "sold_price", cells[row], "a discount: taken off the prices of its order", ASIDE)
            elif price[row] > 0:
                findings.name(row, "title", titles[row], "money beside the goods of an order", ASIDE)
    return off


def less_discounts(price: FloatArray, quantity: IntArray, off: FloatArray, table: Table) -> FloatArray:
    """Sold price of a unit with the discount of its order taken off, by what each of its goods brought.

    Parameters
    ----------
    price : ndarray of shape (n_rows,)
        [minor units a unit]
    quantity : ndarray of shape (n_rows,)
        Units.
    off : ndarray of shape (n_rows,)
        Of the row's order [minor units].
    table : Table
        The file.

    Returns
    -------
    ndarray of shape (n_rows,)
        [minor units a unit]
    """
    if not off.any():
        return price
    whole: dict[str, float] = defaultdict(float)
    refs = [written_cell(cell) for cell in table.cells("order_ref")]
    rows = np.flatnonzero((off > 0) & (price > 0)).tolist()
    for row in rows:
        whole[refs[row]] += float(price[row] * max(quantity[row], 1))
    made = price.copy()
    for row in rows:
        made[row] *= max(1.0 - off[row] / whole[refs[row]], 0.0)
    return made


def _keyless(table: Table, row: int) -> bool:
    return all(is_blank(written_cell(table.columns[name][row])) for name in _KEYS if name in table.columns)


def _reduces(table: Table, row: int, goods: list[int]) -> bool:
    """Made with the order itself: of its day, and neither called a refund nor by the name of goods."""
    days, titles = table.cells("sold_on"), table.cells("title")
    said = [table.columns[name][row] for name in ("title", "kind", "status") if name in table.columns]
    named = {plain_text(titles[other]).casefold() for other in goods} | {""}
    return (
        any(days[other] == days[row] for other in goods)
        and plain_text(titles[row]).casefold() not in named
        and all(row_kind(cell) in (None, Kind.SALE) for cell in said)
    )
