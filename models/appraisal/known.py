"""What did a history know on a day?  Later rows are dropped, later sales are listings that had not sold yet."""

import hashlib
from dataclasses import fields, replace

import numpy as np

from models.values.arrays import BoolArray
from models.values.sales import Sales

_TELLING = ("condition", "category", "tag_each", "sold_on", "sourced")
_UNTIL_SOLD = ("sold_price", "fees", "shipping_charged", "shipping_paid", "refunded")


def known_until(sales: Sales, as_of: np.datetime64) -> np.datetime64:
    """The end of what is known: the latest day in the history, not after `as_of`.

    An old export read late does not make its unsold listings look unsold until today.
    """
    days = np.concatenate([sales.sold_on, sales.listed_on, sales.first_listed_on])
    days = days[~np.isnat(days)]
    return min(as_of, days.max()) if len(days) else as_of


def known_sales(sales: Sales, until: np.datetime64) -> Sales:
    """The history as it stood at the end of the day `until`."""
    first = sales.first_listed
    later_sold = sales.sold_on > until
    kept = ~((first > until) | (later_sold & np.isnat(first)))
    known, first, unsold = sales.take(kept), first[kept], later_sold[kept]
    known = replace(
        known,
        listed_on=np.where(known.listed_on > until, first, known.listed_on),  # listed again later
        ended_on=np.where(known.ended_on > until, np.datetime64("NaT", "D"), known.ended_on),
    )
    return without_outcome(known, unsold) if unsold.any() else known


def without_outcome(sales: Sales, unsold: BoolArray) -> Sales:
    """The rows where `unsold` is true as they were before they sold."""
    blanked = {name: np.where(unsold, np.nan, getattr(sales, name)) for name in _UNTIL_SOLD}
    sold_on = np.where(unsold, np.datetime64("NaT", "D"), sales.sold_on)
    return replace(sales, **blanked, sold_on=sold_on, order_ref=np.where(unsold, "", sales.order_ref))


def in_content_order(sales: Sales) -> Sales:
    """The rows sorted by what they say, so that the order of a file changes no fit, to the last bit."""
    columns = [getattr(sales, field.name) for field in fields(sales) if field.name != "row"]
    plain = [np.nan_to_num(column, nan=-1.0) if column.dtype == np.float64 else column for column in columns]
    plain = [column.astype(np.int64) if column.dtype.kind == "M" else column for column in plain]
    rows = list(zip(*(column.tolist() for column in plain), strict=True))
    return sales.take(np.array(sorted(range(len(rows)), key=rows.__getitem__), dtype=np.int64))


def fingerprint(sales: Sales) -> str:
    """A digest of every cell but the row numbers: the same sales, the same text."""
    digest = hashlib.blake2b(digest_size=16)
    for field in fields(sales):
        if field.name == "row":
            continue
        column = getattr(sales, field.name)
        digest.update("\x1f".join(column).encode() if column.dtype == object else column.tobytes())
        digest.update(b"\x1e")
    return digest.hexdigest()


def blanks_of(sales: Sales) -> dict[str, float]:
    """Share of sold rows that leave each telling column blank; 0 without sold rows."""
    sold = sales.take(sales.sold)
    blank = {"condition": sold.condition < 0, "category": sold.category == "", "tag_each": np.isnan(sold.tag_each)}
    blank["sold_on"] = np.isnat(sold.sold_on)
    blank["sourced"] = (sold.sourced < 0) & (sold.lot == "")
    return {name: round(float(blank[name].mean()), 4) if len(sold) else 0.0 for name in _TELLING}
