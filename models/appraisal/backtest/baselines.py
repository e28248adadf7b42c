"""What would a seller without any of this have said?  A fixed share of the tag; the median of such goods."""

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from models.estimate.tags import believable
from models.values.arrays import BoolArray, FloatArray
from models.values.categories import top_and_sub
from models.values.sales import Sales

FEWEST_OF_A_WAY = 20  # sales bought in bulk, or found singly, to be learned from alone
FEWEST_OF_A_KIND = 3  # sales behind a median
SHARE_OF_TAG, MEDIANS = "share_of_tag", "category_brand_medians"


@dataclass(frozen=True)
class PriceTold:
    """What a method says of some listings."""

    ln_price: FloatArray  # (n_rows,) median ln unit price [ln minor units]
    factor: float  # mean of exp(residual) over what it was fitted on: what turns a median into money (Duan 1983)


Predict = Callable[[Sales], PriceTold]
Method = Callable[[Sales, np.datetime64, str], Predict]  # the sales known on a day, the day, the currency


def share_of_tag(sold: Sales, cut_off: np.datetime64, currency: str) -> Predict:
    """The median share of the tag that such goods brought, bulk goods and single finds apart where both are known."""
    tagged = believable(sold.tag_each, currency)
    ln_share = np.log(sold.sold_price) - np.log(np.where(tagged, sold.tag_each, 1.0))
    middle = float(np.median(np.log(sold.sold_price)))

    def predict(asked: Sales) -> PriceTold:
        known = believable(asked.tag_each, currency)
        share = _by_way(sold, asked, ln_share, tagged)
        ln_price = np.where(known, np.log(np.where(known, asked.tag_each, 1.0)) + share, middle)
        return PriceTold(ln_price, 1.0)

    return _with_factor(predict, sold)


def medians(sold: Sales, cut_off: np.datetime64, currency: str) -> Predict:
    """The median of its way in, brand and category; with fewer than three such sales of the next wider group."""
    table: dict[tuple[object, ...], list[float]] = defaultdict(list)
    for row, value in zip(_kinds(sold), np.log(sold.sold_price).tolist(), strict=True):
        for key in _wider(row):
            table[key].append(value)
    middle = {key: float(np.median(some)) for key, some in table.items() if len(some) >= FEWEST_OF_A_KIND or not key}

    def predict(asked: Sales) -> PriceTold:
        told = [next(middle[key] for key in _wider(row) if key in middle) for row in _kinds(asked)]
        return PriceTold(np.array(told, dtype=np.float64), 1.0)

    return _with_factor(predict, sold)


BASELINES: Mapping[str, Method] = {SHARE_OF_TAG: share_of_tag, MEDIANS: medians}


def is_bulk(sales: Sales) -> BoolArray:
    """True where a row says that it was bought in bulk, or names its lot and does not say otherwise."""
    named = np.array([bool(name.strip()) for name in sales.lot.tolist()], dtype=np.bool_)
    return np.asarray((sales.sourced == 1) | ((sales.sourced < 0) & named), dtype=np.bool_)


def _with_factor(predict: Predict, sold: Sales) -> Predict:
    residual = np.log(sold.sold_price) - predict(sold).ln_price
    factor = float(np.mean(np.exp(np.clip(residual, -2.0, 2.0))))
    return lambda asked: PriceTold(predict(asked).ln_price, factor)


def _by_way(sold: Sales, asked: Sales, values: FloatArray, usable: BoolArray) -> FloatArray:
    """Median of the asked row's own way in where enough is known of it, else of all."""
    bulk, told = is_bulk(sold), np.full(len(asked), float(np.median(values[usable])) if usable.any() else 0.0)
    for way in (True, False):
        own = usable & (bulk == way)
        if own.sum() >= FEWEST_OF_A_WAY:
            told[is_bulk(asked) == way] = float(np.median(values[own]))
    return told


def _kinds(sales: Sales) -> list[tuple[bool, str, str]]:
    subs = [top_and_sub(text)[1] for text in sales.category.tolist()]
    brands = [" ".join(brand.lower().split()) for brand in sales.brand.tolist()]
    return list(zip(is_bulk(sales).tolist(), subs, brands, strict=True))


def _wider(row: tuple[bool, str, str]) -> Sequence[tuple[object, ...]]:
    return (row, row[:2], row[:1], ())
