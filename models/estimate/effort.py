"""How many minutes does listing a lot take?  Log-linear minutes learned from the seller's timings, settings as priors.

ln minutes of one unit = base + condition + category + kind of unit (first of its item, further sealed one, further used
one).  Sealed units of one item are ONE listing plus a small extra a unit; further used units need their own photos; an
assorted line is as many listings as units.  A pack is one listing; a further unit in it is only added to it, whatever
its state.  Sorting (a unit), listing, packing (an order) are three different hours.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.effort_goods import goods_effect
from models.estimate.effort_model import FURTHER_SEALED, FURTHER_USED, KINDS, SEALED, EffortModel
from models.estimate.products import Matched
from models.estimate.tempo_levels import counted
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.lines import Lines
from models.values.settings import Effort


@dataclass(frozen=True)
class LineMinutes:
    """Mean minutes of n lines, arrays of shape (n,)."""

    listing_first: FloatArray  # all units of the line: listings of their own, the line's share of its item's [minutes]
    listing_repeat: FloatArray  # all units of the line: further sealed ones [minutes]
    listing_used: FloatArray  # all units of the line: further ones that need their own photos [minutes]
    first: FloatArray  # a listing of its own [minutes]
    further: FloatArray  # a further unit on that listing [minutes]; an assorted line's equals `first`
    in_pack: FloatArray  # a further unit in a pack [minutes]

    @property
    def listing(self) -> FloatArray:
        """All units of each line, listed singly [minutes]."""
        return self.listing_first + self.listing_repeat + self.listing_used


def line_minutes(
    lines: Lines, matched: Matched, model: EffortModel, effort: Effort, assorted: BoolArray
) -> LineMinutes:
    """Mean listing minutes of every line; an item's one listing is shared out per unit over its lines.

    Parameters
    ----------
    lines : Lines
        The manifest.
    matched : Matched
        Product of each line.
    model : EffortModel
        What the timings taught.
    effort : Effort
        Minutes in force: the seller's own, else what the timings taught (`learned_minutes`), else the defaults.
    assorted : ndarray of shape (n_lines,)
        True where a line is many different goods.

    Returns
    -------
    LineMinutes
    """
    ln_kind = np.log([getattr(effort, kind) for kind in KINDS])
    shared = goods_effect(lines, model)
    sealed = lines.condition == SEALED
    first = np.exp(ln_kind[0] + shared)
    further = np.exp(np.where(sealed, ln_kind[FURTHER_SEALED], ln_kind[FURTHER_USED]) + shared)
    further = np.where(assorted, first, np.minimum(further, first))
    quantity = lines.quantity.astype(float)
    in_item = np.maximum(_item_units(lines, matched, assorted), quantity)
    own = np.where(assorted, quantity, quantity / in_item)  # listings of their own
    rest = further * (quantity - own)
    return LineMinutes(
        listing_first=own * first,
        listing_repeat=np.where(sealed, rest, 0.0),
        listing_used=np.where(sealed, 0.0, rest),
        first=first,
        further=further,
        in_pack=np.minimum(np.exp(ln_kind[FURTHER_SEALED] + shared), first),
    )


def item_numbers(lines: Lines, matched: Matched, assorted: BoolArray) -> IntArray:
    """One number for all lines of an item, assorted ones apart.

    Parameters
    ----------
    lines : Lines
        The manifest.
    matched : Matched
        Product of each line.
    assorted : ndarray of shape (n_lines,)
        True where a line is many different goods.

    Returns
    -------
    ndarray of shape (n_lines,)
        0 up.
    """
    item = (matched.product * 8 + lines.condition.astype(np.int64) + 1) * 2 + assorted
    return np.asarray(np.unique(item, return_inverse=True)[1], dtype=np.int64)


def _item_units(lines: Lines, matched: Matched, assorted: BoolArray) -> FloatArray:
    """Units of each line's item over all its lines."""
    of = item_numbers(lines, matched, assorted)
    return counted(of, lines.quantity.astype(float))[of]
