"""The bench's worlds of paces are what they claim to be, its baselines are honest, a small run tells every figure."""

from dataclasses import replace
from types import MappingProxyType

import numpy as np
import pytest

from models.bench.baselines.waits import Waits, kaplan_meier, logistic_hazards, sold_only
from models.bench.pace_timing import PaceTiming, run_pace_timing
from models.bench.pace_trial import PaceTrial, run_paces
from models.bench.plan import FULL, QUICK
from models.bench.workloads import time_to_sell
from models.bench.worlds.pace_world import PaceWorld
from models.bench.worlds.paces import PaceShape, Seasons
from models.values.arrays import texts
from models.values.streams import stream

SHAPE = PaceShape(1, 600)


@pytest.fixture(name="world", scope="module")
def _world() -> PaceWorld:
    return PaceWorld(SHAPE)


def waits(days: np.ndarray, sold: np.ndarray) -> Waits:
    n = len(days)
    nothing = np.zeros(n, dtype=int)
    return Waits(texts(["toys"] * n), texts([""] * n), nothing, np.zeros(n), nothing - 1, days, sold)


def test_a_history_holds_every_listing_and_some_have_not_sold(world: PaceWorld) -> None:
    history = world.history()
    assert len(history) == SHAPE.listings
    assert 0.1 < 1 - history.sold.mean() < 0.7
    assert np.all(history.sold_on[history.sold] <= world.until)
    assert np.all(history.listed_on[history.sold] <= history.sold_on[history.sold])


def test_units_of_a_product_sell_first_in_first_out(world: PaceWorld) -> None:
    product = int(np.argmax(np.bincount(world.product)))
    own = world.sold[world.product == product]
    assert len(own) > 5
    assert np.all(np.diff(own[np.isfinite(own)]) > 0)


def test_the_true_chance_is_what_happens() -> None:
    """Over many worlds: lines never listed before, and lines that were, without own stock."""
    told, sold = [], []
    for seed in range(60):
        world = PaceWorld(PaceShape(seed, 60))
        lot = world.lot(1, 60, 1)
        unsold = set(world.product[world.sold > world.shape.days].tolist())
        free = np.array([product not in unsold for product in lot.product.tolist()])
        told.append(world.sold_by(lot, 90.0)[free])
        sold.append(world.units_sold(lot, 90.0, stream(seed, "outcome"))[free])
    told_all, sold_all = np.concatenate(told), np.concatenate(sold)
    error = sold_all.std() / np.sqrt(len(sold_all))
    assert told_all.mean() == pytest.approx(sold_all.mean(), abs=3.5 * error)
    quick = told_all > np.median(told_all)
    assert told_all[quick].mean() == pytest.approx(sold_all[quick].mean(), abs=5 * error)


def test_half_of_a_lot_was_listed_before(world: PaceWorld) -> None:
    lot = world.lot(1, 40, 10)
    assert lot.known.sum() == 20
    assert set(lot.product[lot.known].tolist()) <= set(world.product.tolist())
    assert not set(lot.product[~lot.known].tolist()) & set(world.product.tolist())


def test_buyers_time_and_days_are_each_other_s_way_back() -> None:
    seasons = Seasons(np.array([[0.3, 0.1], [0.0, 0.0]]), 300)
    top, day = np.array([0, 1, 0]), np.array([10.5, 200.0, 700.25])
    assert seasons.day(top, seasons.time(top, day)) == pytest.approx(day)
    assert seasons.time(np.array([1]), np.array([200.0])) == pytest.approx([200.0])


def test_baselines_of_one_rate_find_it() -> None:
    """Exponential days with a mean of 50, censored at 120: all but the one that drops the unsold."""
    rng = stream(1, "waits")
    days = rng.exponential(50, 4000)
    seen = waits(np.minimum(days, 120.0), days < 120)
    asked = waits(np.zeros(1), np.zeros(1, dtype=bool))
    truth = -np.expm1(-30 / 50)
    assert kaplan_meier(seen)(asked, 30.0)[0] == pytest.approx(truth, abs=0.03)
    assert logistic_hazards(seen)(asked, 30.0)[0] == pytest.approx(truth, abs=0.03)
    assert sold_only(seen)(asked, 30.0)[0] == pytest.approx(truth / -np.expm1(-120 / 50), abs=0.03)


def test_a_small_run_tells_every_figure() -> None:
    plan = replace(QUICK, pace_worlds=MappingProxyType({50: 2}))
    tasks = [task for task in time_to_sell.tasks(plan) if not task.alone]
    results = {task.argument: task.run(task.argument) for task in tasks}
    timing = next(task.argument for task in time_to_sell.tasks(plan) if task.alone)
    results[timing] = run_pace_timing(PaceTiming(50, 40, 1))
    tables = time_to_sell.tables(plan, results)
    assert [len(table.rows) for table in tables] == [6, 1, 1]
    assert all(np.isfinite(figure.mean) for table in tables for row in table.rows for figure in row.figures.values())
    assert {figure.bar for row in tables[0].rows for figure in row.figures.values()} == {"", "survival at 50"}


def test_the_same_world_gives_the_same_figures() -> None:
    trial = PaceTrial(PaceShape(3, 50), 1)
    assert run_paces(trial) == run_paces(trial)


def test_the_full_run_has_many_worlds_where_they_differ_most() -> None:
    assert FULL.pace_worlds[50] >= 100
    assert FULL.pace_worlds[300] >= 50
    assert FULL.pace_worlds[3000] >= 20
