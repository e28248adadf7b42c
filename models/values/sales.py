"""What is a sold history?  One entry a row that was kept; columns, not rows, so that fits read them as they are."""

from dataclasses import dataclass, fields

import numpy as np

from models.values.arrays import BoolArray, CodeArray, DayArray, FloatArray, IntArray, TextArray


@dataclass(frozen=True)
class Sales:
    """All arrays of shape (n_rows,).  Money: a UNIT's minor units, NaN for blank; texts ""; days NaT."""

    row: IntArray  # 1-based row as a spreadsheet shows it
    title: TextArray
    brand: TextArray
    category: TextArray  # as the file has it: a path "A > B", or one level
    condition: CodeArray  # index in CONDITIONS, -1 unknown
    quantity: IntArray  # units of the row, at least 1
    tag_each: FloatArray
    sold_price: FloatArray  # without postage and sales tax; NaN: listed and not sold
    asking_price: FloatArray
    cost: FloatArray
    fees: FloatArray
    shipping_charged: FloatArray
    shipping_paid: FloatArray
    refunded: FloatArray
    listing_minutes: FloatArray  # minutes a unit
    listed_on: DayArray
    first_listed_on: DayArray
    sold_on: DayArray
    ended_on: DayArray  # the day a listing ended without a sale; NaT: it sold, still runs, or nobody said
    sourced: CodeArray  # 1 bulk, 0 single find, -1 unknown
    sku: TextArray
    gtin: TextArray  # blank or valid, leading zeros restored
    lot: TextArray
    source: TextArray
    place: TextArray
    listing_ref: TextArray
    order_ref: TextArray

    def __len__(self) -> int:
        return len(self.row)

    @property
    def sold(self) -> BoolArray:
        """True where a price was fetched, also if it was refunded later."""
        return ~np.isnan(self.sold_price)

    @property
    def first_listed(self) -> DayArray:
        """First day on offer, else the day of the last listing; NaT unknown."""
        return np.where(np.isnat(self.first_listed_on), self.listed_on, self.first_listed_on).astype("datetime64[D]")

    @property
    def last_listed(self) -> DayArray:
        """Day of the last listing, the one that took minutes, else the first day on offer; NaT unknown."""
        return np.where(np.isnat(self.listed_on), self.first_listed_on, self.listed_on).astype("datetime64[D]")

    @classmethod
    def blank(cls, rows: int) -> "Sales":
        """So many rows of one sealed unit each, everything else blank.

        Examples
        --------
        >>> len(Sales.blank(2)), bool(Sales.blank(2).sold.any())
        (2, False)
        """
        number, text = np.full(rows, np.nan), np.full(rows, "", dtype=object)
        day = np.full(rows, np.datetime64("NaT", "D"))
        columns = dict.fromkeys(SALES_COLUMNS, text) | dict.fromkeys(_MONEY, number) | dict.fromkeys(_DAYS, day)
        columns |= {"row": np.arange(rows) + 2, "quantity": np.ones(rows, dtype=np.int64)}
        columns |= {"condition": np.zeros(rows, dtype=np.int8), "sourced": np.full(rows, -1, dtype=np.int8)}
        return cls(**columns)

    def take(self, index: IntArray | BoolArray) -> "Sales":
        """The rows at `index`, in its order."""
        return Sales(**{field.name: getattr(self, field.name)[index] for field in fields(self)})


SALES_COLUMNS: tuple[str, ...] = (
    "title", "brand", "category", "condition", "tag_each", "sold_price", "quantity", "listed_on", "first_listed_on",
    "sold_on", "asking_price", "cost", "fees", "shipping_charged", "shipping_paid", "refunded", "listing_minutes",
    "sku", "gtin", "lot", "source", "sourced", "place", "listing_ref", "order_ref",
)  # fmt: skip
SALES_REQUIRED: tuple[str, ...] = ("title", "sold_price")
_DAYS = ("listed_on", "first_listed_on", "sold_on", "ended_on")
_MONEY = (
    "tag_each", "sold_price", "asking_price", "cost", "fees", "shipping_charged", "shipping_paid", "refunded",
    "listing_minutes",
)  # fmt: skip
