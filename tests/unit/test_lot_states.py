"""A line whose condition nobody told: priced as its product was usually sold, never dearer, with a doubt of its own."""

import numpy as np
import pytest
from price_shop import fit, priced
from price_world import DAY_ZERO, make_lines, make_sales

from models.estimate.lot_states import UNTOLD_SD, states_of
from models.estimate.products import match
from models.values.streams import stream

OFF = np.array([0.0, -0.15, -0.3, -0.6, -0.6, -1.1, -0.15])
STATES = [-1, 0, 1, 2, 3]


def shop(condition, n=300):
    """Sales of sixty things; `condition` gives the state of each row from its thing."""
    rng = stream(1, "states")
    thing = rng.integers(0, 60, n)
    price = np.exp(rng.normal(8, 0.6, 60))[thing] * np.exp(rng.normal(0, 0.2, n))
    code = np.array([condition(int(one), at) for at, one in enumerate(thing)])
    return fit(make_sales(
        title=[f"thing {one}" for one in thing], brand=[f"b{one % 5}" for one in thing],
        category=[f"k > s{one % 3}" for one in thing], condition=code, sold_price=price * np.exp(OFF[code]),
        sold_on=(DAY_ZERO + rng.integers(0, 300, n)).astype("datetime64[D]"), sourced=np.ones(n),
    ))  # fmt: skip


def means(one, description):
    n = len(STATES)
    lines = make_lines(description=[description] * n, brand=["b1"] * n, category=["k > s1"] * n, condition=STATES)
    lot = priced(one, lines)
    return dict(zip(STATES, lot.unit_price.mean.tolist(), strict=True)), lot


@pytest.mark.parametrize("description", ["thing 1", "new thing"])
@pytest.mark.parametrize("state", [2, 3])
def test_a_shop_that_sells_one_state_only_prices_an_untold_line_as_that(description, state):
    """It was 1.5 to 2 times as much when the declared state stood alone."""
    mean, lot = means(shop(lambda thing, at: state), description)
    assert mean[-1] == pytest.approx(mean[state], rel=1e-9)
    assert lot.log_var[0] == pytest.approx(lot.log_var[STATES.index(state)] + UNTOLD_SD**2)


@pytest.mark.parametrize("description", ["thing 1", "new thing"])
def test_an_untold_line_is_never_priced_as_sealed(description):
    mean, _ = means(shop(lambda thing, at: 0), description)
    assert mean[-1] == pytest.approx(mean[0] * np.exp(-0.15), rel=1e-6)


def test_a_products_own_sales_say_more_than_those_of_the_whole_shop():
    mean, _ = means(shop(lambda thing, at: 3 if thing == 1 else 0), "thing 1")
    assert mean[-1] == pytest.approx(mean[3], rel=1e-9)


def test_of_two_states_as_common_the_cheaper_one_counts():
    seen = []

    def in_turn(thing, at):
        seen.append(thing)
        return (1, 3)[seen.count(thing) % 2]

    one = shop(in_turn, 240)
    book, model = one
    counts = {}
    for product, sales, condition in zip(model.items.product, model.items.sales, model.items.condition, strict=True):
        counts.setdefault(int(product), {})[int(condition)] = int(sales)
    even = [product for product, told in counts.items() if len(told) == 2 and len(set(told.values())) == 1]
    names = [book.name[product].removeprefix("w:") for product in even]
    lines = make_lines(description=names, condition=[-1] * len(names))
    states = states_of(lines, match(book, lines.description, lines.sku, lines.gtin), model)
    assert len(even) > 3
    assert set(states.condition.tolist()) == {3}


def test_where_sales_have_no_condition_either_an_untold_line_is_priced_as_they_are():
    book, model = shop(lambda thing, at: -1 if thing % 2 else 2)
    lines = make_lines(description=["thing 1", "thing 2", "new thing"], condition=[-1] * 3)
    states = states_of(lines, match(book, lines.description, lines.sku, lines.gtin), model)
    assert states.condition.tolist() == [-1, 2, -1], "its own sales without one; its own; the shop's without one"
    assert states.untold.tolist() == [False, True, False]
    assert priced((book, model), lines).basis[0] == "own_item"


def test_told_lines_stay_as_they_are():
    book, model = shop(lambda thing, at: 2)
    lines = make_lines(description=["thing 1"] * 5, condition=[0, 1, 3, 4, 5])
    states = states_of(lines, match(book, lines.description, lines.sku, lines.gtin), model)
    assert states.condition.tolist() == [0, 1, 3, 2, 5]
    assert not states.untold.any()
    assert not states.shift.any()


def test_the_doubt_of_untold_lines_is_shared_and_told():
    one = shop(lambda thing, at: 2)
    told, untold = (
        priced(one, make_lines(description=[f"thing {at}" for at in range(20)], condition=[state] * 20))
        for state in (2, -1)
    )
    assert untold.log_sd**2 == pytest.approx(told.log_sd**2 + UNTOLD_SD**2, rel=1e-6)
    assert float(untold.resale.mean) == pytest.approx(float(told.resale.mean), rel=1e-9)
    assert "states that nobody told" in dict(untold.spread)
