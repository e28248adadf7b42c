"""How near was it, how surely, how soon, how long?  Figures over lots and listings, told against happened."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri

from models.appraisal.backtest.forecast import WAITS
from models.appraisal.backtest.outcome import Listings, Tested, Told
from models.values.arrays import FloatArray

STATED = (0.5, 0.8, 0.9, 0.95)
WITHIN = (30, 90)  # days
TAKINGS_DAYS = 90
LATER_DAYS = 30
FEWEST_SLOPES = 5  # lots that a slope is told of
FEWEST_TIMED = 5  # timed listings of a lot whose minutes are compared


@dataclass(frozen=True)
class Money:
    """Sums of lot totals [minor units]."""

    told: float
    happened: float

    @property
    def ratio(self) -> float:
        """Told for each unit of money that came."""
        return self.told / self.happened


@dataclass(frozen=True)
class Errors:
    """Of one method."""

    money: Money
    median: float  # of |told / happened - 1| over lots
    mean: float
    ln_price_rmse: float  # over sales


@dataclass(frozen=True)
class Held:
    """How many lots lay inside their range."""

    stated: float
    held: int
    lots: int

    @property
    def share(self) -> float:
        """Share of lots inside."""
        return self.held / self.lots

    @property
    def by_luck(self) -> tuple[float, float]:
        """Where the true share lies, 95% (Wilson 1927)."""
        z2, n = float(ndtri(0.975)) ** 2, self.lots
        middle = (self.share + z2 / (2 * n)) / (1 + z2 / n)
        half = np.sqrt(z2 * (self.share * (1 - self.share) / n + z2 / (4 * n**2))) / (1 + z2 / n)
        return float(max(0.0, middle - half)), float(min(1.0, middle + half))


@dataclass(frozen=True)
class SoldWithin:
    """Share of the units listed long enough before the end that sold within so many days."""

    days: int
    units: float
    told: float
    happened: float


@dataclass(frozen=True)
class LaterSales:
    """How much more or less the same lot's goods fetch that sell 30 days later: a share, with its 95% range."""

    sales: int
    change: float
    low: float
    high: float


@dataclass(frozen=True)
class Timing:
    """How soon things sold; `half_told` and `half_happened`: days until half had sold, None if not within a year."""

    within: tuple[SoldWithin, ...]
    half_told: float | None
    half_happened: float | None
    takings: Money | None  # gross within 90 days of listing, what did not sell counted as nothing
    later: LaterSales | None


@dataclass(frozen=True)
class Minutes:
    """Listing minutes of timed rows."""

    rows: int
    hours: Money  # told and happened [minutes]
    median: float | None  # error of a lot's minutes, None without lots of enough timed rows
    lots: int


def errors(lots: Sequence[Tested], method: str | None = None) -> Errors:
    """Of our totals, or of another method's."""
    told = [_by(lot, method) for lot in lots]
    totals, happened = np.array([one.total for one in told]), np.array([lot.happened for lot in lots])
    off = np.array([_off(lot, method) for lot in lots])
    ln_error = np.concatenate([one.ln_error for one in told])
    return Errors(
        money=Money(float(totals.sum()), float(happened.sum())),
        median=float(np.median(off)),
        mean=float(off.mean()),
        ln_price_rmse=float(np.sqrt(np.mean(ln_error**2))),
    )


def nearer_by(lots: Sequence[Tested], method: str) -> tuple[float, float]:
    """How much less another method was off on the average lot, above 0 if it was nearer, and the standard error."""
    gained = np.array([_off(lot, None) - _off(lot, method) for lot in lots])
    return float(gained.mean()), float(gained.std(ddof=1) / np.sqrt(len(gained)))


def held(lots: Sequence[Tested], stated: float) -> Held:
    """Lots whose total lay inside the central range of that chance."""
    return Held(stated, int(sum(is_inside(lot, stated) for lot in lots)), len(lots))


def is_inside(lot: Tested, stated: float) -> bool:
    """Did its total lie inside the range?"""
    return bool(abs(_ln_off(lot)) <= ndtri(0.5 + stated / 2) * lot.log_sd)


def ends(lot: Tested, stated: float) -> tuple[float, float]:
    """The range's ends [minor units]."""
    middle, half = np.log(lot.ours.total) - lot.log_sd**2 / 2, float(ndtri(0.5 + stated / 2)) * lot.log_sd
    return float(np.exp(middle - half)), float(np.exp(middle + half))


def shift(lots: Sequence[Tested]) -> float:
    """Mean of ln happened less the ln median told: what a cut-off's lots share."""
    return float(np.mean([_ln_off(lot) for lot in lots]))


def timing(rows: Listings) -> Timing | None:
    """None where no listing can be followed: days of listing or unsold listings are missing."""
    rows = rows.take(~np.isnan(rows.seen) & ~np.isnan(rows.sold_by[:, 0]))
    within = tuple(one for days in WITHIN if (one := _within(rows, days)) is not None)
    if not within:
        return None
    told = (rows.units @ rows.sold_by) / rows.units.sum()
    half_told = half_of(np.array(WAITS, dtype=np.float64), told)
    return Timing(within, half_told, _half_happened(rows), _takings(rows), later_sales(rows))


def later_sales(rows: Listings) -> LaterSales | None:
    """Slope of ln price off in days to sell inside lots, each lot's error counted as one; None with fewer than 5 lots.

    Liang & Zeger 1986, doi:10.1093/biomet/73.1.13, with independent working errors.
    """
    sold = rows.take(np.isfinite(rows.waited) & np.isfinite(rows.ln_off))
    _, of, count = np.unique(sold.lot, return_inverse=True, return_counts=True)
    if len(count) < FEWEST_SLOPES:
        return None
    waited, off = (values - (np.bincount(of, values) / count)[of] for values in (sold.waited, sold.ln_off))
    square = float(waited @ waited)
    if square <= 0:
        return None
    slope = float(waited @ off) / square
    by_lot = np.bincount(of, waited * (off - slope * waited))
    half = 1.96 * float(np.sqrt(by_lot @ by_lot)) / square
    change, low, high = (float(np.expm1(LATER_DAYS * one)) for one in (slope, slope - half, slope + half))
    return LaterSales(len(sold.lot), change, low, high)


def minutes(rows: Listings) -> Minutes | None:
    """None where nobody timed anything."""
    rows = rows.take(~np.isnan(rows.minutes) & ~np.isnan(rows.minutes_told))
    if not len(rows.lot):
        return None
    _, of, count = np.unique(rows.lot, return_inverse=True, return_counts=True)
    told, happened = np.bincount(of, rows.minutes_told), np.bincount(of, rows.minutes)
    off = np.abs(told / happened - 1.0)[count >= FEWEST_TIMED]
    hours = Money(float(rows.minutes_told.sum()), float(rows.minutes.sum()))
    return Minutes(len(rows.lot), hours, float(np.median(off)) if len(off) else None, len(off))


def kaplan_meier(waited: FloatArray, is_sold: FloatArray, units: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Days of sale and the share sold by each, those still waiting counted while they wait (Kaplan & Meier 1958)."""
    days = np.unique(waited[is_sold > 0])
    left = 1.0
    share = []
    for one in days.tolist():
        at_risk = units[waited >= one].sum()
        left *= 1.0 - units[(waited == one) & (is_sold > 0)].sum() / at_risk
        share.append(1.0 - left)
    return days, np.array(share)


def half_of(days: FloatArray, share: FloatArray) -> float | None:
    """The day by which half had sold, straight between the days given; None if not by the last one."""
    if not len(share) or share[-1] < 0.5:
        return None
    return float(np.interp(0.5, np.concatenate([[0.0], share]), np.concatenate([[0.0], days])))


def _half_happened(rows: Listings) -> float | None:
    is_sold = np.isfinite(rows.waited)
    days, share = kaplan_meier(np.where(is_sold, rows.waited, rows.seen), is_sold.astype(np.float64), rows.units)
    at = np.flatnonzero(share >= 0.5)
    return float(days[at[0]]) if len(at) else None


def _within(rows: Listings, days: int) -> SoldWithin | None:
    old = rows.take(rows.seen >= days)
    units = float(old.units.sum())
    if not units:
        return None
    told = float(old.units @ old.sold_by[:, WAITS.index(days)]) / units
    return SoldWithin(days, units, told, float(old.units @ (old.waited <= days)) / units)


def _takings(rows: Listings) -> Money | None:
    old = rows.take(rows.seen >= TAKINGS_DAYS)
    told = float(old.gross_told @ old.sold_by[:, WAITS.index(TAKINGS_DAYS)])
    happened = float(old.gross @ (old.waited <= TAKINGS_DAYS))
    return Money(told, happened) if happened > 0 else None


def _off(lot: Tested, method: str | None) -> float:
    return abs(_by(lot, method).total / lot.happened - 1.0)


def _by(lot: Tested, method: str | None) -> Told:
    return lot.ours if method is None else lot.others[method]


def _ln_off(lot: Tested) -> float:
    return float(np.log(lot.happened) - np.log(lot.ours.total) + lot.log_sd**2 / 2)
