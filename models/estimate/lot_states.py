"""In which condition is each line priced?  As told; one that nobody told as its own sales usually were, never dearer.

An untold line of a product that was sold is priced in the condition most of its sales had; one of a product never sold
in the condition most of the history has, unless the history itself has sales without one.  Where that state fetches
more than what is declared of an untold one, the difference comes off.  (Declared alone, between sealed and working,
told a shop that sells worn goods twice what such goods ever fetched there.)
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import level_columns
from models.estimate.lot_as_sold import own_product
from models.estimate.lot_facts import OwnListings, priced_condition
from models.estimate.price_model import CONDITION_OFFSETS, OwnItems, PriceModel
from models.estimate.products import Matched
from models.values.arrays import BoolArray, CodeArray, FloatArray, IntArray
from models.values.conditions import UNKNOWN
from models.values.lines import Lines

UNTOLD_SD = 0.25  # ln price, shared by the untold lines of a lot; declared, it never raises a mean
_NOT_SOLD = -2


@dataclass(frozen=True)
class States:
    """Arrays of shape (n_lines,)."""

    condition: CodeArray  # code each line is priced in
    untold: BoolArray  # nobody told it
    shift: FloatArray  # added to ln price, never above 0


def states_of(lines: Lines, matched: Matched, model: PriceModel, listings: OwnListings | None = None) -> States:
    """The condition each line of a lot is priced in.

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> sales, lines = Sales.blank(0), Lines.blank(1)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> states_of(lines, match(book, lines.description, lines.sku, lines.gtin), model).condition.tolist()
    [0]
    """
    told = priced_condition(lines.condition) if listings is None else lines.condition
    unknown = told == UNKNOWN
    if not np.any(unknown) or not len(model.items.product):
        return States(told, np.zeros(len(lines), dtype=np.bool_), np.zeros(len(lines)))
    level, own = condition_levels(model), own_product(lines, matched, model)
    usual = np.where(own >= 0, _usual(model.items, level, len(model.products.sales))[own], _NOT_SOLD)
    usual = np.where(usual == _NOT_SOLD, _usual_of_all(model.items, level), usual)
    untold = unknown & (usual != UNKNOWN)
    shift = np.where(untold, np.minimum(0.0, level[UNKNOWN] - level[usual]), 0.0)
    return States(np.where(untold, usual, told).astype(np.int8), untold, shift)


def condition_levels(model: PriceModel) -> FloatArray:
    """What each condition adds to ln price, declared and learned.

    Returns
    -------
    ndarray of shape (7,)
        By code, the unknown one last.

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book
    >>> from models.values.sales import Sales
    >>> sales = Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> condition_levels(fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")).tolist()
    [0.0, -0.15, -0.3, -0.6, -0.6, -1.1, -0.15]
    """
    names = [str(code) for code in (*range(len(CONDITION_OFFSETS) - 1), UNKNOWN)]
    column = level_columns(model.posterior.layout, "condition", names)
    learned = np.where(column >= 0, np.append(model.posterior.mean, 0.0)[column], 0.0)
    return np.asarray(CONDITION_OFFSETS + learned, dtype=np.float64)


def _usual(items: OwnItems, level: FloatArray, n_products: int) -> IntArray:
    """The condition most sales of each product had, of two as common the cheaper; `UNKNOWN` where some had none."""
    usual = np.full(n_products, _NOT_SOLD, dtype=np.int64)
    order = np.lexsort((-level[items.condition], items.sales))
    usual[items.product[order]] = items.condition[order]  # the last one written stays
    usual[items.product[items.condition == UNKNOWN]] = UNKNOWN
    return usual


def _usual_of_all(items: OwnItems, level: FloatArray) -> int:
    """The same of the whole history."""
    if np.any(items.condition == UNKNOWN):
        return UNKNOWN
    count = np.bincount(items.condition, items.sales, minlength=len(level) - 1)
    return int(np.lexsort((-level[: len(count)], count))[-1])
