"""Which of several lots should be bid for at once, each up to its own ceiling?

Every lot is valued alone; what they do together is the sum of their draws, draw by draw.  The draws of one seed and
model share what the lots share, so a brand or a market that disappoints does so in all lots at once.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from models.decide.plan_search import JointLimits, LotTable, best_lots
from models.decide.quantiles import MoneySpread, lowest_at, money_spread
from models.values.arrays import FloatArray
from models.values.money import whole_minor

Hindrance = Literal["cash alone", "hours alone", "no profit", "cash", "hours", "confidence", "loss limit"]


@dataclass(frozen=True)
class Candidate:
    """A lot at its own ceiling.  Draws of shape (n_draws,) after its own rivals' shade [whole minor units]."""

    cash_out: float  # at its ceiling [whole minor units]
    hours: float  # expected listing hours
    cash: FloatArray
    after_pay: FloatArray

    @property
    def profit(self) -> float:
        """Expected, after pay [whole minor units]."""
        return whole_minor(float(self.after_pay.mean())) - self.cash_out


@dataclass(frozen=True)
class LeftOut:
    """Why a lot is not in the plan; `over` is what it would take too much: [minor units] of cash, or hours."""

    lot: int  # its place among the candidates
    hindrance: Hindrance
    over: float | None = None


@dataclass(frozen=True)
class PlanFigures:
    """If every lot of the plan is won at its ceiling.  Money in whole minor units; shares are fractions."""

    cash_out: float
    expected_profit: float
    expected_cash_gain: float
    hours: float  # of listing
    chance_of_cash_loss: float
    chance_below_pay: float
    return_on_cash: float | None  # None where nothing is bought
    cash_proceeds: MoneySpread
    sd: float  # of the cash of all lots together
    sd_apart: float  # what it would be if the lots had nothing in common
    sure_cash: float  # cash that comes back with the confidence asked for
    worst_loss: float | None  # of cash, passed with the loss chance only; None: no loss limit


@dataclass(frozen=True)
class Plan:
    """`chosen` and `left_out` are places among the candidates, rising."""

    chosen: tuple[int, ...]
    gap: float  # [whole minor units] no plan earns more than this one and the gap; 0: none earns more
    left_out: tuple[LeftOut, ...]
    figures: PlanFigures


def bid_plan(candidates: Sequence[Candidate], limits: JointLimits) -> Plan:
    """The lots that earn most together within cash, hours and the goals of the sum.

    Parameters
    ----------
    candidates : sequence of Candidate
        Lots with a positive ceiling, all with the same number of draws under one seed, model and day.
    limits : JointLimits
        For all lots together.

    Returns
    -------
    Plan
        Empty where nothing fits, or there is nothing to choose from.

    Raises
    ------
    ValueError
        If their draws differ in number, or a limit is negative.

    Notes
    -----
    The expected profit of a sum is the sum of expected profits, whatever the lots share; the goals read the sum of
    the draws.

    Examples
    --------
    >>> low_then_high, high_then_low = np.array([0.0, 3000.0]), np.array([3000.0, 0.0])
    >>> one = Candidate(1000.0, 5.0, low_then_high, low_then_high)
    >>> other = Candidate(1200.0, 5.0, high_then_low, high_then_low)
    >>> plan = bid_plan([one, other], JointLimits(cash=2500.0, hours=10.0, confidence=0.9))
    >>> plan.chosen, plan.gap, plan.figures.expected_profit, plan.figures.chance_of_cash_loss
    ((0, 1), 0.0, 800.0, 0.0)
    >>> round(plan.figures.sd), round(plan.figures.sd_apart)  # each alone is risky, together they are certain
    (0, 2121)
    """
    if len({len(draws) for one in candidates for draws in (one.cash, one.after_pay)}) > 1:
        raise ValueError("all lots must have the same number of draws")
    found = best_lots(_table(candidates), limits)
    chosen = [candidates[lot] for lot in found.chosen]
    left = [lot for lot in range(len(candidates)) if lot not in found.chosen]
    return Plan(
        found.chosen,
        found.most - found.profit,
        tuple(_left_out(lot, candidates[lot], chosen, limits) for lot in left),
        _figures(chosen, limits),
    )


def _table(candidates: Sequence[Candidate]) -> LotTable:
    return LotTable(
        np.array([one.profit for one in candidates], dtype=np.float64),
        np.array([one.cash_out for one in candidates], dtype=np.float64),
        np.array([one.hours for one in candidates], dtype=np.float64),
        np.stack([one.cash for one in candidates]) if candidates else np.zeros((0, 1)),
    )


def _left_out(lot: int, one: Candidate, chosen: Sequence[Candidate], limits: JointLimits) -> LeftOut:
    """What first stands in the way of this lot: alone, then beside the chosen ones."""
    due = one.cash_out + sum(other.cash_out for other in chosen)
    hours = one.hours + sum(other.hours for other in chosen)
    cash = one.cash + sum(other.cash for other in chosen)
    sure = JointLimits(limits.cash, limits.hours, limits.confidence).holds(cash, due)
    checks: tuple[tuple[Hindrance, bool, float | None], ...] = (
        ("cash alone", not limits.fits(one.cash_out, 0.0), one.cash_out - limits.cash),
        ("hours alone", not limits.fits(0.0, one.hours), one.hours - limits.hours),
        ("no profit", one.profit <= 0, None),
        ("cash", not limits.fits(due, 0.0), due - limits.cash),
        ("hours", not limits.fits(0.0, hours), hours - limits.hours),
        ("confidence", not sure, None),
    )  # what none of these keeps out, only the loss limit can
    return next((LeftOut(lot, name, over) for name, stands, over in checks if stands), LeftOut(lot, "loss limit"))


def _figures(chosen: Sequence[Candidate], limits: JointLimits) -> PlanFigures:
    cash, after_pay = np.zeros(1), np.zeros(1)  # as many as the first lot has; one nothing, where none is bought
    for one in chosen:
        cash, after_pay = cash + one.cash, after_pay + one.after_pay
    paid = sum(one.cash_out for one in chosen)
    profit = sum(one.profit for one in chosen)
    worst = None if limits.loss_limit is None else max(0.0, paid - lowest_at(cash, limits.loss_chance))
    return PlanFigures(
        cash_out=paid,
        expected_profit=profit,
        expected_cash_gain=sum(whole_minor(float(one.cash.mean())) for one in chosen) - paid,
        hours=sum(one.hours for one in chosen),
        chance_of_cash_loss=float((cash < paid).mean()),
        chance_below_pay=float((after_pay < paid).mean()),
        return_on_cash=profit / paid if paid > 0 else None,
        cash_proceeds=money_spread(cash),
        sd=float(cash.std()),
        sd_apart=float(np.sqrt(sum(float(one.cash.var()) for one in chosen))),
        sure_cash=lowest_at(cash, 1 - limits.confidence),
        worst_loss=worst,
    )
