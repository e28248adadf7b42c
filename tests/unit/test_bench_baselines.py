"""The bench's other methods see the same columns and do what their names say."""

from dataclasses import replace

import numpy as np
import pytest

from models.bench.baselines.inputs import Columns, of_lines, of_sales
from models.bench.baselines.ridge import ridge
from models.bench.baselines.simple import medians, share_of_tag
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.values.arrays import texts
from models.values.sales import Sales

SHAPE = Shape(seed=1, n_sales=400)
CUTOFF = DAY_ZERO + SHAPE.days


@pytest.fixture(name="shop", scope="module")
def _shop():
    world = World(SHAPE)
    history = world.history()
    sold = history.take(history.sold)
    return of_sales(sold, CUTOFF), np.log(sold.sold_price), world.lots(10)


def _error(baseline, lots):
    told = np.concatenate([baseline.predict(of_lines(lot.lines, lot.days_ahead)) for lot in lots])
    return float(np.sqrt(np.mean((told - np.log(np.concatenate([lot.first_price for lot in lots]))) ** 2)))


def test_a_ridge_beats_medians_and_shares_of_tags(shop):
    inputs, outcome, lots = shop
    best = _error(ridge(inputs, outcome), lots)
    assert best < 0.9 * _error(share_of_tag(inputs, outcome), lots)
    assert best < 0.9 * _error(medians(inputs, outcome), lots)


def test_trees_learn_too(shop):
    pytest.importorskip("lightgbm")
    pytest.importorskip("catboost")
    from models.bench.baselines.boosted import catboost_trees, lightgbm_trees

    inputs, outcome, lots = shop
    level = float(np.std(np.log(np.concatenate([lot.first_price for lot in lots]))))
    for method in (lightgbm_trees, catboost_trees):
        assert _error(method(inputs, outcome), lots) < 0.75 * level


def test_share_of_tag_and_medians_on_a_table_one_can_check():
    sales = replace(
        Sales.blank(3), title=texts(["a", "b", "c"]), brand=texts(["x", "x", "y"]), category=texts(["k", "k", "k"]),
        tag_each=np.array([100.0, 200.0, np.nan]), sold_price=np.array([50.0, 100.0, 400.0]),
        sold_on=np.full(3, CUTOFF),
    )  # fmt: skip
    inputs, outcome = of_sales(sales, CUTOFF), np.log(sales.sold_price)
    assert np.exp(share_of_tag(inputs, outcome).predict(inputs)).round(6).tolist() == [50.0, 100.0, 100.0]
    assert np.exp(medians(inputs, outcome).predict(inputs))[2] == pytest.approx(400.0)
    assert np.exp(medians(inputs, outcome).predict(inputs))[0] == pytest.approx(np.sqrt(5000))


def test_placeholders_are_no_tags_for_any_method():
    sales = replace(Sales.blank(4), tag_each=np.array([0.0, 1.0, 99_999_900.0, 5000.0]), sold_on=np.full(4, CUTOFF))
    assert np.isnan(of_sales(sales, CUTOFF).tag).tolist() == [True, True, True, False]


def test_what_was_not_seen_in_the_fit_has_no_column(shop):
    inputs, _, lots = shop
    columns = Columns(inputs)
    strange = lots[0].lines.take(lots[0].group == 2)
    assert columns.of(of_lines(strange, 45.0)).shape == (len(strange), columns.of(inputs).shape[1])
