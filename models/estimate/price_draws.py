"""What may each line's unit price turn out to be?  Draws that share what lines share, keyed by what each effect is."""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from models.estimate.lot_joint import LotPrices
from models.estimate.lot_taught import Taught
from models.estimate.sparse_rows import SparseRows, from_entries
from models.values.arrays import FloatArray, IntArray
from models.values.streams import DRAWS, stream

Draws = NDArray[np.float32]
_CHUNK = 256  # effects drawn at once
_HELD_FROM = 4  # a cell with so many lines is kept, others are drawn again where they are needed
_IN_ONE_SLICE = ("product", "item", "tag")  # their lines are drawn together: keeping them would only fill memory
_LOT_KINDS = ("lot", "tags of the lot", "untold")


@dataclass(frozen=True)
class SharedDraws:
    """Draws of what lines share, in single precision: their own error is about 1e-6."""

    seed: int
    effects: Draws  # (k, DRAWS) what the learned effects add, by direction
    directions: SparseRows  # (n_lines, k) how each line hangs on them
    held: dict[int, Draws] = field(repr=False)  # standard normals of cells that many lines share
    surprise: Draws | None = None  # (k, DRAWS) what looked-up prices would have shown in each draw, times factor^-1


def shared_draws(lot: LotPrices, seed: int) -> SharedDraws:
    """Draw everything that lines share, once a lot.

    Parameters
    ----------
    lot : LotPrices
        From `price_lot`.
    seed : int
        The evaluation's seed; two lots of one seed and one model share the draws of what they share.

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
    >>> sorted(shared_draws(lot, 1).held)
    []
    """
    touched = np.unique(lot.rows.column)
    if len(lot) <= len(touched):  # fewer lines than effects: each line is its own direction
        reached = lot.posterior.reach(lot.rows)
        line = np.arange(len(lot))
        directions = from_entries(line, line, np.ones(len(lot)), (len(lot), len(lot)))
    else:
        reached = lot.posterior.columns[touched]
        rows = lot.rows
        place = np.searchsorted(touched, rows.column)
        directions = SparseRows(rows.start, place, rows.value, len(touched))
    count = np.bincount(lot.cells.loading.column, minlength=len(lot.cells.var))
    spread_out = (count >= _HELD_FROM) & ~np.isin(lot.cells.kind.astype(str), _IN_ONE_SLICE)
    held = {int(cell): cell_draws(lot, int(cell), seed) for cell in np.flatnonzero(spread_out)}
    if lot.taught is None:
        return SharedDraws(seed, _effects(reached, seed), directions, held)
    effects = _effects(np.concatenate([reached, lot.taught.reached]), seed)
    surprise = _surprise(effects[len(reached) :], lot, lot.taught, held, seed)
    return SharedDraws(seed, effects[: len(reached)], directions, held, surprise)


def line_price_draws(lot: LotPrices, shared: SharedDraws, index: IntArray, seed: int) -> FloatArray:
    """Mean unit price of each line's units.

    Parameters
    ----------
    index : ndarray of shape (n,)
        Lines to draw; any slicing gives the same numbers.

    Returns
    -------
    ndarray of shape (n, DRAWS)
        Unshaded [minor units].  A line of q units adds own noise with 1/q of the squared coefficient of variation.

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
    >>> line_price_draws(lot, shared_draws(lot, 1), np.arange(2), 1).shape
    (2, 8192)
    """
    log = shared.directions.take(index).times_matrix(shared.effects)
    _add_cells(log, lot, lot.cells.loading.take(index), shared.held, seed)
    if lot.taught is not None and shared.surprise is not None:
        for at, pull in enumerate(lot.taught.pull[index].astype(np.float32)):
            log[at] -= pull @ shared.surprise
    noise_var = lot.noise_var[index]
    own_var = np.log1p(np.expm1(noise_var) / lot.quantity[index])
    for at, line in enumerate(index):
        normal = stream(seed, "line", f"{lot.lot_key}\x1f{lot.key[line]}").standard_normal(DRAWS, dtype=np.float32)
        log[at] += np.float32(np.sqrt(own_var[at])) * normal
    level = lot.mu[index] + (noise_var - own_var) / 2
    return np.asarray(np.exp(log.astype(np.float64) + level[:, None]), dtype=np.float64)


def cell_draws(lot: LotPrices, cell: int, seed: int) -> Draws:
    """Standard normals of one cell; what belongs to this lot alone is keyed by the lot's content too.

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
    >>> cell_draws(lot, 0, 1).shape
    (8192,)
    """
    kind, name = str(lot.cells.kind[cell]), str(lot.cells.name[cell])
    key = f"{lot.lot_key}\x1f{name}" if kind in _LOT_KINDS else name
    return stream(seed, kind, key).standard_normal(DRAWS, dtype=np.float32)


def _surprise(seen: Draws, lot: LotPrices, taught: Taught, held: dict[int, Draws], seed: int) -> Draws:
    """Matheron's rule: a draw less the gain times what it would have shown is a draw given what was seen.

    So every stream keeps its key, and what is drawn of a line without looked-up prices is drawn as before.
    """
    _add_cells(seen, lot, taught.loading, held, seed)
    gap = stream(seed, "gap of looked-up prices").standard_normal(DRAWS, dtype=np.float32)
    for at, key in enumerate(taught.key.tolist()):
        own = stream(seed, "looked-up price", str(key)).standard_normal(DRAWS, dtype=np.float32)
        seen[at] += np.float32(np.sqrt(taught.own_var[at])) * own + np.float32(np.sqrt(taught.gap_var)) * gap
    return np.linalg.solve(taught.factor, seen.astype(np.float64)).astype(np.float32)


def _add_cells(log: Draws, lot: LotPrices, rows: SparseRows, held: dict[int, Draws], seed: int) -> None:
    """Add every cell's part to the lines of one slice, in place."""
    order = np.argsort(rows.column, kind="stable")
    at = rows.row
    last, normal = -1, np.zeros(0, dtype=np.float32)
    for entry in order:
        cell = int(rows.column[entry])
        if cell != last:
            normal = held[cell] if cell in held else cell_draws(lot, cell, seed)
            last = cell
        log[at[entry]] += np.float32(rows.value[entry] * np.sqrt(lot.cells.var[cell])) * normal


def _effects(reached: NDArray[np.float32], seed: int) -> Draws:
    """What independent standard normals of the learned effects add in each direction."""
    rng = stream(seed, "effects")
    found = np.zeros((len(reached), DRAWS), dtype=np.float32)
    for first in range(0, reached.shape[1], _CHUNK):
        part = reached[:, first : first + _CHUNK]
        normals = rng.standard_normal((part.shape[1], DRAWS), dtype=np.float32)
        for some in range(0, len(found), _CHUNK):  # a product of all directions at once would double the memory
            found[some : some + _CHUNK] += part[some : some + _CHUNK] @ normals
    return found
