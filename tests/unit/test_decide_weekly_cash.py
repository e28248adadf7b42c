"""Weekly cash against a plain loop over lines and draws; payback against each draw's own first week."""

import numpy as np
import pytest
from slice_world import KEYS, SETTINGS, costs_of, many_lines, one_line, reading

from models.decide.cash_curve import cash_curve, payback, weekly_table
from models.decide.components import Components
from models.decide.costs import SellingCosts
from models.decide.proceeds import Reading, SliceDraws, SliceValue, value_slice
from models.decide.quantiles import lowest_at
from models.decide.weekly_cash import WeeklyCash, WeeklySums, weekly_cash

WEEKS = 27


def drawn(draws: SliceDraws, held: Reading, parts: list[np.ndarray], shade: float = 1.0) -> WeeklyCash:
    sums = WeeklySums.none(WEEKS, draws.price.shape[1], shade)
    total: Components | None = None
    for part in parts:
        value, some = value_slice(draws.take(part), held), draws.take(part)
        sums.add(value.grains, value.row, some, held.costs)
        total = value.components if total is None else total + value.components
    assert total is not None
    return weekly_cash(sums, total, costs_of(total), held.leftover_discount)


def by_hand(draws: SliceDraws, value: SliceValue, costs: SellingCosts, shade: float) -> np.ndarray:
    """Every line's cash grows evenly from the first of its days to the last; unsold units bring theirs at the end."""
    cash = np.zeros((WEEKS + 1, draws.price.shape[1]))
    row, sold, parcels = value.row, value.grains.sold / 2**24, value.grains.parcels / 2**24
    for at in range(len(row)):
        net, order = costs.net_share[row[at]], costs.order_costs[row[at]]
        brings = shade * draws.price[at] * sold[at] * net * costs.price_factor[row[at]] - order * parcels[at]
        left = draws.saleable[at] - sold[at]
        for week in range(WEEKS + 1):
            gone = 7 * week - (draws.day[at] - draws.days[at] / 2)
            share = np.clip(gone / np.maximum(draws.days[at], 1e-9), 0, 1)
            cash[week] += brings * np.where(draws.days[at] == 0, gone >= 0, share)
        if (left * (draws.price[at] * net - order)).mean() > 0:  # else nobody would sell it at a loss
            cash[WEEKS] += costs.leftover_share[row[at]] * left * (shade * draws.price[at] * net - order)
    return cash


def test_every_week_is_the_sum_of_the_lines() -> None:
    draws, held = many_lines(60), reading(keys=KEYS)
    got = drawn(draws, held, [np.arange(60)], 0.9).cash
    expected = by_hand(draws, value_slice(draws, held), held.costs, 0.9)
    assert (np.abs(got - expected) <= 1.0 + 0.02 * np.abs(expected).max()).all()  # a spell under .35 days is one day
    assert np.abs(got - expected).mean() < 0.001 * np.abs(expected).max()
    assert np.abs(got[WEEKS] - expected[WEEKS]).max() <= 1


def test_the_last_week_holds_all_cash_undiscounted() -> None:
    draws, held = many_lines(60), reading(keys=KEYS)
    weekly = drawn(draws, held, [np.arange(60)])
    value = value_slice(draws, held)
    sold = value.grains.gross.sum(axis=0)
    assert (sold > 0).all()
    undiscounted = by_hand(draws, value, held.costs, 1.0)[WEEKS]
    assert weekly.cash[WEEKS] == pytest.approx(undiscounted, abs=1)
    assert (weekly.cash[WEEKS] > value.components.cash(costs_of(value.components))).all()  # money later is worth less


def test_any_slicing_gives_the_same_bits() -> None:
    draws, held = many_lines(60), reading(keys=KEYS)
    whole = drawn(draws, held, [np.arange(60)])
    turned = np.random.Generator(np.random.Philox(5)).permutation(60)
    cut = drawn(draws, held, np.split(turned, [5, 6, 31]))
    assert (whole.cash == cut.cash).all()


def test_a_line_over_three_weeks() -> None:
    """3 units from day 30 to 50: 5/20 are sold on day 35, 12/20 on day 42, 19/20 on day 49; 2 are left over."""
    weekly = drawn(one_line(4000.0, 5.0, 3.0), reading(), [np.arange(1)])
    costs = reading(SETTINGS).costs
    each = 4000 * costs.net_share[0] - costs.order_costs[0]
    cash = weekly.cash[:, 0].tolist()
    assert cash[4:9] == pytest.approx([3 * each * part / 20 for part in (0, 5, 12, 19, 20)], abs=1)
    assert cash[WEEKS - 1 :] == pytest.approx([3 * each, 3 * each + 2 * 0.1 * each], abs=1)


@pytest.mark.parametrize("cash_out", [0.0, 20000.0, 60000.0, 90000.0, 1e9])
def test_payback_is_the_first_week_of_each_draw(cash_out: float) -> None:
    weekly = drawn(many_lines(60), reading(keys=KEYS), [np.arange(60)], 0.9)
    table, cash = weekly_table(weekly), weekly.cash
    first = np.where((cash >= cash_out).any(axis=0), (cash >= cash_out).argmax(axis=0), WEEKS + 1).astype(float)
    told = payback(table, cash_out)
    for chance, weeks in ((0.1, told.p10), (0.5, told.p50), (0.9, told.p90)):
        expected = lowest_at(first, chance)
        assert weeks == (None if expected > WEEKS else expected)


def test_the_curve_begins_with_what_is_paid_and_ends_with_all_cash() -> None:
    weekly = drawn(many_lines(60), reading(keys=KEYS), [np.arange(60)])
    curve = cash_curve(weekly_table(weekly), 50000.0)
    assert [point.week for point in curve] == list(range(WEEKS + 1))
    assert (curve[0].p10, curve[0].p90) == (-50000.0, -50000.0)
    assert curve[-1].p50 == lowest_at(weekly.cash[WEEKS], 0.5) - 50000.0
    assert all(point.p10 <= point.p50 <= point.p90 for point in curve)
