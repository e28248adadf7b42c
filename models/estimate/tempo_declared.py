"""How soon do goods sell where the history cannot tell?  The settings' share that never sells and days to sell."""

import datetime as dt
from collections.abc import Collection, Iterator

import numpy as np

from models.estimate.tempo_lot import POINTS
from models.estimate.tempo_model import TempoModel
from models.values.problems import Caution
from models.values.setting_names import heading

DECLARED_SD = 0.5  # of ln of the declared pace: how far all goods of a shop may be off together
LATER = 4.0  # the second day matched, in days_to_sell
LN_SHAPES = (np.log(1e-3), np.log(1e6))
HALVINGS = 50
MUCH_EARLIER = 0.03  # share of listings that started before the history begins, above which it is told
FEWEST_UNITS = 5  # timed units sold, and unsold; with fewer the share that never sells is a guess, so it is declared


def declared_pace(never_sells_share: float, days_to_sell: float) -> tuple[float, float, float]:
    """The pace whose sales match the settings at days_to_sell and at four times that.

    Parameters
    ----------
    never_sells_share : float
        Listings that never sell, 0 to 1.
    days_to_sell : float
        Days until half of the others sold, above zero.

    Returns
    -------
    tuple of float
        Shape and rate [days] of a product's own gamma, and sd of ln of a factor of mean 1 that all goods of the shop
        share: how far a declared pace may be off for all of them together.

    Notes
    -----
    The settings describe P(T <= t) = (1 - p)(1 - 2^(-t/m)); both agree at m and 4 m.  The shared factor takes at most
    half of the squared spread.  Without unsold ones the shape is without limit; it is then held at a large number.

    Examples
    --------
    >>> shape, rate, sd = declared_pace(0.15, 45.0)
    >>> round(shape, 2), sd, round(chance_by(45 / rate, shape, sd), 3), round(chance_by(180 / rate, shape, sd), 3)
    (2.58, 0.5, 0.425, 0.797)
    """
    sells = 1.0 - min(max(never_sells_share, 1e-6), 1.0 - 1e-6)
    early, late = sells / 2.0, sells * (1.0 - 0.5**LATER)
    spread = 1.0 / _matched(early, late, 0.0)[0]
    sd = float(np.sqrt(np.log1p(min(np.expm1(DECLARED_SD**2), 0.5 * spread))))
    shape, step = _matched(early, late, sd)
    return shape, days_to_sell / step, sd


def chance_by(step: float, shape: float, sd: float) -> float:
    """Chance that a unit sells in `step` times the rate's days, over the factor all goods share.

    Parameters
    ----------
    step : float
        Days over the gamma's rate.
    shape : float
        Of the gamma.
    sd : float
        Of ln of the shared factor.

    Returns
    -------
    float
        0 to 1.

    Examples
    --------
    >>> chance_by(1.0, 1.0, 0.0)
    0.5
    """
    factor = np.exp(sd * POINTS[0] - sd**2 / 2.0)
    return float(-np.expm1(-shape * np.log1p(step * factor)) @ POINTS[1])


def _matched(early: float, late: float, sd: float) -> tuple[float, float]:
    """Shape and days_to_sell over the rate at which both chances hold: the narrower the rates, the more sell late."""
    low, high = LN_SHAPES
    for _ in range(HALVINGS):
        shape = float(np.exp(middle := 0.5 * (low + high)))
        step = _step(early, shape, sd)
        low, high = (low, middle) if chance_by(LATER * step, shape, sd) > late else (middle, high)
    return shape, step


def _step(early: float, shape: float, sd: float) -> float:
    alone = float(np.log(np.expm1(-np.log1p(-early) / shape)))
    low, high = alone - 1.0, alone + 1.0  # a shared factor of mean 1 moves it by less
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if chance_by(float(np.exp(middle)), shape, sd) > early else (middle, high)
    return float(np.exp(0.5 * (low + high)))


def _instead(told: Collection[tuple[float, float]]) -> str:
    if not told:
        return ""
    (fewest, most), (soon, late) = ((min(one), max(one)) for one in zip(*told, strict=True))
    shares = f"{fewest:.0%}" if fewest == most else f"{fewest:.0%} to {most:.0%}"
    days = f"{soon:g}" if soon == late else f"{soon:g} to {late:g}"
    by = "" if len(set(told)) == 1 else ", by category"
    never = f"{shares} of listings never sell"
    return f" The settings stand in for it{by}: {never}, half of the others sell within {days} days."


def _missing(model: TempoModel) -> str:
    if model.sold_units >= FEWEST_UNITS and model.unsold_units < FEWEST_UNITS:
        few = f"only {model.unsold_units}" if model.unsold_units else "no"
        return (
            f"Your history holds {model.sold_units} dated sales but {few} unsold listings: what did"
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


def tempo_cautions(
    model: TempoModel, told: Collection[tuple[float, float]], raised: bool = False
) -> tuple[Caution, ...]:
    """What the history could not tell about the pace.

    `told`: share that never sells and days to sell of each line; `raised`: own sales of some goods came faster.
    """
    if model.declared:
        own = " Goods of which you sold more than that count at the pace of those sales." if raised else ""
        return (Caution(
            f"{_missing(model)}{_instead(told)}{own}",
            "Export your unsold listings too, with the dates they were listed, or say in your settings, from your own"
            f" experience: {_named('never_sells_share')}, and {_named('days_to_sell')}.",
        ),)  # fmt: skip
    return (*_begun(model), *_season(model))


def _begun(model: TempoModel) -> Iterator[Caution]:
    if model.earlier > MUCH_EARLIER:
        first = np.datetime64(int(model.begins), "D").astype(dt.date)
        yield Caution(
            f"Your history begins with sales on {first.day} {first:%b %Y}, but {model.earlier:.0%} of its listings"
            " started before: what was listed earlier and sold by then is missing. Goods listed earlier are counted"
            " from that day on.",
            "Export your older sales too: how soon goods sell is then known better.",
        )


def _season(model: TempoModel) -> Iterator[Caution]:
    if not model.seasonal:
        yield Caution(
            "The sold history spans less than 400 days: a season of the year could not be told apart.",
            "If the goods sell at one time of the year only, judge the days to sell yourself.",
        )
