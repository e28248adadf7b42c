"""What do amounts in the file prove sold prices to be for: one unit, or all units of their row?"""

from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import product

import numpy as np

from models.intake.cells.amounts import Amounts, read_amounts
from models.intake.cells.money_words import other_money
from models.intake.cells.price_words import PriceSort, price_sort, says_each, says_line
from models.intake.fields.unread_money import money_unread
from models.intake.grid import plain_text
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray, IntArray

UNIT, ROW = "unit", "row"
_FEW = 2  # rows of several units that prove; one alone may be chance
_MOST = 0.9  # of the rows, whose sums must come out
_CLOSE = 1.0  # minor unit
_ADDED, _TAKEN = ("shipping_charged", "tax"), ("fees", "shipping_paid", "discount")  # what totals and payouts hold
_PRICES = (PriceSort.VAGUE, PriceSort.REDUCED)


@dataclass(frozen=True)
class Proof:
    """What speaks for `basis`, in the words of `since`; `sure` where that is enough by itself.

    `counted`: the quantity itself stands in the sum, which goes before what titles seem to say: in a long file some
    title's prices come out either way by chance.
    """

    basis: str
    sure: bool
    since: str
    counted: bool = False


def proofs(
    table: Table, amounts: Mapping[str, Amounts], quantity: IntArray, used: BoolArray, currency: str
) -> tuple[Proof, ...]:
    """All that speaks for either.

    Parameters
    ----------
    table : Table
        The file.
    amounts : mapping
        Money columns [minor units], `sold_price` among them.
    quantity : ndarray of shape (n_rows,)
        Units.
    used : ndarray of shape (n_rows,)
        Rows with a price that count.
    currency : str
        ISO 4217.
    """
    told = (*_by_columns(table, amounts, quantity, used, currency),)
    if len({one.basis for one in told}) == 1 and any(one.sure and one.counted for one in told):
        return told
    return (*_by_titles(table, amounts["sold_price"].minor, quantity, used), *told)


def _by_titles(table: Table, price: FloatArray, quantity: IntArray, used: BoolArray) -> Iterator[Proof]:
    """Rows whose price is another row's of the same title times the ratio of their units, and is just that price."""
    seen: dict[str, dict[int, set[float]]] = defaultdict(lambda: defaultdict(set))
    titles = table.cells("title")
    for row in np.flatnonzero(used).tolist():
        seen[plain_text(titles[row]).casefold()][int(quantity[row])].add(float(price[row]))
    by_row = by_unit = 0
    for of_title in seen.values():
        first, *others = sorted(of_title)
        for units in others:
            known = of_title[first]
            by_row += any(abs(p * first - q * units) < 1 for p in of_title[units] for q in known)
            by_unit += bool(of_title[units] & known)
    if by_row:
        yield Proof(ROW, by_row >= _FEW, "one title's prices grow with its quantity")
    if by_unit:
        yield Proof(UNIT, by_unit >= _FEW, "one title's price is the same whatever its quantity")


def _by_columns(
    table: Table, amounts: Mapping[str, Amounts], quantity: IntArray, used: BoolArray, currency: str
) -> Iterator[Proof]:
    """Columns that nobody reads: the price of one unit beside the row's, or a total or payout that comes out."""
    for header, read in read_amounts(money_unread(table), currency, table.comma_likely).items():
        rows = len(read.minor)
        told, units = np.where(used[:rows], read.minor, np.nan), quantity[:rows].astype(np.float64)
        price, several = amounts["sold_price"].minor[:rows], units > 1
        if _may_be_price(header) and _comes_out(told * units, price, several, _CLOSE * np.maximum(units, 1.0)):
            sure = _enough(told, several) and not says_each(table.headers["sold_price"])
            yield Proof(ROW, sure, f"it is the quantity times '{header}'", counted=True)
        beside = {name: np.nan_to_num(read.minor[:rows]) for name, read in amounts.items()}
        yield from _by_total(header, told, (price, units), beside)


def _may_be_price(header: str) -> bool:
    sort = price_sort(header)
    return not other_money(header) and (sort in _PRICES or (sort is None and says_each(header)))


def _by_total(
    header: str, total: FloatArray, goods: tuple[FloatArray, FloatArray], beside: Mapping[str, FloatArray]
) -> Iterator[Proof]:
    """A total of the row proves by its header too; any other sum with a row's price in it may be a unit's."""
    price, units = goods
    several = units > 1
    signed = [beside[name] for name in _ADDED if name in beside]
    signed += [-np.abs(beside[name]) for name in _TAKEN if name in beside]
    for chosen in product((False, True), repeat=len(signed)):
        more = sum((one for one, taken in zip(signed, chosen, strict=True) if taken), np.zeros(len(price)))
        if _comes_out(price * units + more, total, several, _CLOSE):
            yield Proof(UNIT, _enough(total, several), f"the quantity times it makes '{header}'", counted=True)
        whole = says_line(header)
        if (whole or more[several].any()) and _comes_out(price + more, total, several, _CLOSE):
            yield Proof(ROW, whole and _enough(total, several), f"it makes '{header}' without the quantity")


def _enough(told: FloatArray, several: BoolArray) -> bool:
    return int((np.isfinite(told) & several).sum()) >= _FEW


def _comes_out(made: FloatArray, told: FloatArray, several: BoolArray, close: float | FloatArray) -> bool:
    """Most rows, and most of those of several units, come to the same but for rounding."""
    both = np.isfinite(made) & np.isfinite(told)
    right = np.abs(made - told) <= close
    counted = both & several
    return bool(counted.any()) and bool(right[both].mean() >= _MOST) and bool(right[counted].mean() >= _MOST)
