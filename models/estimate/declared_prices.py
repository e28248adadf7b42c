"""What is a lot worth to a shop without a history?  A declared guess, loudly: about .3 of the tag, give or take half.

Common practice, no source.  Half of the variance is shared by all lines, since the guess is wrong for all alike.
"""

import numpy as np

from models.estimate.blocks import Facts
from models.estimate.lot_cells import UNNAMED_LOT_SD, Cells, Loads, gathered, lot_load
from models.estimate.price_model import CONDITION_OFFSETS, PriceModel
from models.estimate.products import Matched
from models.estimate.sibling_tags import agreed_tags, beyond_kind, strays
from models.estimate.tags import believable
from models.values.arrays import BoolArray, FloatArray
from models.values.conditions import CONDITIONS, Condition
from models.values.lines import Lines
from models.values.money import in_words, to_minor
from models.values.problems import Caution

TAG_SHARE, TAG_SD = 0.3, 0.7
UNTAGGED_PRICE, UNTAGGED_SD = 15.0, 1.2  # USD


def declared_tags(lines: Lines, matched: Matched, currency: str) -> FloatArray:
    """The tag that each line's goods have by the manifest alone: what lines of one product agree on.

    Returns
    -------
    ndarray of shape (n_lines,)
        Minor units, NaN none: not given, no possible tag, or absurd beside its kind of goods.

    Examples
    --------
    >>> from dataclasses import replace
    >>> lines = replace(Lines.blank(2), tag_each=np.array([1659.0, 165_900.0]))
    >>> matched = Matched(np.zeros(2, dtype=int), np.array(["a", "a"], dtype=object), np.zeros(2, dtype=np.bool_))
    >>> declared_tags(lines, matched, "USD").round(2).tolist()
    [1659.0, 1659.0]
    """
    tag = np.log(np.where(believable(lines.tag_each, currency), lines.tag_each, np.nan))
    _, kind = np.unique(lines.category.astype(str), return_inverse=True)
    _, product = np.unique(np.where(lines.assorted, -1 - np.arange(len(lines)), matched.product), return_inverse=True)
    sane = ~np.isnan(tag) & ~beyond_kind(kind, tag)
    agreed = agreed_tags(product[sane], tag[sane], np.full(int(product.max(initial=-1)) + 1, np.nan))
    own = sane & ~strays(product, tag, agreed)
    return np.where(own, lines.tag_each, np.exp(agreed[product]))


def declared_mu(tag: FloatArray, model: PriceModel, facts: Facts) -> FloatArray:
    """Ln unit price of each line [ln minor units], moved by its state; -inf where nothing can be said."""
    untagged = np.log(to_minor(UNTAGGED_PRICE, "USD")) if model.currency == "USD" else -np.inf
    state = CONDITION_OFFSETS - CONDITION_OFFSETS[CONDITIONS.index(Condition.WORKS)]
    level = np.where(np.isnan(tag), untagged, np.log(TAG_SHARE) + np.log(np.nan_to_num(tag, nan=1.0)))
    return np.asarray(level + state[facts.condition], dtype=np.float64)


def not_believed(lines: Lines, tag: FloatArray) -> BoolArray:
    """Lines whose own tag is not the one they are priced by.

    Examples
    --------
    >>> not_believed(Lines.blank(1), np.array([500.0])).tolist()
    [False]
    """
    return np.asarray(~np.isnan(lines.tag_each) & (lines.tag_each != tag), dtype=np.bool_)


def declared_cells(tagged: BoolArray, matched: Matched) -> Cells:
    """Half of the guess's variance on all lines alike, half on each product; and the lot's own.

    Examples
    --------
    >>> matched = Matched(np.arange(2), np.array(["a", "b"], dtype=object), np.zeros(2, dtype=np.bool_))
    >>> declared_cells(np.array([True, True]), matched).line_var().round(2).tolist()
    [0.53, 0.53]
    """
    half = np.where(tagged, TAG_SD**2, UNTAGGED_SD**2) / 2
    names = ["with tag" if one else "without tag" for one in tagged]
    ones, line = np.ones(len(tagged)), np.arange(len(tagged))
    product = [f"{name}\x1f{kind}" for name, kind in zip(matched.name.tolist(), names, strict=True)]
    return gathered(
        [
            Loads("declared", line, names, ones, half, half),
            Loads("product", line, product, ones, half, half),
            lot_load(len(tagged), UNNAMED_LOT_SD**2),
        ],
        len(tagged),
    )


def declared_cautions(lines: Lines, model: PriceModel, tag: FloatArray) -> tuple[Caution, ...]:
    """What rests on nothing is said first, then which tags were not believed."""
    usable = "none" if model.sales_used == 0 else f"only {model.sales_used}"
    what = (
        f"Own sales to learn from: {usable}. "
        f"Prices are a declared guess of about {TAG_SHARE:.0%} of the tag, not an estimate."
    )
    found = [Caution(what, "Import your sold history, at least 20 sales; look up sold prices before you bid.")]
    untagged = int(np.isnan(tag).sum())
    if untagged and model.currency != "USD":
        what = f"{untagged} lines have no usable tag and no history in {model.currency}: they count as worth nothing."
        found.append(Caution(what, "Import your sold history, or give these lines their tags."))
    ignored = np.flatnonzero(not_believed(lines, tag))
    return (*found, *(_ignored(lines, int(at), model.currency) for at in ignored))


def _ignored(lines: Lines, at: int, currency: str) -> Caution:
    tag = in_words(lines.tag_each[at], currency)
    return Caution(
        f"Tag ignored: {tag} is far from the other tags of such goods in this list, or cannot be a price tag.",
        "Look at the goods or ask the seller of the lot; the tag was not believed.",
        int(lines.no[at]),
    )
