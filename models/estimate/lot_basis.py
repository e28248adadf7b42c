"""On what does a line's price rest, and on how many own sales?  The nearest kind of goods that was sold before."""

import numpy as np

from models.estimate.blocks import Facts, joined
from models.estimate.price_model import PriceModel
from models.values.arrays import BoolArray, IntArray, TextArray, texts


def basis_of(
    model: PriceModel, facts: Facts, own_item_sales: IntArray, tag_used: BoolArray
) -> tuple[TextArray, IntArray]:
    """Basis of each line and the own sales behind it.

    Parameters
    ----------
    own_item_sales : ndarray of shape (n_lines,)
        Own sales of the line's item.
    tag_used : ndarray of shape (n_lines,)
        True where a tag was believed.

    Returns
    -------
    tuple of ndarray of shape (n_lines,)
        own_item | brand_and_category | category | tag_only | prior_only, and a count.
    """
    pairs = dict(zip(model.counts.pair.tolist(), model.counts.of_pair.tolist(), strict=True))
    subs = dict(zip(model.counts.sub.tolist(), model.counts.of_sub.tolist(), strict=True))
    of_pair = np.array([pairs.get(name, 0) for name in joined(facts.brand, facts.sub).tolist()], dtype=np.int64)
    of_sub = np.array([subs.get(name, 0) for name in facts.sub.tolist()], dtype=np.int64)
    of_pair = np.where(facts.brand == "", 0, of_pair)
    of_sub = np.where(facts.sub == "", 0, of_sub)
    cases = [own_item_sales > 0, of_pair > 0, of_sub > 0, tag_used]
    names = ["own_item", "brand_and_category", "category", "tag_only"]
    which = np.select(cases, range(len(cases)), len(cases))
    return texts([*names, "prior_only"])[which], np.select(cases[:3], [own_item_sales, of_pair, of_sub], 0).astype(
        np.int64
    )
