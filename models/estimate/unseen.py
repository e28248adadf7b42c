"""Which levels were never seen?  What they add to a line's spread is shared by all lines that name the same one."""

from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import Facts, Layout, coded, joined, level_columns
from models.estimate.posterior import Posterior
from models.values.arrays import FloatArray, IntArray, TextArray, texts

NAMED_BLOCKS = ("condition", "top", "sub", "brand", "brand and sub")


@dataclass(frozen=True)
class Unseen:
    """Rows whose level in one block is not in the layout."""

    block: str
    row: IntArray
    name: TextArray  # (len(row),)


def unseen_levels(layout: Layout, facts: Facts) -> list[Unseen]:
    """Never-seen levels of every block that the layout holds at all."""
    keys = {
        "condition": texts([str(int(code)) for code in facts.condition]), "top": facts.top, "sub": facts.sub,
        "brand": facts.brand, "brand and sub": joined(facts.brand, facts.sub),
    }  # fmt: skip
    found = []
    for block in NAMED_BLOCKS:
        if layout.levels(block):
            code, names = coded(keys[block])
            row = np.flatnonzero(level_columns(layout, block, names)[code] < 0)
            found.append(Unseen(block, row, keys[block][row]))
    return found


def unseen_variance(posterior: Posterior, facts: Facts) -> FloatArray:
    """What never-seen levels add to each row's variance, shape (n_rows,)."""
    total = np.zeros(len(facts))
    for one in unseen_levels(posterior.layout, facts):
        total[one.row] += posterior.block_prior(one.block)
    return total
