"""Which settings can the history tell?  Pace of listing, postage, fees, refunds: only what its columns hold."""

import numpy as np

from models.estimate.effort_model import KINDS, EffortModel
from models.estimate.fit.effort import timed_rows
from models.estimate.fit.learned_costs import learned_costs
from models.estimate.fit.tempo_exposure import known_sold
from models.values.given import Given
from models.values.sales import Sales
from models.values.settings import Effort

WEEKS, LEAST_WEEKS = 26, 4  # weeks with any listing that are looked at, and needed
LEAST_PACE = 5.0  # units a week; a full-time seller lists more, so a file with fewer is not all of their listing
LEAST_DATED = 0.5  # share of rows with a listing date; fewer do not tell the pace
LEAST_TIMINGS = 20  # of a kind; fewer are a look at the clock, not a habit


def learned_settings(sales: Sales, known_until: np.datetime64, currency: str) -> Given:
    """Settings the history can tell, as a document writes them.

    Parameters
    ----------
    sales : Sales
        The history.
    known_until : datetime64
        Nothing later is looked at.
    currency : str
        ISO 4217 code of the history's amounts.

    Returns
    -------
    Given
        `backlog.hours_per_week`: median units listed a week, over the last 26 weeks with any listing (at least 4,
        and 5 units a week), times the mean minutes of a unit.  `selling`: see `learned_costs`.  What cannot be told
        is absent.

    Notes
    -----
    A history of sold listings only undercounts what was listed in the last weeks, and so the hours.
    """
    sold = sales.take(known_sold(sales, known_until))
    costs = learned_costs(sold, currency)
    hours = hours_per_week(sales, known_until)
    return ({"backlog": {"hours_per_week": hours}} if hours is not None else {}) | ({"selling": costs} if costs else {})


def learned_minutes(model: EffortModel) -> Given:
    """Minutes of a first, a further sealed and a further used unit, where 20 timed rows or more tell of it.

    Their priors are the default settings, so timings move them only part of the way.
    """
    told = zip(KINDS, model.told.tolist(), np.exp(model.ln_minutes).tolist(), strict=True)
    minutes = {kind: round(mean, 2) for kind, rows, mean in told if rows >= LEAST_TIMINGS}
    return {"effort": minutes} if minutes else {}


def mean_unit_minutes(sales: Sales) -> float | None:
    """Mean listing minutes of a unit in the history [minutes]; None without timings."""
    timed = timed_rows(sales)
    if not timed.any():
        return None
    units = sales.quantity[timed].astype(float)
    return float((sales.listing_minutes[timed] * units).sum() / units.sum())


def hours_per_week(sales: Sales, known_until: np.datetime64) -> float | None:
    """Listing hours of a usual week [hours]; None where listing dates cannot tell."""
    listed = np.where(np.isnat(sales.listed_on), sales.first_listed_on, sales.listed_on).astype("datetime64[D]")
    dated = ~np.isnat(listed) & (listed <= known_until)
    if len(sales) == 0 or dated.mean() < LEAST_DATED:
        return None
    week = (known_until.astype("datetime64[D]") - listed[dated]).astype(np.int64) // 7
    units = np.bincount(week, weights=sales.quantity[dated].astype(float))
    busy = units[units > 0][:WEEKS]
    if len(busy) < LEAST_WEEKS or np.median(busy) < LEAST_PACE:
        return None
    minutes = mean_unit_minutes(sales) or Effort().minutes_first
    return round(float(np.clip(np.median(busy) * minutes / 60.0, 0.1, 168.0)), 2)
