"""Which lots together earn most?  A knapsack with two limits, cash and hours, and goals that only the whole must meet.

Draws of lots are added draw by draw, so what lots share (a brand, the market) moves all of them at once.
"""

import math
from dataclasses import dataclass

import numpy as np

from models.decide.plan_bound import Multipliers, multipliers
from models.values.arrays import FloatArray, IntArray

EXACT_UP_TO = 15  # lots whose every subset is looked at or ruled out; more of them by the same way while it lasts
_MOST_LOOKS = 50_000  # subsets looked at where there are more lots
_FORGIVEN = 1e-9  # 1 - 0.9 is not 0.1 in binary
_CASH_FORGIVEN, _HOURS_FORGIVEN = 1e-6, 1e-9  # [minor units], hours: what sums of binary fractions may gain


@dataclass(frozen=True)
class LotTable:
    """What each lot takes and brings at its own ceiling; arrays of shape (n_lots,) unless said."""

    profit: FloatArray  # expected, after pay [whole minor units]
    cash_out: FloatArray  # [whole minor units]
    hours: FloatArray  # of listing
    cash: FloatArray  # (n_lots, n_draws), proceeds of each lot in the same draws [whole minor units]


@dataclass(frozen=True)
class JointLimits:
    """What the lots together must keep to."""

    cash: float  # most cash out [minor units]
    hours: float  # most listing hours
    confidence: float  # chance that the cash of all lots together comes back
    loss_limit: float | None = None  # most cash to lose on all of them [minor units]; None: off
    loss_chance: float = 0.05  # accepted, of losing more than that

    def fits(self, cash_out: float, hours: float) -> bool:
        """Whether cash and hours suffice."""
        return cash_out <= self.cash + _CASH_FORGIVEN and hours <= self.hours + _HOURS_FORGIVEN

    def holds(self, cash: FloatArray, cash_out: float) -> bool:
        """Whether the sum of the draws meets the goals: the quantile at 1 - confidence is not below the cash out."""
        if not _seldom_short(cash, cash_out, 1 - self.confidence):
            return False
        return self.loss_limit is None or _seldom_short(cash, cash_out - self.loss_limit, self.loss_chance)


def _seldom_short(cash: FloatArray, due: float, chance: float) -> bool:
    """Whether draws fall short of `due` no more often than `chance` allows: the quantile's own definition, counted."""
    return bool((cash < due).sum() <= math.floor(chance * len(cash) + _FORGIVEN))


@dataclass(frozen=True)
class Found:
    """`chosen` rising; no plan that keeps to the limits earns more than `most`."""

    chosen: tuple[int, ...]
    profit: float  # [whole minor units]
    most: float  # [whole minor units]


def best_lots(lots: LotTable, limits: JointLimits) -> Found:
    """The subset of lots with the largest expected profit.

    Parameters
    ----------
    lots : LotTable
        In any order; of equal plans the one that is met first in the given order is taken.
    limits : JointLimits
        Cash and hours, confidence and loss of the sum.

    Returns
    -------
    Found
        Exact, with `most` equal to `profit`, up to `EXACT_UP_TO` lots, and beyond wherever the search came to its end.

    Raises
    ------
    ValueError
        If the arrays are not of one length, or a limit on cash or hours is negative.

    Notes
    -----
    Branch and bound, depth first.  A branch with profit P, cash c and hours h left can earn at most
    P + lambda c + mu h + sum max(0, profit_i - lambda cash_i - mu hours_i) over the lots not yet decided, for any
    lambda, mu >= 0; they are those that make this smallest at the root, the dual of the linear relaxation.  Beyond
    `EXACT_UP_TO` lots a greedy choice with swaps comes first, and what was not looked at in time counts by its bound.

    References
    ----------
    Martello and Toth 1990, Knapsack Problems, chapter 2. ISBN 0-471-92420-2

    Examples
    --------
    Three lots of 600, 500 and 500 in cash with 1,000 to spend: the two small ones earn more than the large one.

    >>> lots = LotTable(np.array([350.0, 200.0, 210.0]), np.array([600.0, 500.0, 500.0]), np.ones(3),
    ...                 np.full((3, 4), 900.0))
    >>> best_lots(lots, JointLimits(cash=1000.0, hours=10.0, confidence=0.8))
    Found(chosen=(1, 2), profit=410.0, most=410.0)
    >>> best_lots(lots, JointLimits(cash=1000.0, hours=1.0, confidence=0.8)).chosen
    (0,)
    """
    _check(lots, limits)
    alone = np.array([limits.fits(*one) for one in zip(lots.cash_out, lots.hours, strict=True)], dtype=bool)
    able = np.flatnonzero(alone)
    dual = multipliers(lots.profit[able], lots.cash_out[able], lots.hours[able], (limits.cash, limits.hours))
    order = able[np.argsort(-dual.reduced, kind="stable")]
    search = _Search(lots, limits, order, dual)
    if len(order) > EXACT_UP_TO:
        search.greedy()
    search.look()
    search.swap()
    return Found(tuple(sorted(search.best.chosen)), search.best.profit, max(search.best.profit, search.unseen))


def _check(lots: LotTable, limits: JointLimits) -> None:
    if not len(lots.profit) == len(lots.cash_out) == len(lots.hours) == len(lots.cash):
        raise ValueError("the arrays must be of one length")
    if not (limits.cash >= 0 and limits.hours >= 0):
        raise ValueError("limits on cash and hours must be at least 0")


@dataclass(frozen=True)
class _Part:
    """Some lots taken together."""

    chosen: tuple[int, ...]
    profit: float
    cash_out: float
    hours: float
    cash: FloatArray  # (n_draws,)


class _Search:
    def __init__(self, lots: LotTable, limits: JointLimits, order: IntArray, dual: Multipliers) -> None:
        self._lots, self._limits, self._order, self._dual = lots, limits, order, dual
        rising = np.sort(np.maximum(dual.reduced, 0.0))
        self._still = np.concatenate([np.cumsum(rising)[::-1], [0.0]])  # what lots from each place on may add
        self._looks = math.inf if len(order) <= EXACT_UP_TO else _MOST_LOOKS
        self.best = self.nothing()
        self.unseen = -math.inf  # most that a branch nobody looked into may earn

    def nothing(self) -> _Part:
        return _Part((), 0.0, 0.0, 0.0, np.zeros(self._lots.cash.shape[1]))

    def look(self) -> None:
        """Every plan, but for branches that cannot earn more than the best one so far."""
        waiting = [(0, self.nothing())]  # a lot taken, then the same lot left
        while waiting:
            place, part = waiting.pop()
            most = self._most(place, part)
            if most <= self.best.profit or place == len(self._order):
                continue
            if self._looks <= 0:
                self.unseen = max(self.unseen, most)
                continue
            self._looks -= 1
            waiting.append((place + 1, part))
            more = self._with(part, int(self._order[place]))
            if more is not None:
                self._keep(more)
                waiting.append((place + 1, more))

    def greedy(self) -> None:
        """Take what earns most for what it takes, then swap."""
        for lot in self._order.tolist():
            more = self._with(self.best, lot)
            if more is not None:
                self._keep(more)
        self.swap()

    def swap(self) -> None:
        """Add a lot, or take another in the place of one, while that earns more."""
        while self._swapped():
            pass

    def _swapped(self) -> bool:
        """Whether a plan with one lot more, or another in the place of one, is better; it is kept."""
        held, profit = self.best, self._lots.profit[self._order]
        for out in (None, *held.chosen):  # first what fits beside all of them
            rest, lost = (held, 0.0) if out is None else (self._without(held, out), float(self._lots.profit[out]))
            for lot in self._order[profit > lost].tolist():
                more = None if lot in held.chosen else self._with(rest, lot)
                if more is not None and self._keep(more):
                    return True
        return False

    def _keep(self, part: _Part) -> bool:
        better = part.profit > self.best.profit and self._limits.holds(part.cash, part.cash_out)
        if better:
            self.best = part
        return better

    def _most(self, place: int, part: _Part) -> float:
        """Whole minor units: every profit is."""
        cash = self._limits.cash + _CASH_FORGIVEN - part.cash_out
        hours = self._limits.hours + _HOURS_FORGIVEN - part.hours
        by_limits = part.profit + self._dual.of_cash * cash + self._dual.of_hours * hours + float(self._still[place])
        return float(math.floor(by_limits + 1e-3))

    def _with(self, part: _Part, lot: int) -> _Part | None:
        """None where cash or hours do not suffice."""
        lots = self._lots
        cash_out, hours = part.cash_out + float(lots.cash_out[lot]), part.hours + float(lots.hours[lot])
        if not self._limits.fits(cash_out, hours):
            return None
        profit = part.profit + float(lots.profit[lot])
        return _Part((*part.chosen, lot), profit, cash_out, hours, part.cash + lots.cash[lot])

    def _without(self, part: _Part, lot: int) -> _Part:
        lots, kept = self._lots, tuple(one for one in part.chosen if one != lot)
        left = part.profit - float(lots.profit[lot]), part.cash_out - float(lots.cash_out[lot])
        return _Part(kept, *left, float(lots.hours[list(kept)].sum()), part.cash - lots.cash[lot])
