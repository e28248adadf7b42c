"""Which settings can the history tell?  Pace of listing, minutes, postage, fees, refunds: only what it holds."""

import numpy as np

from models.estimate.effort_model import KINDS, EffortModel
from models.estimate.fit.learned_costs import learned_costs
from models.estimate.fit.tempo_exposure import known_sold
from models.estimate.pace import Pace
from models.values.given import Given
from models.values.sales import Sales


def learned_settings(sales: Sales, known_until: np.datetime64, currency: str, pace: Pace | None = None) -> Given:
    """Settings the history can tell, as a document writes them.

    Parameters
    ----------
    sales : Sales
        The history.
    known_until : datetime64
        Nothing later is looked at.
    currency : str
        ISO 4217 code of the history's amounts.
    pace : Pace or None
        What is listed in a usual week.

    Returns
    -------
    Given
        `backlog.hours_per_week`: that of the pace.  `selling`: see `learned_costs`.  What cannot be told is absent.
    """
    sold = sales.take(known_sold(sales, known_until))
    costs = learned_costs(sold, currency)
    hours = {"backlog": {"hours_per_week": pace.hours_per_week}} if pace is not None else {}
    return hours | ({"selling": costs} if costs else {})


def learned_minutes(model: EffortModel) -> Given:
    """Minutes of a first, a further sealed and a further used unit, where anything told of them.

    Parameters
    ----------
    model : EffortModel
        Its priors are the default settings, so few timings move them little, and a kind that was never timed moves
        with the others.

    Returns
    -------
    Given
        {} where nothing was told.

    Examples
    --------
    >>> from models.estimate.fit.effort import fit_effort
    >>> learned_minutes(fit_effort(Sales.blank(0), np.empty(0, dtype=np.int64)))
    {}
    """
    if not np.isfinite(model.unit_minutes):
        return {}
    return {"effort": {k: round(mean, 2) for k, mean in zip(KINDS, np.exp(model.ln_minutes).tolist(), strict=True)}}
