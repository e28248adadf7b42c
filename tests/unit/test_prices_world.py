"""On synthetic shops with known truth: stated ranges hold, prices beat category medians, a fit is quick.

Bars are wide: few worlds, and the lots of one world share the market's move.
"""

import time
from dataclasses import replace

import numpy as np
import pytest
from price_shop import both, fit, priced
from price_world import DAY_ZERO, Shape, World, make_lines, make_sales

from models.estimate.fit.prices_sample import VARIANCE_ROWS, variance_rows
from models.estimate.lot_cells import lot_var
from models.values.arrays import texts


@pytest.fixture(name="trials", scope="module")
def _trials():
    """Standardised errors of lot totals, squared errors of lines, and those of category medians."""
    score, mine, medians = [], [], []
    for seed in range(12):
        world = World(Shape(seed=seed, n_sales=250, n_products=300))
        history = world.history()
        shop = fit(history)
        price = np.log(history.sold_price)
        median = {kind: np.median(price[history.category == kind]) for kind in set(history.category)}
        for _ in range(4):
            lines, actual, _ = world.lot(60)
            lot = priced(shop, lines, 60.0)
            gap = np.log(lines.quantity @ actual / lot.total.mean) + lot.total.log_var / 2
            score.append(gap / lot.log_sd)
            mine.append((np.log(actual) - lot.mu) ** 2)
            kinds = [median.get(kind, np.median(price)) for kind in lines.category]
            medians.append((np.log(actual) - kinds) ** 2)
    return np.array(score), np.concatenate(mine), np.concatenate(medians)


def test_stated_ranges_of_lot_totals_hold(trials):
    score, _, _ = trials
    assert 0.6 <= np.mean(np.abs(score) < 1.2816) <= 0.97
    assert np.mean(np.abs(score) < 1.96) >= 0.85


def test_lines_are_priced_much_better_than_by_category_medians(trials):
    _, mine, medians = trials
    assert np.sqrt(mine.mean()) < 0.65 * np.sqrt(medians.mean())


def test_a_fit_of_six_thousand_sales_is_quick():
    history = World(Shape(n_sales=6000, n_products=4000)).history()
    start = time.process_time()
    _, model = fit(history)
    assert time.process_time() - start < 8.0
    assert model.sales_used == 6000


def test_variances_of_very_many_sales_are_learned_from_whole_products():
    product = np.repeat(np.arange(1000), 9)
    rows = variance_rows(product)
    assert rows is not None
    assert VARIANCE_ROWS - 9 <= len(rows) <= VARIANCE_ROWS
    assert set(np.bincount(product[rows])) <= {0, 9}


def test_a_history_above_that_size_still_prices_its_items():
    history = World(Shape(n_sales=6500, n_products=6000)).history()
    own = make_sales(
        title=["famous thing"] * 30, brand=["brand1"] * 30, category=["top1 > sub1"] * 30,
        sold_price=np.full(30, 2000.0), sold_on=np.full(30, DAY_ZERO + 690).astype("datetime64[D]"),
        tag_each=np.full(30, 4000.0), sourced=np.ones(30),
    )  # fmt: skip
    shop = fit(both(history, own))
    lot = priced(shop, make_lines(description=["famous thing"], brand=["brand1"], category=["top1 > sub1"]))
    assert lot.unit_price.p50[0] == pytest.approx(2000, rel=0.1)


def test_named_lots_teach_how_far_lots_differ():
    calm, wild = (fit(World(Shape(n_sales=1500, lot_sd=sd, bulk=False)).history())[1] for sd in (0.05, 0.4))
    assert calm.lots_named
    assert np.sqrt(calm.posterior.block_prior("lot")) < 0.15
    assert np.sqrt(wild.posterior.block_prior("lot")) == pytest.approx(0.4, rel=0.35)


def test_weeks_of_listing_stand_in_for_lots_without_a_name():
    found = []
    for sd in (0.05, 0.4):
        sales = World(Shape(n_sales=800, lot_sd=sd, bulk=False)).history()
        number = np.array([int(name.split()[1]) for name in sales.lot])
        listed = (DAY_ZERO + 7 * number).astype("datetime64[D]")
        _, model = fit(replace(sales, lot=texts([""] * len(sales)), listed_on=listed))
        assert not model.lots_named
        found.append(np.sqrt(lot_var(model)))
    assert found[0] < 0.5 * found[1]
    assert found[1] > 0.3


def test_a_busy_week_stands_in_for_more_than_two_purchases():
    sales = World(Shape(n_sales=300, lot_sd=0.3, bulk=False)).history()
    _, model = fit(replace(sales, lot=texts([""] * len(sales))))
    busy = replace(model, sales_used=model.sales_used * 100)
    assert lot_var(busy) > 3 * lot_var(model)


def test_products_without_a_tag_are_not_taken_for_evenly_priced_ones():
    """Their own effects, widened by the unknown tag, swallow most of a single sale's noise."""
    _, model = fit(World(Shape(n_sales=1200, no_tags=0.3)).history())
    assert model.noise.by_tag[1] == pytest.approx(model.noise.by_tag[0], rel=0.4)


def test_a_falling_market_is_followed():
    world = World(Shape(n_sales=1500, market_sd=0.0, days=700, bulk=False))
    history = world.history()
    age = (DAY_ZERO + 700) - history.sold_on.astype("datetime64[D]").astype(np.int64)
    falling = replace(history, sold_price=history.sold_price * np.exp(0.4 * age / 365))
    lines, _, _ = world.lot(200)
    moved = np.median(priced(fit(falling), lines, 60.0).mu - priced(fit(history), lines, 60.0).mu)
    assert moved == pytest.approx(-0.4 * 60 / 365, abs=0.06)


def test_noise_differs_by_condition():
    world = World(Shape(n_sales=2000))
    history = world.history()
    rough = history.condition == 3
    noisy = history.sold_price.copy()
    noisy[rough] *= np.exp(world.rng.normal(0, 0.6, rough.sum()))
    _, model = fit(replace(history, sold_price=noisy))
    assert model.noise.by_condition[3] > 2 * model.noise.by_condition[0]
