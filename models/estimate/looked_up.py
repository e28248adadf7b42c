"""What do sold prices that the seller looked up say of a lot?  They are seen levels of their lines, with an error.

    mean ln of m prices = level of the line now + noise / sqrt(m) + gap of the line + gap of all,

the level now being what theta and the cells say without this lot's own shock and the market's way ahead.  One update
of the joint normal of theta and the cells: a line's price moves with how it hangs on what was seen, so the same item,
its product, its brand and its kind are taught too.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from models.estimate.looked_up_surprise import GAP_SD, SHARED_GAP_SD, item_cells, own_item, surplus_var
from models.estimate.lot_cells import DRIFT_KINDS, LOT_KIND
from models.estimate.lot_joint import LotPrices
from models.estimate.lot_taught import Taught
from models.estimate.sparse_rows import SparseRows
from models.values.arrays import FloatArray, IntArray


def with_looked_up(lot: LotPrices, now: LotPrices, prices: Mapping[int, Sequence[float]]) -> LotPrices:
    """The lot's prices once looked-up prices are known.

    Parameters
    ----------
    lot : LotPrices
        From `price_lot`, as of the expected sales.
    now : LotPrices
        The same lines as of today: what a price looked up today shows.
    prices : mapping of line number to prices
        Sold prices of one unit [minor units], each above zero.  Lines without any may be left out.

    Returns
    -------
    LotPrices
        `lot` itself where no price is given.  `posterior` and `cells` stay, but cells of items that surprised widen;
        what was learned is in `mu` and `taught`.

    Raises
    ------
    ValueError
        If `now` is not of the same lines, a line number is not the lot's, a price is not above zero, or `lot` was
        taught already: all prices belong into one update.

    Notes
    -----
    Joint normal update with S = R R' + O var O' + diag(noise / m + GAP_SD^2 + rest of drift) + SHARED_GAP_SD^2, R and
    O what is seen of effects and cells.  Drift is a Brownian path: of the way until a line's sale, the part until now
    is seen, so the seen loading is now^2 / ahead and the rest counts as the price's own error.  A line without any
    price level takes the level that was looked up.  A surprise beyond `MOST_SURPRISE` standard deviations widens
    what is the line's own, so that it moves other lines the less the larger it is: the error where the shop sold the
    item itself, else the item's cell, which then follows the prices.

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
    >>> taught = with_looked_up(lot, lot, {1: (6000.0, 7000.0, 6500.0)})
    >>> bool(taught.unit_price.p50[0] > lot.unit_price.p50[0]), bool(taught.log_sd < lot.log_sd)
    (True, True)
    """
    given = {line: np.sort(np.asarray(some, dtype=np.float64)) for line, some in prices.items() if len(some)}
    if not given:
        return lot
    _check(lot, now, given)
    place = {int(number): at for at, number in enumerate(lot.no.tolist())}
    lines = sorted(given, key=lambda line: str(lot.key[place[line]]))
    at = np.array([place[line] for line in lines], dtype=np.int64)
    seen = np.array([np.log(given[line]).mean() for line in lines])
    count = np.array([len(given[line]) for line in lines], dtype=np.float64)
    beyond = surplus_var(now, at, seen, count)
    error = np.where(own_item(now, at), beyond, 0.0)
    lot = _with_wider_items(lot, at, beyond - error)
    taught = _taught(lot, now, at, count, error)
    surprise = np.where(np.isfinite(now.mu[at]), seen - now.mu[at], 0.0)
    shift = taught.pull @ np.linalg.solve(taught.factor, surprise)
    return replace(lot, mu=_levelled(lot, at, seen) + shift, taught=taught)


def seen_loading(lot: LotPrices, now: LotPrices, at: IntArray) -> tuple[SparseRows, FloatArray]:
    """How prices looked up now hang on the lot's cells, and the drift until now that they have alone.

    Returns
    -------
    SparseRows of shape (len(at), n_cells)
    ndarray of shape (len(at),)
        Log variance.

    Examples
    --------
    >>> from models.estimate.lot_prices import price_lot
    >>> from models.values.lines import Lines
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> lines, sales = Lines.blank(1), Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> found = match(book, lines.description, lines.sku, lines.gtin)
    >>> lot = price_lot(lines, found, model, np.zeros(1))
    >>> [(str(lot.cells.kind[cell]), load) for cell, load in zip(*(
    ...     lambda rows: (rows.column, rows.value.tolist()))(seen_loading(lot, lot, np.arange(1))[0]))]
    [('declared', 1.0), ('product', 1.0), ('lot', 0.0)]
    """
    cells, rows, ahead = lot.cells, now.cells.loading.take(at), lot.cells.loading.take(at)
    kind = cells.kind[rows.column].astype(str)
    drift = np.isin(kind, DRIFT_KINDS)
    value = np.where(kind == LOT_KIND, 0.0, rows.value)
    value[drift] = rows.value[drift] ** 2 / np.maximum(np.maximum(ahead.value, rows.value)[drift], 1e-12)
    rest = drift * cells.var[rows.column] * (rows.value**2 - value**2)
    alone = np.bincount(rows.row, rest, minlength=len(at)).astype(np.float64)
    return SparseRows(rows.start, rows.column, value, rows.width), alone


def _with_wider_items(lot: LotPrices, at: IntArray, more: FloatArray) -> LotPrices:
    if not np.any(more > 0):
        return lot
    cell = item_cells(lot, at)[more > 0]
    var, earned = lot.cells.var.copy(), lot.cells.earned.copy()
    var[cell] = lot.cells.var[cell] + more[more > 0]
    earned[cell] = lot.cells.earned[cell] + more[more > 0]
    return replace(lot, cells=replace(lot.cells, var=var, earned=earned))


def _check(lot: LotPrices, now: LotPrices, given: Mapping[int, FloatArray]) -> None:
    if lot.taught is not None:
        raise ValueError("this lot was taught already; give all looked-up prices at once")
    same = (lot.key, now.key), (lot.cells.loading.column, now.cells.loading.column)
    if not all(np.array_equal(one, other) for one, other in same):
        raise ValueError("now must price the same lines in the same order")
    unknown = sorted(set(given) - set(lot.no.tolist()))
    if unknown:
        raise ValueError(f"the lot has no line {unknown[0]}")
    for line, some in given.items():
        if not (np.isfinite(some) & (some > 0)).all():
            raise ValueError(f"a looked-up price of line {line} is not above zero")


def _taught(lot: LotPrices, now: LotPrices, at: IntArray, count: FloatArray, surplus: FloatArray) -> Taught:
    cells, posterior = lot.cells, lot.posterior
    reached = posterior.reach(now.rows.take(at))
    loading, drifted = seen_loading(lot, now, at)
    own_var = now.noise_var[at] / count + GAP_SD**2 + drifted + surplus
    seen = np.zeros((len(cells.var), len(at)))
    seen[loading.column, loading.row] = loading.value
    exact = reached.astype(np.float64)
    spread = exact @ exact.T + seen.T @ (cells.var[:, None] * seen) + SHARED_GAP_SD**2
    factor = np.asarray(np.linalg.cholesky(spread + np.diag(own_var)), dtype=np.float64)
    by_effect = lot.rows.times_matrix((posterior.columns @ reached.T).astype(np.float64))
    covariance = by_effect + cells.loading.times_matrix(cells.var[:, None] * seen)
    pull = np.linalg.solve(factor, covariance.T).T
    return Taught(lot.key[at], reached, loading, own_var, SHARED_GAP_SD**2, factor, np.ascontiguousarray(pull))


def _levelled(lot: LotPrices, at: IntArray, seen: FloatArray) -> FloatArray:
    """Lines of which nothing was known take what was looked up for their item."""
    level = dict(zip(lot.item[at].tolist(), seen.tolist(), strict=True))
    unknown = ~np.isfinite(lot.mu)
    return np.array([
        level.get(item, mu) if blank else mu
        for item, mu, blank in zip(lot.item.tolist(), lot.mu.tolist(), unknown.tolist(), strict=True)
    ])  # fmt: skip
