"""Which tag does each own product carry?  Read once, at the fit, from all its own rows; a manifest never moves it."""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import Facts, all_entries, kinds
from models.estimate.fit.own_kinds import own_kinds
from models.estimate.fit.prices_facts import bulk_share, usable
from models.estimate.fit.prices_tags import claims, fit_tags, remembered
from models.estimate.price_model import BULK_OFFSET, CONDITION_OFFSETS, OwnProducts, no_posterior
from models.estimate.tags import WRONG_SHARE, TagModel, believable, median_by
from models.values.arrays import FloatArray, IntArray
from models.values.sales import Sales

_FEWEST_TAGS = 2


@dataclass(frozen=True)
class OwnTags:
    """Remembered tags of the book's products."""

    products: OwnProducts
    model: TagModel
    learned: bool  # False: fewer than two tagged products, tags say nothing and every r* is 0


def own_tags(sales: Sales, product: IntArray, sold: IntArray, currency: str) -> OwnTags:
    """Learn tags from every row known by then, sold or not.

    Parameters
    ----------
    product : ndarray of shape (n_rows,)
        Product of each row.
    sold : ndarray of shape (n_products,)
        Sold rows of each product.
    """
    rows = np.flatnonzero(usable(sales))
    kinds = own_kinds(sales.take(rows), product[rows], len(sold))
    good = believable(sales.tag_each, currency)
    own_tag = median_by(product[good], sales.tag_each[good], len(sold))
    tagged = np.flatnonzero(~np.isnan(own_tag))
    if len(tagged) < _FEWEST_TAGS:
        nothing = np.zeros(len(sold))
        unknown = np.full(len(sold), np.nan)
        model = TagModel(no_posterior(), WRONG_SHARE, 0)
        return OwnTags(OwnProducts(nothing, nothing, unknown, sold, kinds), model, False)
    facts = _product_facts(sales, product, len(sold))
    own = claims(np.log(own_tag), _fetched(sales, product, len(sold)))
    all_entries(facts)  # made once for both
    model = fit_tags(facts.part(tagged), own.take(tagged))
    mean, var = remembered(model, facts, own)
    return OwnTags(OwnProducts(mean, var, own_tag, sold, kinds), model, True)


def _fetched(sales: Sales, product: IntArray, n_products: int) -> FloatArray:
    """Median ln price of each product as a sealed single find, NaN never sold; shape (n_products,)."""
    rows = np.flatnonzero(usable(sales))
    sold = sales.take(rows)
    offset = CONDITION_OFFSETS[sold.condition] + BULK_OFFSET * bulk_share(sold.sourced, sold.lot)
    return median_by(product[rows], np.log(sold.sold_price) - offset, n_products)


def _product_facts(sales: Sales, product: IntArray, n_products: int) -> Facts:
    """Kind, brand and words of each product, from its first row."""
    first = np.full(n_products, -1, dtype=np.int64)
    first[product[::-1]] = np.arange(len(product))[::-1]
    top, sub, brand = kinds(sales.category[first], sales.brand[first])
    zeros = np.zeros(n_products)
    return Facts(
        condition=np.full(n_products, -1, dtype=np.int8),
        top=top,
        sub=sub,
        brand=brand,
        title=sales.title[first],
        tag=zeros,
        no_tag=zeros,
        bulk=zeros,
        age_days=zeros,
        day=np.full(n_products, np.nan),
        purchase=np.full(n_products, "", dtype=object),
    )
