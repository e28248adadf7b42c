"""The bench's invented shops are what they claim to be: truth known, brands unseen, tags switchable, oracle honest."""

from dataclasses import replace

import numpy as np
import pytest

from models.bench.scores import holds
from models.bench.worlds.claims import claimed_tags
from models.bench.worlds.lots import oracle_total
from models.bench.worlds.shape import AHEAD, Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.values.streams import stream

SHAPE = Shape(seed=1, n_sales=300)


@pytest.fixture(name="world", scope="module")
def _world():
    return World(SHAPE)


def test_a_history_holds_the_sales_asked_for_and_unsold_listings(world):
    history = world.history()
    assert history.sold.sum() == SHAPE.n_sales
    assert 0.05 < 1 - history.sold.mean() < 0.5
    assert np.all(history.sold_on[history.sold] <= DAY_ZERO + SHAPE.days)
    assert np.all(history.listed_on[history.sold] <= history.sold_on[history.sold])


def test_an_earlier_cutoff_knows_a_part(world):
    early, late = world.history(200), world.history()
    assert set(early.title[early.sold]) < set(late.title)
    assert np.nanmax(early.sold_on[early.sold].astype("int64")) <= (DAY_ZERO + 200).astype("int64")


def test_lines_are_of_the_kinds_they_are_said_to_be(world):
    history = world.history()
    titles, brands = set(history.title[history.sold]), set(history.brand[history.sold])
    for lot in world.lots(10):
        for title, brand, group in zip(lot.lines.description, lot.lines.brand, lot.group, strict=True):
            assert (title in titles) == (group == 0)
            assert (brand in brands) == (group < 2)


def test_shares_of_the_three_kinds(world):
    group = np.concatenate([lot.group for lot in world.lots(60)])
    assert 0.3 < np.mean(group == 0) < 0.5
    assert np.mean(group == 1) == pytest.approx(np.mean(group == 2), abs=0.06)


def test_wrong_tags_change_tags_only(world):
    wrong = World(replace(SHAPE, wrong_tags=0.07))
    clean, other = world.history(), wrong.history()
    assert np.array_equal(clean.sold_price, other.sold_price, equal_nan=True)
    same = np.isclose(clean.tag_each, other.tag_each, equal_nan=True)
    assert 0.02 < 1 - same.mean() < 0.13
    for one, two in zip(world.lots(5), wrong.lots(5), strict=True):
        assert np.array_equal(one.price, two.price)


def test_absurd_tags_are_absurd():
    honest = np.full(4000, np.log(5000.0))
    tag = claimed_tags(stream(1, "test"), honest, 1.0, 0.0)
    assert np.all(np.abs(np.log(np.maximum(tag, 0.1) / 5000)) > np.log(3.5))


def test_lots_can_lose_their_names_and_nothing_else(world):
    unnamed = World(replace(SHAPE, lots_named=False)).history()
    assert set(unnamed.lot) == {""}
    assert np.array_equal(unnamed.sold_price, world.history().sold_price, equal_nan=True)


def test_hand_picked_goods_fetch_more():
    history = World(Shape(seed=2, n_sales=6000)).history()
    price = np.log(history.sold_price)
    gaps = []
    for title in set(history.title[history.sold]):
        rows = history.sold & (history.title == title)
        single, bulk = price[rows & (history.sourced == 0)], price[rows & (history.sourced == 1)]
        if len(single) and len(bulk):
            gaps.append(single.mean() - bulk.mean())
    assert np.mean(gaps) == pytest.approx(0.38, abs=0.06)


def test_the_oracle_knows_all_but_the_future():
    held = []
    for seed in range(40):
        shape = Shape(seed=seed, n_sales=50, lot_sd=0.3)
        lots = World(shape).lots(10)
        told = [oracle_total(lot, shape) for lot in lots]
        actual = np.log([lot.actual for lot in lots])
        held.append(holds(actual, np.array([t.middle for t in told]), np.array([t.sd for t in told]), 0.8).mean())
    assert np.mean(held) == pytest.approx(0.8, abs=0.06)


def test_lots_sell_after_the_cutoff(world):
    lot = world.lots(1)[0]
    assert lot.days_ahead == sum(AHEAD) / 2
    assert len(lot.price) == lot.lines.quantity.sum()
    assert len(lot.first_price) == len(lot.lines)
