"""What do a lot's lines share beside the learned effects?  Cells: one independent normal each, loaded by its lines."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

import numpy as np

from models.estimate.blocks import STEP_DAYS, Facts
from models.estimate.lot_own import OwnSales
from models.estimate.lot_states import UNTOLD_SD
from models.estimate.lot_tags import LotTags
from models.estimate.price_model import PriceModel
from models.estimate.products import Matched, item_name
from models.estimate.sparse_rows import SparseRows, from_entries
from models.estimate.tags import PRICE_SLOPE
from models.estimate.unseen import unseen_levels
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts

LOTS_A_WEEK = 2.0  # at least so many purchases share the week that stands in for them: it shows half of their variance
SALES_A_LOT = 30.0  # of one purchase in its week; a busier week holds more purchases.  Both: common practice, no source
UNNAMED_LOT_SD = 0.20  # declared, where not even weeks could tell
LOT_KIND = "lot"
DRIFT_KINDS = ("drift", "drift by top")
OWN_KINDS = ("product", "item", "tag")
JUDGED_KINDS = (
    "condition",
    "top",
    "sub",
    "brand",
    "brand and sub",
    "untold",
    "declared",
    *OWN_KINDS,
    "tags of the lot",
)


@dataclass(frozen=True)
class Cells:
    """Cells of one lot; arrays of shape (n_cells,) unless said."""

    kind: TextArray
    name: TextArray  # key of its random stream, within its kind
    var: FloatArray
    earned: FloatArray  # the part of `var` that may raise the mean
    loading: SparseRows  # (n_lines, n_cells)

    def line_var(self) -> FloatArray:
        """Variance of each line's cells, shape (n_lines,)."""
        return self._squared().times(self.var)

    def unearned(self) -> FloatArray:
        """Variance of each line that nothing taught, shape (n_lines,): the mean must not gain from it."""
        return self._squared().times(self.var - self.earned)

    def _squared(self) -> SparseRows:
        rows = self.loading
        return SparseRows(rows.start, rows.column, rows.value**2, rows.width)


@dataclass(frozen=True)
class Loads:
    """One kind of cell: line `row` loads `load` on the cell called `name`."""

    kind: str
    row: IntArray
    name: list[str]
    load: FloatArray
    var: FloatArray
    earned: FloatArray


def gathered(loads: Iterable[Loads], n_lines: int) -> Cells:
    """Cells of all kinds; lines that give a kind the same name share its cell.

    Examples
    --------
    >>> ones = np.ones(2)
    >>> cells = gathered([Loads("brand", np.arange(2), ["acme", "acme"], ones, ones, ones)], 2)
    >>> cells.name.tolist(), cells.line_var().tolist()
    (['acme'], [1.0, 1.0])
    """
    place: dict[tuple[str, str], int] = {}
    column, row, value, var, earned = [], [], [], [], []
    for one in loads:
        of_load = np.empty(len(one.name), dtype=np.int64)
        for at, name in enumerate(one.name):
            key = (one.kind, name)
            if key not in place:
                place[key] = len(place)
                var.append(float(one.var[at]))
                earned.append(float(one.earned[at]))
            of_load[at] = place[key]
        column.append(of_load)
        row.append(one.row)
        value.append(one.load)
    loading = from_entries(np.concatenate(row), np.concatenate(column), np.concatenate(value), (n_lines, len(place)))
    kinds, names = texts([key[0] for key in place]), texts([key[1] for key in place])
    return Cells(kinds, names, np.array(var), np.array(earned), loading)


def fitted_cells(
    model: PriceModel, facts: Facts, tags: LotTags, own: OwnSales, matched: Matched, apart: BoolArray
) -> Cells:
    """Cells of a lot priced from a fitted model; `apart` lines are many different goods and share no product."""
    return gathered(_loads(model, facts, tags, own, matched, apart), len(facts))


def _loads(
    model: PriceModel, facts: Facts, tags: LotTags, own: OwnSales, matched: Matched, apart: BoolArray
) -> Iterator[Loads]:
    """One kind after the other, so that a long lot does not hold them all."""
    yield from _unseen(model, facts)
    yield from _drift(model, facts)
    yield lot_load(len(facts), lot_var(model))
    line = np.flatnonzero(~apart)
    product = [str(name) for name in matched.name[line]]
    yield _own("product", line, product, own.product_load[line], own.product_var[line])
    item = [item_name(name, int(code)) for name, code in zip(product, facts.condition[line], strict=True)]
    yield _own("item", line, item, np.ones(len(line)), own.item_var[line])
    untold = np.flatnonzero(own.untold)
    ones = np.ones(len(untold))
    yield Loads("untold", untold, [""] * len(untold), ones, UNTOLD_SD**2 * ones, 0 * ones)
    slope = np.full(len(facts), price_slope(model))
    unsure = np.flatnonzero(tags.own_var > 0)
    tag_names = [str(name) for name in matched.name[unsure]]
    yield _own("tag", unsure, tag_names, slope[unsure], tags.own_var[unsure])
    moved = np.flatnonzero(tags.shared != 0)
    ones = np.ones(len(moved))
    yield Loads("tags of the lot", moved, [""] * len(moved), slope[moved] * tags.shared[moved], ones, ones)


def lot_var(model: PriceModel) -> float:
    """Variance of what hits a whole lot: learned from named lots, else from the weeks that stand in for them."""
    if model.lots_named:
        return model.posterior.block_unseen("lot")
    weeks = len(model.posterior.layout.levels("week"))
    learned = model.posterior.block_unseen("week")
    if not weeks:
        return max(UNNAMED_LOT_SD**2, LOTS_A_WEEK * learned)
    return max(LOTS_A_WEEK, model.sales_used / weeks / SALES_A_LOT) * learned


def price_slope(model: PriceModel) -> float:
    """Slope of ln price in r* as learned."""
    at = np.flatnonzero((model.posterior.layout.block == 0) & (model.posterior.layout.name == "slope"))
    return PRICE_SLOPE + float(model.posterior.mean[at].sum())


def lot_load(n_lines: int, var: float) -> Loads:
    """The one cell that every line of the lot carries.

    Examples
    --------
    >>> lot_load(2, 0.04).var.tolist()
    [0.04, 0.04]
    """
    ones = np.ones(n_lines)
    return Loads(LOT_KIND, np.arange(n_lines), [""] * n_lines, ones, var * ones, var * ones)


def _own(kind: str, row: IntArray, name: list[str], load: FloatArray, var: FloatArray) -> Loads:
    return Loads(kind, row, name, load, var, var)


def _unseen(model: PriceModel, facts: Facts) -> Iterator[Loads]:
    for one in unseen_levels(model.posterior.layout, facts):
        ones = np.ones(len(one.row))
        var, earned = model.posterior.block_unseen(one.block), model.posterior.block_prior(one.block)
        yield Loads(one.block, one.row, [str(name) for name in one.name], ones, var * ones, earned * ones)


def _drift(model: PriceModel, facts: Facts) -> Iterator[Loads]:
    """The market, and each top category, move on until the sale."""
    ahead = np.sqrt(np.maximum(-facts.age_days, 0.0) / STEP_DAYS)
    ones, line = np.ones(len(facts)), np.arange(len(facts))
    var = model.posterior.block_unseen("walk")
    yield Loads("drift", line, [""] * len(facts), ahead, var * ones, 0 * ones)
    if len(set(model.counts.top_of_sub.tolist())) < 2:  # one kind of goods: its market is the market
        return
    var = model.posterior.block_unseen("walk by top")
    yield Loads("drift by top", line, [str(top) for top in facts.top], ahead, var * ones, 0 * ones)
