"""Draws against the closed form they must agree with, and what lines and lots share."""

import numpy as np
import pytest
from price_shop import both, fit, priced
from price_world import Shape, World, make_lines

from models.estimate.lot_totals import noise_cv2
from models.estimate.price_draws import line_price_draws, shared_draws
from models.estimate.research_first import research_first
from models.values.streams import DRAWS

SHAPE = Shape(n_sales=600, n_products=600)


@pytest.fixture(name="shop", scope="module")
def _shop():
    return fit(World(SHAPE).history())


@pytest.fixture(name="lot", scope="module")
def _lot(shop):
    return priced(shop, World(SHAPE).lot(60)[0])


def drawn(lot, seed=1, index=None):
    index = np.arange(len(lot)) if index is None else index
    return line_price_draws(lot, shared_draws(lot, seed), index, seed)


def test_line_means_and_quantiles_agree(lot):
    found = drawn(lot)
    assert found.shape == (60, DRAWS)
    assert found.mean(axis=1) == pytest.approx(lot.unit_price.mean, rel=0.03)
    single = lot.quantity == 1
    assert np.quantile(found[single], 0.1, axis=1) == pytest.approx(lot.unit_price.p10[single], rel=0.03)


def test_the_lots_total_agrees_with_its_closed_form(lot):
    total = lot.quantity @ drawn(lot)
    at = np.linspace(0.05, 0.95, 19)
    from scipy.special import ndtri

    stated = np.log(lot.total.mean) - lot.total.log_var / 2 + lot.log_sd * ndtri(at)
    assert np.sqrt(np.mean((np.log(np.quantile(total, at)) - stated) ** 2)) <= 0.02


def test_parts_of_the_spread_add_up(lot):
    assert sum(share for _, share in lot.spread) == pytest.approx(1.0, abs=1e-4)
    assert lot.judgement_sd < lot.log_sd
    assert lot.total.weight.sum() == pytest.approx(1.0)


def test_slicing_changes_nothing(lot):
    shared = shared_draws(lot, 1)
    whole = line_price_draws(lot, shared, np.arange(60), 1)
    parts = [line_price_draws(lot, shared, part, 1) for part in (np.arange(7), np.arange(7, 40), np.arange(40, 60))]
    assert np.array_equal(np.concatenate(parts), whole)


def test_the_order_of_lines_changes_nothing(shop):
    lines = World(SHAPE).lot(60)[0]
    order = np.random.Generator(np.random.Philox(5)).permutation(60)
    one, other = priced(shop, lines), priced(shop, lines.take(order))
    assert one.unit_price.mean[order] == pytest.approx(other.unit_price.mean, rel=1e-6)
    assert float(one.resale.p10) == pytest.approx(float(other.resale.p10), rel=1e-6)
    assert drawn(one)[order] == pytest.approx(drawn(other), rel=1e-4)


def test_more_lines_than_effects_are_drawn_the_other_way_with_the_same_result(shop):
    lines = World(SHAPE).lot(40)[0]
    small = priced(shop, lines)
    touched = len(np.unique(small.rows.column))
    many = priced(shop, both(lines, lines.take(np.zeros(touched * 2, dtype=np.int64))))
    assert len(many) > len(np.unique(many.rows.column))
    first = shared_draws(small, 1)
    second = shared_draws(many, 1)
    one = first.directions.times_matrix(first.effects)
    other = second.directions.take(np.arange(40)).times_matrix(second.effects)
    assert one == pytest.approx(other, abs=1e-4)


def test_lines_of_one_unseen_brand_err_together(shop):
    lines = make_lines(
        description=["alpha object", "omega device", "third piece"], brand=["neverone", "neverone", "nevertwo"],
        category=["top1 > sub1"] * 3, condition=[2, 2, 2],
    )  # fmt: skip
    same, other = np.corrcoef(np.log(drawn(priced(shop, lines))))[0, 1:]
    assert same > other + 0.05


def test_two_lots_share_the_draws_of_what_they_share_but_not_their_shock(shop):
    one = priced(shop, make_lines(description=["alpha object"], brand=["never"], category=["top1 > sub1"]))
    other = priced(shop, make_lines(description=["omega device"], brand=["never"], category=["top1 > sub1"]))
    correlated = np.corrcoef(np.log(drawn(one)[0]), np.log(drawn(other)[0]))[0, 1]
    assert 0.05 < correlated < 0.9


def test_identical_lines_have_noise_of_their_own(shop):
    line = make_lines(description=["alpha object"], brand=["never"], category=["top1 > sub1"])
    first, second = drawn(priced(shop, both(line, line)))
    assert not np.array_equal(first, second)
    assert np.corrcoef(np.log(first), np.log(second))[0, 1] > 0.5


def test_many_units_of_one_thing_average_their_noise_only():
    assert noise_cv2(np.array([0.04]), np.array([4]))[0] == pytest.approx(np.expm1(0.04) / 4)


def test_another_seed_gives_other_draws(lot):
    assert not np.array_equal(drawn(lot, 1, np.array([0])), drawn(lot, 2, np.array([0])))


def test_what_to_look_up_first_is_what_the_lot_hangs_on(shop):
    world = World(SHAPE)
    rest, _, _ = world.lot(40, 1.0)
    dear = make_lines(
        description=["unheard of object"], brand=["neverbrand"], category=["top1 > sub1"], tag_each=np.array([60000.0]),
        quantity=np.array([20]), no=np.array([41]),
    )  # fmt: skip
    lot = priced(shop, both(rest, dear))
    found = research_first(lot)
    assert found[0].line == 41
    assert found[0].spread_removed == max(one.spread_removed for one in found)
    assert all(0 < one.spread_removed < 1 for one in found)


def test_an_item_is_named_once_for_research(shop):
    line = make_lines(description=["alpha object"], brand=["never"], category=["top1 > sub1"])
    assert len(research_first(priced(shop, both(line, line)))) == 1
