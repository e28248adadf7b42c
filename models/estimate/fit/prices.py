"""What do the shop's own sales teach about prices?  A hierarchical regression of ln price with remembered tags.

ln unit price = offsets + X theta + product + item + noise.  A row is one observation whatever its quantity, since its
units sold together at one price.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import BLOCKS, Facts, Layout, design
from models.estimate.fit.prices_facts import Dates, are_lots_named, dates, facts_of, known_rows, usable
from models.estimate.fit.prices_items import Groups
from models.estimate.fit.prices_kept import ItemKeys, counts_of, kept_items, kept_noise, no_noise
from models.estimate.fit.prices_levels import PRICE_BLOCKS, chosen, price_base
from models.estimate.fit.prices_own_tags import OwnTags, own_tags
from models.estimate.fit.prices_ridge import Problem, learned_variances, posterior_of, solve
from models.estimate.fit.prices_sample import variance_rows
from models.estimate.fit.prices_solver import apart_first
from models.estimate.fit.prices_tags import as_csr
from models.estimate.price_model import PriceModel, no_posterior, offsets
from models.estimate.products import ProductBook
from models.estimate.tags import PRICE_SLOPE
from models.values.arrays import FloatArray, IntArray
from models.values.sales import Sales

FEWEST_SALES = 20
# Prior sd of a block's effects where sigma is .4; the rest is .2.  What holds for one kind or pair only differs less
# than kinds and brands do.
_SCALE = {
    "words": 0.1, "season": 0.1, "walk": 0.07, "walk by top": 0.1, "brand and sub": 0.1, "bulk by top": 0.1,
    "lot": 0.15, "week": 0.12,
}  # fmt: skip
_WIDER_UNTAGGED = ("condition", "top", "sub", "brand", "brand and sub")
_FIXED = {"intercept": 0.0, "slope": 1 / 0.15**2, "no tag": 1 / 0.5**2, "bulk": 1 / 0.4**2, "trend": 1 / 0.3**2}


@dataclass(frozen=True)
class _Teaching:
    """The sales that teach; arrays of shape (n_rows,)."""

    facts: Facts
    outcome: FloatArray  # ln price less offsets
    product: IntArray
    top: IntArray  # number of the top category
    tops: int

    def take(self, index: IntArray) -> "_Teaching":
        """The rows at `index`."""
        rows = (self.outcome[index], self.product[index], self.top[index])
        return _Teaching(self.facts.take(index), *rows, self.tops)


@dataclass(frozen=True)
class _Built:
    """A regression ready to solve."""

    layout: Layout
    keys: ItemKeys
    problem: Problem


def fit_prices(
    sales: Sales, book: ProductBook, product: IntArray, known_until: np.datetime64, currency: str
) -> PriceModel:
    """Fit prices on every sale known by a day.

    Parameters
    ----------
    sales : Sales
        The history; rows that fetched no price teach nothing but their tags.
    book : ProductBook
        Products of the history.
    product : ndarray of shape (n_rows,)
        Product of each row.
    known_until : numpy.datetime64
        Rows after this day are left out.
    currency : str
        ISO 4217.

    Returns
    -------
    PriceModel
        With `fitted` False and declared priors only where fewer than 20 sales can be used.

    Examples
    --------
    >>> from models.estimate.products import build_book
    >>> sales = Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> model.fitted, model.sales_used
    (False, 0)
    """
    known = known_rows(sales, known_until)
    sales, product = sales.take(known), product[known]
    use = usable(sales)
    sold, of_row = sales.take(use), product[use]
    when = dates(sold)
    tags = own_tags(sales, product, np.bincount(of_row, minlength=book.n_products), currency)
    if len(sold) < FEWEST_SALES:
        return _declared(sold, when, tags, currency)
    centre = float(np.mean(tags.products.tag[of_row])) if tags.learned else 0.0
    return _fitted(_teaching(sold, of_row, when, tags, centre), when, tags, centre, currency)


def _teaching(sold: Sales, of_row: IntArray, when: Dates, tags: OwnTags, centre: float) -> _Teaching:
    no_tag = np.isnan(tags.products.own_tag[of_row]).astype(np.float64) * tags.learned
    facts = facts_of(sold, when, tags.products.tag[of_row] - centre, no_tag)
    outcome = np.log(sold.sold_price) - offsets(facts, centre)
    names, top = np.unique(facts.top.astype(str), return_inverse=True)
    return _Teaching(facts, outcome, of_row, top.astype(np.int64), len(names))


def _fitted(teaching: _Teaching, when: Dates, tags: OwnTags, centre: float, currency: str) -> PriceModel:
    built = _built(teaching, tags)
    sample = variance_rows(teaching.product)
    learner = built if sample is None else _built(teaching.take(sample), tags)
    solved = solve(built.problem, learned_variances(learner.problem))
    return PriceModel(
        currency=currency,
        sales_used=len(teaching.outcome),
        last_sale=when.last,
        fitted=True,
        lots_named=are_lots_named(teaching.facts.purchase),
        tagged=tags.learned,
        centre=centre,
        product_var=solved.variances.product,
        item_var=solved.variances.item,
        posterior=posterior_of(built.problem, solved, built.layout),
        tags=tags.model,
        items=kept_items(built.keys, solved.spread, built.problem.rows, teaching.outcome),
        products=tags.products,
        noise=kept_noise(teaching.facts, solved.variances),
        counts=counts_of(teaching.facts),
    )


def _built(teaching: _Teaching, tags: OwnTags) -> _Built:
    facts = teaching.facts
    layout = chosen(facts, PRICE_BLOCKS, price_base(facts))
    keys = ItemKeys.of(teaching.product, facts.condition.astype(np.int64))
    groups = Groups(keys.item, keys.product, PRICE_SLOPE**2 * tags.products.tag_var[keys.product_id])
    rows = as_csr(design(layout, facts))
    order, apart = apart_first(rows, groups)
    layout, rows = layout.take(order), rows[:, order]
    untagged = not tags.learned or float(facts.no_tag.mean()) > 0.5
    scale = np.array([_SCALE.get(block, 0.2) for block in BLOCKS])
    wider = np.isin(BLOCKS, _WIDER_UNTAGGED) & untagged
    problem = Problem(
        rows=rows,
        outcome=teaching.outcome,
        groups=groups,
        block=layout.block,
        fixed=np.array([_FIXED.get(str(name), 0.0) for name in layout.name]) * (layout.block == 0),
        scale=scale * np.where(wider, 2.0, 1.0),
        noise_sd=0.40 if untagged else 0.25,
        item_sd=0.3 if untagged else 0.2,
        row_factor=np.ones(len(facts)),
        noise_by=(facts.condition.astype(np.int64) % 7, teaching.top, facts.no_tag.astype(np.int64)),
        noise_sizes=(7, teaching.tops, 2),
        apart=apart,
    )
    return _Built(layout, keys, problem)


def _declared(sold: Sales, when: Dates, tags: OwnTags, currency: str) -> PriceModel:
    """Too few sales to fit: nothing but the declared priors, and what was counted."""
    nothing = np.zeros(len(sold))
    facts = facts_of(sold, when, nothing, nothing)
    return PriceModel(
        currency=currency,
        sales_used=len(sold),
        last_sale=when.last,
        fitted=False,
        lots_named=False,
        tagged=tags.learned,
        centre=0.0,
        product_var=0.0,
        item_var=0.0,
        posterior=no_posterior(),
        tags=tags.model,
        items=ItemKeys.nothing(),
        products=tags.products,
        noise=no_noise(),
        counts=counts_of(facts),
    )
