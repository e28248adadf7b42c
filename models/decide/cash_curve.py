"""When is the cash back?  Quantiles of the cash received by each week, against the cash out at some bid."""

from dataclasses import dataclass

import numpy as np

from models.decide.quantiles import lowest_at
from models.decide.weekly_cash import WeeklyCash
from models.values.arrays import FloatArray

_CHANCES = (0.1, 0.5, 0.9)
_FORGIVEN = 1e-9  # 1 - 0.9 is not 0.1 in binary


@dataclass(frozen=True)
class WeeklyTable:
    """Quantiles by week, arrays of shape (n_weeks + 1, 3): at 10, 50 and 90% [whole minor units]."""

    shade: float  # factor on every unit price that it was read at
    cash: FloatArray  # received by the end of the week
    reached: FloatArray  # the most that was ever received by then, falling: reached in 10, 50, 90% of the draws


@dataclass(frozen=True)
class CashPoint:
    """The lot's cash at the end of a week after payment, cash out included [whole minor units]."""

    week: int
    p10: float
    p50: float
    p90: float


@dataclass(frozen=True)
class PaybackWeeks:
    """Weeks after payment until the cash out is back; None: not within the horizon."""

    p10: int | None
    p50: int | None
    p90: int | None


def weekly_table(weekly: WeeklyCash) -> WeeklyTable:
    """What is kept of the weekly cash: enough for a curve and a payback at any bid.

    Parameters
    ----------
    weekly : WeeklyCash
        Of the whole lot.

    Returns
    -------
    WeeklyTable
        Quantiles over the draws.

    Examples
    --------
    >>> table = weekly_table(WeeklyCash(1.0, np.array([[0.0, 0.0, 0.0], [50.0, 10.0, 90.0], [100.0, 20.0, 80.0]])))
    >>> table.cash[2].tolist(), table.reached[2].tolist()
    ([20.0, 80.0, 100.0], [100.0, 90.0, 20.0])
    """
    most = np.sort(np.maximum.accumulate(weekly.cash, axis=0), axis=1)
    last = most.shape[1] - 1
    from_the_top = [last - min(int(np.floor(chance * (last + 1) + _FORGIVEN)), last) for chance in _CHANCES]
    return WeeklyTable(
        shade=weekly.shade,
        cash=np.array([[lowest_at(week, chance) for chance in _CHANCES] for week in weekly.cash]),
        reached=most[:, from_the_top],
    )


def cash_curve(table: WeeklyTable, cash_out: float) -> tuple[CashPoint, ...]:
    """Cumulative cash by week, the cash out included: it begins below zero and crosses it when the cash is back.

    Parameters
    ----------
    table : WeeklyTable
        Cash received.
    cash_out : float
        Paid on the day of payment [whole minor units].

    Returns
    -------
    tuple of CashPoint
        From week 0, the day of payment, to the horizon.

    Examples
    --------
    >>> weekly = WeeklyCash(1.0, np.array([[0.0] * 4, [30.0] * 4, [90.0] * 4]))
    >>> [point.p50 for point in cash_curve(weekly_table(weekly), 50.0)]
    [-50.0, -20.0, 40.0]
    """
    return tuple(CashPoint(week, *(row - cash_out).tolist()) for week, row in enumerate(table.cash))


def payback(table: WeeklyTable, cash_out: float) -> PaybackWeeks:
    """Weeks until the cash received first reaches the cash out.

    Parameters
    ----------
    table : WeeklyTable
        Cash received.
    cash_out : float
        Paid on the day of payment [whole minor units].

    Returns
    -------
    PaybackWeeks
        Quantiles over the draws of each draw's own first week; p10 is the fast end.

    Examples
    --------
    >>> weekly = WeeklyCash(1.0, np.array([[0.0] * 4, [30.0] * 4, [90.0, 90.0, 90.0, 40.0]]))
    >>> payback(weekly_table(weekly), 50.0)
    PaybackWeeks(p10=2, p50=2, p90=None)
    """
    back = table.reached >= cash_out
    first = [int(np.argmax(column)) if column.any() else None for column in back.T]
    return PaybackWeeks(*first)
