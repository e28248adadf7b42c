"""Which sales teach prices, and what does the regression see of each?"""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import Facts, kinds
from models.estimate.price_model import UNKNOWN_BULK
from models.values.arrays import BoolArray, CodeArray, DayArray, FloatArray, TextArray, texts
from models.values.sales import Sales

_GAP = "\x1f"
_BLANK_ROWS = 10.0  # told rows that the guess for a blank is worth
_NAMED_LOTS = 5  # from so many lots with a name on, the spread between lots is learned from them


@dataclass(frozen=True)
class Dates:
    """When each row sold, as far as is known."""

    day: FloatArray  # (n_rows,) days since 1970, NaN unknown
    age: FloatArray  # (n_rows,) days before the last known sale
    last: float  # days since 1970 of the last known sale, NaN none


def known_rows(sales: Sales, known_until: np.datetime64) -> BoolArray:
    """Rows of that day or before; a blank date counts as known.

    Examples
    --------
    >>> from dataclasses import replace
    >>> day = np.array(["2026-01-01", "2026-03-01", "NaT"], dtype="datetime64[D]")
    >>> known_rows(replace(Sales.blank(3), sold_on=day), np.datetime64("2026-02-01")).tolist()
    [True, False, True]
    """
    sold = np.isnat(sales.sold_on) | (sales.sold_on <= known_until)
    listed = np.isnat(sales.listed_on) | (sales.listed_on <= known_until)
    return np.asarray(sold & (listed | ~np.isnat(sales.sold_on)), dtype=np.bool_)


def usable(sales: Sales) -> BoolArray:
    """Rows that fetched a price.

    Examples
    --------
    >>> from dataclasses import replace
    >>> usable(replace(Sales.blank(3), sold_price=np.array([100.0, 0.0, np.nan]))).tolist()
    [True, False, False]
    """
    return np.asarray(np.nan_to_num(sales.sold_price) > 0, dtype=np.bool_)


def dates(sales: Sales) -> Dates:
    """Sold days, the listing day standing in for a blank one; a row without either is as old as the others.

    Examples
    --------
    >>> from dataclasses import replace
    >>> day = np.array(["2026-01-01", "2026-01-11"], dtype="datetime64[D]")
    >>> dates(replace(Sales.blank(2), sold_on=day)).age.tolist()
    [10.0, 0.0]
    """
    sold, listed = _days(sales.sold_on), _days(sales.listed_on)
    known = sold[~np.isnan(sold)]
    last = float(known.max()) if len(known) else float("nan")
    day = np.where(np.isnan(sold), np.minimum(listed, last), sold)
    age = last - day
    middle = float(np.median(age[~np.isnan(age)])) if np.any(~np.isnan(age)) else 0.0
    return Dates(day, np.where(np.isnan(age), middle, age), last)


def facts_of(sales: Sales, when: Dates, tag: FloatArray, no_tag: FloatArray) -> Facts:
    """Facts of every row; `tag` is the product's r* less the centre, `no_tag` 1 where it has no own tag."""
    top, sub, brand = kinds(sales.category, sales.brand)
    bulk = bulk_share(sales.sourced, sales.lot)
    listed = _days(sales.listed_on)
    purchase = purchases(sales.lot, np.where(np.isnan(listed), when.day, listed), sales.sourced == 0)
    return Facts(sales.condition, top, sub, brand, sales.title, tag, no_tag, bulk, when.age, when.day, purchase)


def bulk_share(sourced: CodeArray, lot: TextArray) -> FloatArray:
    """1 bought in bulk, 0 single find; a blank is what rows with and without a lot's name usually are in this history.

    Where the history does not tell both kinds apart, a blank is 1 with a lot's name and 1/3 without.

    Examples
    --------
    >>> bulk_share(np.array([1, -1, -1], dtype=np.int8), texts(["A", "a", ""])).round(2).tolist()
    [1.0, 1.0, 0.33]
    >>> bulk_share(np.array([1] + [0] * 90 + [-1], dtype=np.int8), texts(["A"] + [""] * 91)).round(2).tolist()[-1]
    0.03
    """
    named = np.array([bool(name.strip()) for name in lot], dtype=np.bool_)
    told = sourced >= 0
    usual = np.where(named, 1.0, UNKNOWN_BULK)
    if np.any(sourced == 1) and np.any(sourced == 0):
        for of_kind in (named, ~named):
            rows = sourced[told & of_kind]
            usual[of_kind] = (rows.sum() + _BLANK_ROWS * usual[of_kind]) / (len(rows) + _BLANK_ROWS)
    return np.where(told, sourced, usual).astype(np.float64)


def purchases(lot: TextArray, day: FloatArray, single: BoolArray) -> TextArray:
    """The purchase a row came from: its named lot, else the week it was listed in; a single find came from none.

    Goods of one lot are listed together and sell apart, so the listing week tells lots better than the week of sale.

    Examples
    --------
    >>> purchases(texts(["Lot A", "", ""]), np.array([7.0, 14.0, 14.0]), np.array([False, False, True])).tolist()
    ['lot\\x1flot a', 'week\\x1f2', '']
    """
    found = []
    for name, when, alone in zip(lot.tolist(), day.tolist(), single.tolist(), strict=True):
        if name.strip():
            found.append(f"lot{_GAP}{' '.join(name.casefold().split())}")
        else:
            found.append("" if alone or np.isnan(when) else f"week{_GAP}{int(when // 7)}")
    return texts(found)


def are_lots_named(purchase: TextArray) -> bool:
    """True where enough lots have a name to learn how far lots differ.

    Examples
    --------
    >>> are_lots_named(texts([f"lot\\x1f{number}" for number in range(5)])), are_lots_named(texts(["lot\\x1f1"] * 9))
    (True, False)
    """
    return len({name for name in purchase.tolist() if name.startswith(f"lot{_GAP}")}) >= _NAMED_LOTS


def _days(day: DayArray) -> FloatArray:
    found = day.astype("datetime64[D]").astype(np.float64)
    return np.where(np.isnat(day), np.nan, found)
