"""How does an invented world look in a file?  Its goods as rows of a sold history and as lines of a manifest."""

from dataclasses import dataclass, replace

import numpy as np

from models.bench.worlds.catalogue import Catalogue
from models.values.arrays import BoolArray, DayArray, FloatArray, IntArray, texts
from models.values.lines import Lines
from models.values.sales import Sales

DAY_ZERO = np.datetime64("2022-01-03", "D")


@dataclass(frozen=True)
class Outcome:
    """What became of each listing; arrays of shape (n_rows,), days from the world's first one."""

    tag: FloatArray  # as claimed [minor units]
    price: FloatArray  # what it fetches [minor units]
    listed: FloatArray
    sold: FloatArray
    fetched: BoolArray  # sold by now
    lot: IntArray  # purchase, -1 where it has no name
    single: BoolArray


def sales_rows(goods: Catalogue, product: IntArray, condition: IntArray, told: Outcome) -> Sales:
    """Rows of a sold history."""
    return replace(
        Sales.blank(len(product)),
        title=texts([goods.title(one) for one in product]),
        brand=texts([f"brand{one}" for one in goods.brand[product]]),
        category=texts([goods.category(one) for one in product]),
        condition=condition.astype(np.int8),
        tag_each=told.tag,
        sold_price=np.where(told.fetched, told.price, np.nan),
        listed_on=_day(told.listed),
        sold_on=np.where(told.fetched, _day(np.where(told.fetched, told.sold, 0.0)), np.datetime64("NaT", "D")),
        lot=texts(["" if number < 0 else f"lot {number}" for number in told.lot.tolist()]),
        sourced=np.where(told.single, 0, 1).astype(np.int8),
    )


def line_rows(goods: Catalogue, product: IntArray, condition: IntArray, quantity: IntArray, tag: FloatArray) -> Lines:
    """Lines of a manifest; tags as claimed [minor units]."""
    return replace(
        Lines.blank(len(product)),
        description=texts([goods.title(one) for one in product]),
        brand=texts([f"brand{one}" for one in goods.brand[product]]),
        category=texts([goods.category(one) for one in product]),
        condition=condition.astype(np.int8),
        quantity=quantity.astype(np.int64),
        tag_each=tag,
    )


def _day(days: FloatArray) -> DayArray:
    return DAY_ZERO + np.floor(days).astype("timedelta64[D]")
