"""Which line is worth looking up first?  The one whose looked-up price would take most off the lot's spread.

One looked-up price of line i removes cov(total, eta_i)^2 / (var(eta_i) + sigma^2 + gap^2) of the total's log variance.
Here eta_i is what such a price shows: the line's level without this lot's own shock and the market's way until the
sale; what was looked up already counts as known.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

from models.estimate.looked_up_surprise import GAP_SD, SHARED_GAP_SD
from models.estimate.lot_cells import DRIFT_KINDS, LOT_KIND
from models.estimate.lot_joint import LotPrices
from models.estimate.lot_taught import Taught
from models.estimate.sparse_rows import SparseRows
from models.values.arrays import FloatArray, IntArray

_NOT_SHOWN = (LOT_KIND, *DRIFT_KINDS)
_REASONS: Mapping[str, str] = MappingProxyType({
    "own_item": "your own sales of it differ much or are few",
    "brand_and_category": "this very thing was never sold here",
    "category": "its brand was never sold here", "tag_only": "only its tag speaks for it",
    "prior_only": "nothing like it was sold here",
})  # fmt: skip


@dataclass(frozen=True)
class Research:
    """One line to look up."""

    line: int  # its number
    why: str
    spread_removed: float  # share of the lot's log variance, 0..1


def research_first(lot: LotPrices, most: int = 10) -> tuple[Research, ...]:
    """Lines to look up, the most useful first; an item is named once.

    Parameters
    ----------
    lot : LotPrices
        From `price_lot`.
    most : int
        How many lines at most.

    Returns
    -------
    tuple of Research
        Lines that would remove at least a thousandth of the log variance.

    Examples
    --------
    >>> from models.estimate.lot_prices import price_lot
    >>> from models.values.lines import Lines
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> lines, sales = Lines.blank(2), Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> found = match(book, lines.description, lines.sku, lines.gtin)
    >>> lot = price_lot(lines, found, model, np.zeros(2))
    >>> [one.line for one in research_first(lot)]
    [1]
    """
    removed = spread_removed(lot)
    found: list[Research] = []
    named: set[str] = set()
    for at in _order(removed, lot.no):
        if len(found) == most or removed[at] < 1e-3:
            break
        if lot.item[at] not in named:
            named.add(lot.item[at])
            found.append(Research(int(lot.no[at]), _why(lot, at), float(removed[at])))
    return tuple(found)


def spread_removed(lot: LotPrices) -> FloatArray:
    """Share of the lot's log variance that one looked-up price of each line would remove, shape (n_lines,).

    Examples
    --------
    >>> from models.estimate.lot_prices import price_lot
    >>> from models.values.lines import Lines
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> lines, sales = Lines.blank(2), Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> found = match(book, lines.description, lines.sku, lines.gtin)
    >>> lot = price_lot(lines, found, model, np.zeros(2))
    >>> bool((spread_removed(lot) > 0).all())
    True
    """
    total, posterior = lot.total, lot.posterior
    shown = ~np.isin(lot.cells.kind.astype(str), _NOT_SHOWN)
    var = lot.cells.var * shown
    loading = lot.cells.loading
    pulled = posterior.columns @ (total.direction @ posterior.columns)
    along = lot.rows.times(pulled.astype(np.float64)) + loading.times(var * loading.weighted_columns(total.weight))
    squared = SparseRows(loading.start, loading.column, loading.value**2, loading.width)
    chance = lot.noise_var + GAP_SD**2 + SHARED_GAP_SD**2
    own = lot.effects_var + squared.times(var) + chance
    if lot.taught is not None:
        known = _known_of_next(lot, lot.taught)
        along -= known @ lot.taught.along(total.weight)
        own = np.maximum(own - np.einsum("ij,ij->i", known, known), lot.noise_var)
    return np.asarray(along**2 / own / max(total.log_var, 1e-300), dtype=np.float64)


def _why(lot: LotPrices, at: int) -> str:
    looked_up = lot.taught is not None and lot.key[at] in lot.taught.key
    reason = "one more price of it would still help" if looked_up else _REASONS[lot.basis[at]]
    return f"{lot.total.weight[at]:.0%} of the lot's value, and {reason}"


def _known_of_next(lot: LotPrices, taught: Taught) -> FloatArray:
    """How a further price of each line hangs on those looked up: it meets the same gaps again; shape (n_lines, k)."""
    gaps = np.full((len(lot), len(taught.key)), taught.gap_var)
    gaps += GAP_SD**2 * (lot.key[:, None] == taught.key)
    return np.asarray(taught.pull + np.linalg.solve(taught.factor, gaps.T).T, dtype=np.float64)


def _order(removed: FloatArray, no: IntArray) -> IntArray:
    return np.lexsort((no, -removed))
