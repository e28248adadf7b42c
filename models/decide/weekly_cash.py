"""When does the cash of a lot come in?  Sales spread evenly over their days, added up by week in every draw.

Cash is not discounted here.  Between its first and its last sale a line's cash grows in a straight line, so each line
and draw leaves only what it adds, and by how much it grows from then on, in the week it begins and in the week it ends.
In whole grains, as everywhere where lines are added: the sums do not depend on the order of the lines.
"""

from dataclasses import dataclass

import numpy as np

from models.decide.components import Components
from models.decide.costs import SellingCosts
from models.decide.grains import COUNT, MONEY, LineGrains
from models.decide.slice_draws import SliceDraws
from models.values.arrays import FloatArray, IntArray

WEEK_DAYS = 7.0
_BLOCK = 8  # lines
_SHORTEST = 0.05  # weeks that sales are spread over at least


@dataclass(frozen=True)
class WeeklySums:
    """What is added and how much more a week it grows from then on, arrays of shape (n_weeks + 1, n_draws).

    Money in grains, after the rivals' shade; week w ends 7 w days after payment.
    """

    shade: float  # factor on every unit price
    step: FloatArray
    growth: FloatArray

    @staticmethod
    def none(n_weeks: int, n_draws: int, shade: float) -> "WeeklySums":
        """Before any line."""
        return WeeklySums(shade, np.zeros((n_weeks + 1, n_draws)), np.zeros((n_weeks + 1, n_draws)))

    def add(self, lines: LineGrains, row: IntArray, draws: SliceDraws, costs: SellingCosts) -> None:
        """Add lines as they are sold; `row` of shape (n_lines,) as they are sold."""
        price = (self.shade * costs.net_share * costs.price_factor)[row][:, None]
        order = (costs.order_costs * (MONEY / COUNT))[row][:, None]
        for at in range(0, len(row), _BLOCK):  # so that a block's arrays stay in the processor's cache
            some = slice(at, at + _BLOCK)
            cash = np.rint(lines.gross[some] * price[some] - lines.parcels[some] * order[some])
            self._put(cash, draws.day[some], draws.days[some])

    def _put(self, cash: FloatArray, day: FloatArray, days: FloatArray) -> None:
        """Spread whole grains of cash over `days` around `day`; exactly all of it has come at the end."""
        n_weeks, n_draws = len(self.step) - 1, self.step.shape[1]
        end = (day + days / 2) / WEEK_DAYS
        last = np.clip(np.ceil(end), 0, n_weeks).astype(np.int64)
        cells = last * n_draws + np.arange(n_draws)
        long = np.flatnonzero((days > 0) & (cash != 0))
        whole, weeks = cash.ravel()[long], np.maximum(days.ravel()[long] / WEEK_DAYS, _SHORTEST)
        until, after = last.ravel()[long], cells.ravel()[long]
        begin = end.ravel()[long] - weeks
        first = np.clip(np.ceil(begin), 0, until)
        pace = np.rint(whole / weeks)
        begun = np.rint(pace * (first - begin))
        cash.ravel()[long] = whole - begun - pace * (until - first)
        before = after - ((until - first) * n_draws).astype(np.int64)
        step, growth = self.step.ravel(), self.growth.ravel()
        np.add.at(step, cells.ravel(), cash.ravel())
        np.add.at(step, before, begun)
        np.add.at(growth, before, pace)
        np.subtract.at(growth, after, pace)


@dataclass(frozen=True)
class WeeklyCash:
    """Cash received by the end of each week."""

    shade: float  # factor on every unit price that it was drawn under
    cash: FloatArray  # (n_weeks + 1, n_draws) [whole minor units]


def weekly_cash(sums: WeeklySums, components: Components, costs: SellingCosts, leftover_discount: float) -> WeeklyCash:
    """Cash of the whole lot week by week, not discounted; what is left over brings its money in the last week.

    Parameters
    ----------
    sums : WeeklySums
        Of all lines.
    components : Components
        Of all lines: its leftover units.
    costs : SellingCosts
        Of the components' rows.
    leftover_discount : float
        What the components' leftover money was discounted by; above 0.

    Returns
    -------
    WeeklyCash
        The last week holds all cash of the lot.

    Examples
    --------
    >>> from models.decide.costs import Rows, selling_costs
    >>> from models.values.settings import Settings
    >>> nothing, one = np.zeros(1), np.zeros((1, 1))
    >>> rows = Rows.of([("", 0, False)])
    >>> left = Components(rows.cost_key, rows.fate, rows.packed, nothing, nothing, nothing, one, one, one + 1900.0,
    ...                   one + 1.9, *(nothing,) * 5)
    >>> costs = selling_costs(Settings(), rows)
    >>> weekly_cash(WeeklySums.none(2, 1, shade=1.0), left, costs, 0.95).cash.ravel().tolist()
    [0.0, 0.0, 145.0]
    """
    held = np.cumsum(sums.step, axis=0)
    held[1:] += np.cumsum(np.cumsum(sums.growth, axis=0), axis=0)[:-1]
    held /= MONEY
    share = components.leftover_share(costs) / leftover_discount
    held[-1] += (sums.shade * costs.net_share * share) @ components.leftover_worth
    held[-1] -= (costs.order_costs * share) @ components.leftover_units
    return WeeklyCash(sums.shade, np.rint(held))
