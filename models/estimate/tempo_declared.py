"""How soon do goods sell where the history cannot tell?  The settings' share that never sells and days to sell."""

import numpy as np

from models.estimate.tempo_model import TempoModel
from models.values.problems import Caution
from models.values.setting_names import heading

DECLARED_SD = 0.5  # of ln of the declared pace: how far all goods of a shop may be off together
LATER = 4.0  # the second day matched, in days_to_sell
LEAST_STEP, MOST_STEP = 1e-9, 1e9
FEWEST_UNITS = 5  # timed units sold, and unsold; with fewer the share that never sells is a guess, so it is declared


def declared_pace(never_sells_share: float, days_to_sell: float) -> tuple[float, float]:
    """The gamma rate whose sales match the settings at days_to_sell and at four times that.

    Parameters
    ----------
    never_sells_share : float
        Listings that never sell, 0 to 1.
    days_to_sell : float
        Days until half of the others sold, above zero.

    Returns
    -------
    tuple of float
        Shape, and rate [days].

    Notes
    -----
    The settings describe P(T <= t) = (1 - p)(1 - 2^(-t/m)); a gamma rate gives 1 - (1 + t/b)^-a.  Both agree at m and
    4 m.  Without unsold ones the shape is without limit and the rate certain; it is then held at a large number.

    Examples
    --------
    >>> shape, rate = declared_pace(0.15, 45.0)
    >>> round(shape, 2), round(1 - (1 + 45 / rate) ** -shape, 3), round(1 - (1 + 180 / rate) ** -shape, 3)
    (1.75, 0.425, 0.797)
    """
    sells = 1.0 - min(max(never_sells_share, 1e-6), 1.0 - 1e-6)
    early, late = -np.log1p(-sells / 2.0), -np.log1p(-sells * (1.0 - 0.5**LATER))
    low, high = np.log(LEAST_STEP), np.log(MOST_STEP)
    for _ in range(100):  # the ratio of logarithms falls from 4 to 1 as the step grows
        middle = 0.5 * (low + high)
        step = np.exp(middle)
        low, high = (middle, high) if np.log1p(LATER * step) / np.log1p(step) > late / early else (low, middle)
    return float(early / np.log1p(np.exp(low))), float(days_to_sell / np.exp(low))


def shared_out(shape: float) -> tuple[float, float]:
    """A declared pace's spread as one part each product has alone and one all goods of the shop share.

    Parameters
    ----------
    shape : float
        Of the gamma rate that matches the settings.

    Returns
    -------
    tuple of float
        Shape of a product's own part, and sd of ln mu of the shared part: .5, at most half of the squared spread.

    Notes
    -----
    Squared coefficients of variation: 1/shape = 1/own + c (1 + 1/own), c = exp(sd^2) - 1.

    Examples
    --------
    >>> own, sd = shared_out(1.75)
    >>> round(own, 2), sd, round(1 / (1 / own + float(np.expm1(sd**2)) * (1 + 1 / own)), 6)
    (4.47, 0.5, 1.75)
    """
    shared = min(float(np.expm1(DECLARED_SD**2)), 0.5 / shape)
    return (1.0 + shared) / (1.0 / shape - shared), float(np.sqrt(np.log1p(shared)))


def _missing(model: TempoModel) -> str:
    if model.sold_units >= FEWEST_UNITS and model.unsold_units < FEWEST_UNITS:
        return (
            f"Your history holds {model.sold_units} dated sales but only {model.unsold_units} unsold listings: what did"
            " not sell is missing, so it cannot tell how soon goods sell."
        )
    return (
        f"Your history holds {model.sold_units} sold and {model.unsold_units} unsold units with a day of listing:"
        " too few to tell how soon goods sell."
    )


def _named(key: str) -> str:
    """A setting as its form calls it, inside a sentence."""
    name = heading(f"selling.{key}")
    return name[:1].lower() + name[1:]


def tempo_cautions(model: TempoModel) -> tuple[Caution, ...]:
    """What the history could not tell about the pace."""
    if model.declared:
        return (Caution(
            f"{_missing(model)} The assumed share that never sells and days to sell are used for every line.",
            "Export your unsold listings too, with the dates they were listed, or say in your settings, from your own"
            f" experience: {_named('never_sells_share')}, and {_named('days_to_sell')}.",
        ),)  # fmt: skip
    if not model.seasonal:
        return (Caution(
            "The sold history spans less than 400 days: a season of the year could not be told apart.",
            "If the goods sell at one time of the year only, judge the days to sell yourself.",
        ),)  # fmt: skip
    return ()
