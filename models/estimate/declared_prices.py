"""What is a lot worth to a shop without a history?  A declared guess, loudly: about .3 of the tag, give or take half.

Common practice, no source.  Half of the variance is shared by all lines, since the guess is wrong for all alike.
"""

import numpy as np

from models.estimate.blocks import Facts
from models.estimate.lot_cells import UNNAMED_LOT_SD, Cells, Loads, gathered, lot_load
from models.estimate.price_model import CONDITION_OFFSETS, PriceModel
from models.estimate.products import Matched
from models.values.arrays import BoolArray, FloatArray
from models.values.conditions import CONDITIONS, Condition
from models.values.lines import Lines
from models.values.money import to_minor
from models.values.problems import Caution

TAG_SHARE, TAG_SD = 0.3, 0.7
UNTAGGED_PRICE, UNTAGGED_SD = 15.0, 1.2  # USD


def declared_mu(lines: Lines, model: PriceModel, tagged: BoolArray, facts: Facts) -> FloatArray:
    """Ln unit price of each line [ln minor units], moved by its state; -inf where nothing can be said."""
    untagged = np.log(to_minor(UNTAGGED_PRICE, "USD")) if model.currency == "USD" else -np.inf
    state = CONDITION_OFFSETS - CONDITION_OFFSETS[CONDITIONS.index(Condition.WORKS)]
    level = np.where(tagged, np.log(TAG_SHARE) + np.log(np.where(tagged, lines.tag_each, 1.0)), untagged)
    return np.asarray(level + state[facts.condition], dtype=np.float64)


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


def declared_cautions(model: PriceModel, tagged: BoolArray) -> tuple[Caution, ...]:
    """What rests on nothing is said first."""
    usable = "none" if model.sales_used == 0 else f"only {model.sales_used}"
    what = (
        f"Own sales to learn from: {usable}. "
        f"Prices are a declared guess of about {TAG_SHARE:.0%} of the tag, not an estimate."
    )
    found = [Caution(what, "Import your sold history, at least 20 sales; look up sold prices before you bid.")]
    untagged = int(np.sum(~tagged))
    if untagged and model.currency != "USD":
        what = f"{untagged} lines have no usable tag and no history in {model.currency}: they count as worth nothing."
        found.append(Caution(what, "Import your sold history, or give these lines their tags."))
    return tuple(found)
