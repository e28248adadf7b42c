"""Laws of looked-up prices on small histories drawn at random: scale, order, direction, never wider."""

from functools import cache

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from test_prices_laws import history, manifest, priced

from models.estimate.looked_up import with_looked_up
from models.estimate.price_draws import line_price_draws, shared_draws

some = settings(max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow])
seeds = st.integers(0, 5)
ratios = st.floats(0.2, 5.0)
looked_up = st.dictionaries(st.integers(1, 12), st.lists(ratios, min_size=1, max_size=3), min_size=1, max_size=5)


@cache
def lot_of(seed, money=1.0):
    lines = manifest(seed, money)
    lines.no[:] = np.arange(1, 13)
    return lines, priced(history(seed, money=money), lines)


def amounts(lot, ratio):
    return {line: tuple(lot.unit_price.p50[line - 1] * one for one in some) for line, some in ratio.items()}


@some
@given(seed=seeds, ratio=looked_up)
def test_no_line_and_no_lot_becomes_less_sure(seed, ratio):
    _, lot = lot_of(seed)
    taught = with_looked_up(lot, lot, amounts(lot, ratio))
    assert (taught.log_var <= lot.log_var + 1e-9).all()
    assert (taught.log_var >= 0).all()
    weight = taught.total.weight
    assert np.sum(taught.taught.along(weight) ** 2) >= 0


@some
@given(seed=seeds, line=st.integers(1, 12), ratio=ratios)
def test_one_price_moves_its_line_towards_itself_and_not_past(seed, line, ratio):
    _, lot = lot_of(seed)
    price = lot.unit_price.p50[line - 1] * ratio
    moved = float(with_looked_up(lot, lot, {line: (price,)}).unit_price.p50[line - 1])
    at = np.log(moved / lot.unit_price.p50[line - 1])
    assert 0 <= at * np.sign(np.log(ratio)) <= abs(np.log(ratio)) + 1e-9


@some
@given(seed=seeds, ratio=looked_up, dearer=st.floats(1.0, 3.0))
def test_dearer_looked_up_prices_never_lower_their_own_line(seed, ratio, dearer):
    _, lot = lot_of(seed)
    seen = amounts(lot, ratio)
    line = min(seen)
    raised = seen | {line: tuple(price * dearer for price in seen[line])}
    low, high = (with_looked_up(lot, lot, prices).unit_price.p50[line - 1] for prices in (seen, raised))
    assert high >= low * (1 - 1e-9)


@some
@given(seed=seeds, ratio=looked_up)
def test_doubling_all_money_doubles_the_total(seed, ratio):
    _, one = lot_of(seed)
    _, two = lot_of(seed, 2.0)
    single = with_looked_up(one, one, amounts(one, ratio))
    double = with_looked_up(two, two, {line: [2 * price for price in of] for line, of in amounts(one, ratio).items()})
    assert float(double.resale.mean) == pytest.approx(2 * float(single.resale.mean), rel=2e-3)


@some
@given(seed=seeds, ratio=looked_up, order=st.permutations(range(12)))
def test_the_order_of_lines_and_prices_changes_nothing(seed, ratio, order):
    lines, lot = lot_of(seed)
    mixed = priced(history(seed), lines.take(np.array(order)))
    seen = amounts(lot, ratio)
    backwards = {line: seen[line][::-1] for line in reversed(list(seen))}
    one, other = with_looked_up(lot, lot, seen), with_looked_up(mixed, mixed, backwards)
    assert one.unit_price.p10[np.array(order)] == pytest.approx(other.unit_price.p10, rel=1e-4)
    assert float(one.resale.p10) == pytest.approx(float(other.resale.p10), rel=1e-4)


@some
@given(seed=seeds, ratio=looked_up, cut=st.integers(1, 11))
def test_slicing_the_draws_changes_nothing(seed, ratio, cut):
    _, lot = lot_of(seed)
    taught = with_looked_up(lot, lot, amounts(lot, ratio))
    shared = shared_draws(taught, 1)
    whole = line_price_draws(taught, shared, np.arange(12), 1)
    parts = [line_price_draws(taught, shared, part, 1) for part in (np.arange(cut), np.arange(cut, 12))]
    assert np.array_equal(np.concatenate(parts), whole)
    assert whole.mean(axis=1) == pytest.approx(taught.unit_price.mean, rel=0.06)
