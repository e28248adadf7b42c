"""What does the regression see of a manifest's lines?  The same words, kinds and states as of the history's rows."""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import Facts, kinds
from models.estimate.lot_as_sold import as_sold
from models.estimate.price_model import PriceModel
from models.estimate.products import Matched
from models.values.arrays import CodeArray, FloatArray, IntArray, TextArray, texts
from models.values.conditions import CONDITIONS, Condition
from models.values.lines import Lines


@dataclass(frozen=True)
class OwnListings:
    """Lines that are listings of the shop's own, sold in the condition they state; arrays of shape (n_lines,).

    Without it lines are a manifest's: goods bought in bulk, whose untested units are tested before they are listed.
    """

    bulk: FloatArray  # 1 bought in bulk, 0 a single find; between them where that is not known


def priced_condition(condition: CodeArray) -> CodeArray:
    """The state a line is priced in: an untested unit as a working one, since a dead one is counted elsewhere.

    Examples
    --------
    >>> priced_condition(np.array([0, 4, -1], dtype=np.int8)).tolist()
    [0, 2, -1]
    """
    works = CONDITIONS.index(Condition.WORKS)
    return np.where(condition == CONDITIONS.index(Condition.UNTESTED), works, condition).astype(np.int8)


def plain_facts(
    lines: Lines, matched: Matched, model: PriceModel, days_ahead: FloatArray, own: OwnListings | None = None
) -> Facts:
    """Facts of each line but for its tag; those of a product that was sold before are what its own sales said."""
    lines = as_sold(lines, matched, model)
    top, sub, brand = kinds(lines.category, lines.brand)
    zeros = np.zeros(len(lines))
    return Facts(
        condition=priced_condition(lines.condition) if own is None else lines.condition,
        top=_known_top(model, top, sub),
        sub=sub,
        brand=brand,
        title=lines.description,
        tag=zeros,
        no_tag=zeros,
        bulk=np.ones(len(lines)) if own is None else own.bulk,
        age_days=-days_ahead,
        day=model.last_sale + days_ahead,
        purchase=texts([""] * len(lines)),
    )


def remembered(matched: Matched, model: PriceModel) -> IntArray:
    """The own product whose tag and sales speak for a line, -1 where there is none; shape (n_lines,).

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> sales = Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> remembered(match(book, texts(["mug"]), texts([""]), texts([""])), model).tolist()
    [-1]
    """
    products = model.products
    if not len(products.sales):
        return np.full(len(matched.product), -1, dtype=np.int64)
    at = np.minimum(matched.product, len(products.sales) - 1)
    speaks = matched.known & ((products.sales[at] > 0) | ~np.isnan(products.own_tag[at]))
    return np.where(speaks, at, -1)


def _known_top(model: PriceModel, top: TextArray, sub: TextArray) -> TextArray:
    """A top category never sold under, of a sub-category that was: the top its own sales were filed under."""
    usual = dict(zip(model.counts.sub.tolist(), model.counts.top_of_sub.tolist(), strict=True))
    tops = set(usual.values())
    return texts([
        usual.get(below, above) if above not in tops else above
        for above, below in zip(top.tolist(), sub.tolist(), strict=True)
    ])  # fmt: skip
