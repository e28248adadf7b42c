"""How much faster or slower than over the year do goods sell in the months when they are on sale?"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from models.estimate.tempo_lot import EXACT, LotTempo, product_window
from models.values.arrays import DayArray, FloatArray
from models.values.problems import Caution

WORTH_SAYING = 0.1  # of the year's pace: what chance alone makes of a flat year is smaller


def in_season(lot: LotTempo, starts_on: DayArray | np.datetime64, window_days: FloatArray | float) -> LotTempo:
    """The lot at the mean pace of the months each product is on sale; unchanged where no season was fitted.

    Where that moves its units' mean pace by a tenth or more, a caution says so.

    Parameters
    ----------
    lot : LotTempo
        Pace averaged over the year.
    starts_on : ndarray of shape (n_lines,) or datetime64
        Day each line is listed; the latest of a product's lines counts.
    window_days : ndarray of shape (n_lines,) or float
        Days each line is on sale; the longest of a product's lines counts, and at least one.

    Returns
    -------
    LotTempo

    Examples
    --------
    >>> from models.estimate.tempo_lot import gamma_pace
    >>> lot = gamma_pace(np.array([0]), np.array([1.0]), np.zeros(1), 1.5, 90.0)
    >>> lot = replace(lot, month_effect=np.log(np.arange(1.0, 13.0)))
    >>> sped = in_season(lot, np.datetime64("2026-02-01"), 28.0)
    >>> (sped.mean_rate / lot.mean_rate).round(6)
    array([2.])
    """
    if not lot.month_effect.any() or not len(lot.product):
        return lot
    days = np.asarray(starts_on, dtype="datetime64[D]").astype(np.int64).astype(np.float64)
    first = days.min()
    start = product_window(lot, np.broadcast_to(days - first, lot.product.shape))
    end = start + np.maximum(1.0, product_window(lot, np.broadcast_to(window_days, lot.product.shape)))
    day = first + np.arange(np.ceil(end.max()) + 1)
    factor = np.exp(lot.month_effect[day.astype("datetime64[D]").astype("datetime64[M]").astype(np.int64) % 12])
    spent, at = np.concatenate([[0.0], np.cumsum(factor)]), np.arange(len(day) + 1)
    pace = (np.interp(end, at, spent) - np.interp(start, at, spent)) / (end - start)
    told = _said(float(np.average(pace, weights=lot.units)))
    return replace(lot, ln_mu=np.round(lot.ln_mu + np.log(pace), EXACT), cautions=(*lot.cautions, *told))


def _said(pace: float) -> Iterator[Caution]:
    """What a season does to a lot's pace, given as a share of the year's."""
    if abs(pace - 1.0) >= WORTH_SAYING:
        than = f"{abs(pace - 1.0):.0%} {'faster' if pace > 1 else 'slower'} than over the whole year"
        yield Caution(
            f"This lot would be on sale in months in which your goods sold {than}. This answer counts on the same.",
            "If something else made that difference, such as a sale you held or a long absence, rely on it less.",
        )
