"""Looked-up prices: one update against the same update written out in full, draws against the closed form."""

from dataclasses import replace

import numpy as np
import pytest
from price_shop import both, fit, priced
from price_world import Shape, World, make_lines
from scipy.special import ndtri

from models.estimate.looked_up import with_looked_up
from models.estimate.looked_up_surprise import GAP_SD, SHARED_GAP_SD
from models.estimate.price_draws import line_price_draws, shared_draws
from models.estimate.research_first import research_first, spread_removed

SHAPE = Shape(n_sales=600, n_products=600)
NEW = {"category": ["top1 > sub1"] * 3, "condition": [2, 2, 2], "tag_each": np.full(3, 6000.0)}


@pytest.fixture(name="shop", scope="module")
def _shop():
    return fit(World(SHAPE).history())


@pytest.fixture(name="lines", scope="module")
def _lines():
    """Sixty lines of the world, two of one brand never sold, one of another; numbered in order."""
    names = {"description": ["alpha object", "omega device", "third piece"], "brand": ["never", "never", "other"]}
    lines = both(World(SHAPE).lot(60)[0], make_lines(**names, **NEW, quantity=[4, 3, 2]))
    return replace(lines, no=np.arange(1, 64))


@pytest.fixture(name="now", scope="module")
def _now(shop, lines):
    return priced(shop, lines, 20.0)


@pytest.fixture(name="lot", scope="module")
def _lot(shop, lines):
    return priced(shop, lines, 60.0)


@pytest.fixture(name="seen", scope="module")
def _seen(lot):
    """Lines looked up: one of the new brand, well above, and two others."""
    price = lot.unit_price.p50
    return {61: (price[60] * 2.0,) * 3, 5: (price[4] * 0.8, price[4] * 0.9), 17: (price[16] * 1.3,)}


def drawn(lot, index=None):
    index = np.arange(len(lot)) if index is None else index
    return line_price_draws(lot, shared_draws(lot, 1), index, 1)


def in_full(lot, now, seen):
    """Mean shift and covariance of all lines' levels by the joint normal of everything, nothing left out."""
    p, cells = lot.posterior.layout.width, lot.cells
    n = len(lot)

    def dense(rows, width):
        found = np.zeros((len(rows), width))
        found[rows.row, rows.column] = rows.value
        return found

    sigma = lot.posterior.columns.astype(np.float64) @ lot.posterior.columns.T.astype(np.float64)
    drift = np.flatnonzero(np.char.startswith(cells.kind.astype(str), "drift"))
    whole, of_now = dense(lot.cells.loading, len(cells.var)), dense(now.cells.loading, len(cells.var))
    line = {"theta": dense(lot.rows, p), "cells": whole, "left": np.sqrt(1e-300)}
    at = np.array(sorted(seen)) - 1
    shown = of_now[at].copy()
    shown[:, cells.kind == "lot"] = 0
    moved = whole[np.ix_(at, drift)]
    shown[:, drift] = np.divide(shown[:, drift] ** 2, moved, where=moved > 0, out=np.zeros_like(moved))
    own = now.noise_var[at] / [len(seen[number]) for number in sorted(seen)] + GAP_SD**2
    own += (of_now[np.ix_(at, drift)] ** 2 - shown[:, drift] ** 2) @ cells.var[drift]
    rows = dense(now.rows, p)[at]
    covariance = rows @ sigma @ rows.T + shown * cells.var @ shown.T + SHARED_GAP_SD**2 + np.diag(own)
    cross = line["theta"] @ sigma @ rows.T + line["cells"] * cells.var @ shown.T
    before = line["theta"] @ sigma @ line["theta"].T + line["cells"] * cells.var @ line["cells"].T
    surprise = [np.log(seen[number]).mean() - now.mu[number - 1] for number in sorted(seen)]
    gain = cross @ np.linalg.inv(covariance)
    assert before.shape == (n, n)
    return gain @ surprise, before - gain @ cross.T


def test_one_update_is_the_joint_normal_written_out(lot, now, seen):
    taught = with_looked_up(lot, now, seen)
    shift, covariance = in_full(lot, now, seen)
    assert taught.mu - lot.mu == pytest.approx(shift, abs=1e-4)
    assert taught.log_var == pytest.approx(np.diag(covariance), abs=1e-4)
    weight, noise = taught.total.weight, taught.total.noise
    assert taught.total.log_var == pytest.approx(weight @ covariance @ weight + noise, rel=1e-4)


def test_nothing_looked_up_changes_nothing_to_the_last_bit(lot, now):
    assert with_looked_up(lot, now, {}) is lot
    assert with_looked_up(lot, now, {3: ()}) is lot
    assert lot.taught is None


def test_a_price_far_above_moves_its_line_up_and_its_brand_a_little(lot, now, seen):
    taught = with_looked_up(lot, now, {61: seen[61]})
    ratio = taught.unit_price.p50 / lot.unit_price.p50
    assert 1.4 < ratio[60] < 2.0
    assert 1.03 < ratio[61] < ratio[60]
    assert ratio[61] > ratio[62] > 0.99  # another brand of the kind learns less
    assert np.abs(np.log(ratio[:60])).max() < 0.25


def test_the_spread_of_line_brand_and_lot_shrinks(lot, now, seen):
    taught = with_looked_up(lot, now, {61: seen[61]})
    assert taught.log_var[60] < 0.6 * lot.log_var[60]
    assert taught.log_var[61] < 0.97 * lot.log_var[61]
    assert taught.log_sd < lot.log_sd
    assert taught.judgement_sd < lot.judgement_sd
    assert (taught.log_var <= lot.log_var + 1e-9).all()


def test_many_consistent_prices_hold_the_line_near_them(lot, now):
    price = 2.0 * lot.unit_price.p50[60]
    steady = replace(lot, noise_var=lot.noise_var * 0 + 0.01), replace(now, noise_var=now.noise_var * 0 + 0.01)
    found = with_looked_up(*steady, {61: (price,) * 40})
    assert found.unit_price.mean[60] == pytest.approx(price, rel=0.15)
    assert with_looked_up(lot, now, {61: (price,) * 40}).unit_price.p50[60] == pytest.approx(price, rel=0.15)


def test_more_prices_of_a_line_say_more_but_never_all(lot, now, seen):
    var = [with_looked_up(lot, now, {61: (seen[61][0],) * m}).log_var[60] for m in (1, 2, 5, 100)]
    assert var == sorted(var, reverse=True)
    assert var[-1] > GAP_SD**2


def test_many_lines_looked_up_cannot_settle_the_level_of_all(lot, now):
    """The seller's eye for dear sales is one error on all of them."""
    price = lot.unit_price.p50
    taught = with_looked_up(lot, now, {number: (price[number - 1] * 1.2,) * 3 for number in range(1, 61)})
    assert taught.resale.mean < 1.2 * lot.resale.mean
    assert taught.judgement_sd > 0.5 * SHARED_GAP_SD


def test_the_lots_own_shock_and_the_market_ahead_are_not_settled(shop, lines, seen):
    lot = priced(shop, lines, 200.0)
    taught = with_looked_up(lot, priced(shop, lines, 0.0), seen)
    for name in ("this lot against its description", "the market until it sells"):
        before, after = dict(lot.spread)[name] * lot.total.log_var, dict(taught.spread)[name] * taught.total.log_var
        assert after == pytest.approx(before, rel=0.2)  # the weights of the lines moved, nothing else


def test_an_old_history_learns_the_market_until_now(shop, lines):
    old = priced(shop, lines, 360.0)
    seen = {number: (old.unit_price.p50[number - 1],) * 3 for number in range(1, 30)}
    known = with_looked_up(priced(shop, lines, 390.0), old, seen)
    before = priced(shop, lines, 390.0)
    name = "the market until it sells"
    assert dict(known.spread)[name] * known.total.log_var < 0.8 * dict(before.spread)[name] * before.total.log_var


def test_draws_agree_with_the_closed_form(lot, now, seen):
    taught = with_looked_up(lot, now, seen)
    found = drawn(taught)
    assert found.mean(axis=1) == pytest.approx(taught.unit_price.mean, rel=0.03)
    single = taught.quantity == 1
    assert np.quantile(found[single], 0.1, axis=1) == pytest.approx(taught.unit_price.p10[single], rel=0.03)
    at = np.linspace(0.05, 0.95, 19)
    stated = np.log(taught.total.mean) - taught.total.log_var / 2 + taught.log_sd * ndtri(at)
    gap = np.log(np.quantile(taught.quantity @ found, at)) - stated
    assert np.sqrt(np.mean(gap**2)) <= 0.02


def test_draws_hang_together_as_the_update_says(lot, now, seen):
    taught = with_looked_up(lot, now, seen)
    _, covariance = in_full(lot, now, seen)
    few = np.array([4, 16, 60, 61, 62])
    log = np.log(drawn(taught, few))
    off = ~np.eye(len(few), dtype=bool)
    assert np.cov(log)[off] == pytest.approx(covariance[np.ix_(few, few)][off], abs=0.012)


def test_a_line_that_learns_little_is_drawn_almost_as_before(lot, now, seen):
    """The streams keep their keys: what is not looked up is not drawn anew."""
    taught = with_looked_up(lot, now, {61: seen[61]})
    least = np.argsort(taught.taught.removed() / lot.log_var)[:5]
    before, after = np.log(drawn(lot, least)), np.log(drawn(taught, least))
    assert all(np.corrcoef(one, other)[0, 1] > 0.97 for one, other in zip(before, after, strict=True))


def test_slicing_changes_nothing(lot, now, seen):
    taught = with_looked_up(lot, now, seen)
    shared = shared_draws(taught, 1)
    whole = line_price_draws(taught, shared, np.arange(63), 1)
    parts = [line_price_draws(taught, shared, part, 1) for part in (np.arange(7), np.arange(7, 40), np.arange(40, 63))]
    assert np.array_equal(np.concatenate(parts), whole)


def test_the_order_of_lines_changes_nothing(shop, lines, seen):
    order = np.random.Generator(np.random.Philox(5)).permutation(63)
    one, other = (
        with_looked_up(priced(shop, some, 60.0), priced(shop, some, 20.0), seen) for some in (lines, lines.take(order))
    )
    assert one.unit_price.mean[order] == pytest.approx(other.unit_price.mean, rel=1e-5)
    assert float(one.resale.p10) == pytest.approx(float(other.resale.p10), rel=1e-5)
    assert drawn(one)[order] == pytest.approx(drawn(other), rel=1e-3)


def test_what_is_promised_for_looking_up_is_what_it_removes(shop, lines):
    now = priced(shop, lines, 0.0)
    promised = spread_removed(now)
    for number in (61, 63, 5):
        price = float(np.exp(now.mu[number - 1]))
        after = with_looked_up(now, now, {number: (price,)})
        weight = now.total.weight  # weights move a little with the spread: compare at the old ones
        before = now.total.log_var
        removed = float(np.sum(after.taught.along(weight) ** 2)) / before
        assert removed == pytest.approx(promised[number - 1], rel=1e-3)


def test_what_is_promised_for_a_second_price_is_what_it_removes(shop, lines):
    lot = priced(shop, lines, 0.0)
    first = {61: (float(np.exp(lot.mu[60])),)}
    once = with_looked_up(lot, lot, first)
    weight = once.total.weight
    for number in (62, 5, 61):
        more = first | {number: (*first.get(number, ()), float(np.exp(once.mu[number - 1])))}
        twice = with_looked_up(lot, lot, more)
        removed = np.sum(twice.taught.along(weight) ** 2) - np.sum(once.taught.along(weight) ** 2)
        assert removed / once.total.log_var == pytest.approx(spread_removed(once)[number - 1], rel=1e-3)


def test_a_line_looked_up_is_asked_for_less(lot, now, seen):
    before = {one.line: one.spread_removed for one in research_first(lot, 63)}
    after = research_first(with_looked_up(lot, now, seen), 63)
    again = {one.line: one for one in after}
    assert 61 in before
    assert 61 not in again or again[61].spread_removed < 0.5 * before[61]
    assert all("one more price" in one.why for one in after if one.line in seen)


def test_parts_of_the_spread_still_add_up(lot, now, seen):
    taught = with_looked_up(lot, now, seen)
    assert sum(share for _, share in taught.spread) == pytest.approx(1.0, abs=1e-4)
    assert all(share > 0 for _, share in taught.spread)


def test_a_line_worth_nothing_takes_what_was_looked_up():
    from models.values.sales import Sales

    shop = fit(Sales.blank(0), "EUR")
    lines = make_lines(description=["a", "a", "b"], tag_each=np.full(3, np.nan), no=np.array([1, 2, 3]))
    lot = priced(shop, lines)
    assert lot.unit_price.mean.tolist() == [0.0, 0.0, 0.0]
    taught = with_looked_up(lot, lot, {1: (900.0, 1100.0)})
    assert taught.unit_price.p50[:2] == pytest.approx([995.0, 995.0], rel=0.01)
    assert taught.unit_price.mean[2] == 0.0
    assert taught.log_var[0] < lot.log_var[0]
    assert np.isfinite(drawn(taught)).all()


def test_declared_prices_learn_too():
    from models.values.sales import Sales

    lines = make_lines(description=["a", "b"], tag_each=np.array([10000.0, 10000.0]), condition=[2, 2], no=[1, 2])
    lot = priced(fit(Sales.blank(0)), lines)
    taught = with_looked_up(lot, lot, {1: (6000.0,) * 5})
    assert taught.unit_price.p50[0] > 4500 > taught.unit_price.p50[1] > 3000


def test_what_cannot_be_a_looked_up_price_is_refused(lot, now, seen):
    with pytest.raises(ValueError, match="no line 99"):
        with_looked_up(lot, now, {99: (100.0,)})
    for price in (0.0, -5.0, np.nan, np.inf):
        with pytest.raises(ValueError, match="line 5 is not above zero"):
            with_looked_up(lot, now, {5: (100.0, price)})
    with pytest.raises(ValueError, match="taught already"):
        with_looked_up(with_looked_up(lot, now, seen), now, seen)
    with pytest.raises(ValueError, match="same lines"):
        with_looked_up(lot, priced(fit(World(SHAPE).history()), World(SHAPE).lot(60)[0]), seen)
