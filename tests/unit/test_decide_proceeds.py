"""Proceeds of single lines reckoned by hand, and sums that depend on neither order nor slicing."""

from dataclasses import fields, replace

import numpy as np
import pytest

from models.decide.actions import NOT_CHOSEN, Action
from models.decide.components import Components
from models.decide.costs import lot_cost_keys, selling_costs
from models.decide.proceeds import Reading, SliceDraws, value_slice
from models.values.arrays import texts
from models.values.packing import pack, unpack
from models.values.settings import Selling, Settings

SELLING = Selling(
    fee_share=0.10, fixed_fee=30.0, advertising_share=0.02, packing=100.0, postage_each=200.0, refund_share=0.05,
    refund_loss_share=0.4, leftover_share=0.10,
)  # fmt: skip
SETTINGS = Settings(selling=SELLING, by_category={"Toys": {"fee_share": 0.20}, "Toys > Kites": {"packing": 500.0}})
CHOSEN_BY_US = np.array([NOT_CHOSEN])
NET, ORDER = 1 - 0.10 - 0.02 - 0.05 * 0.4, 30 + 100 + 200 + 0.05 * 200


def reading(settings: Settings = SETTINGS, keys: tuple[str, ...] = ("",), hourly_pay: float = 1500.0) -> Reading:
    costs = selling_costs(settings, texts(list(keys)))
    return Reading(costs, hourly_pay=hourly_pay, minutes_sort=2.3, minutes_pack=6.1, leftover_discount=0.95)


def one_line(price: float, saleable: float, sold: float, dead: float = 0.0, never: bool = False) -> SliceDraws:
    def one(value: float) -> np.ndarray:
        return np.array([[value]])

    return SliceDraws(
        one(price),
        one(saleable),
        one(dead),
        one(sold),
        one(0.98),
        one(12.0),
        np.array([0]),
        np.array([never]),
        CHOSEN_BY_US,
    )


def test_a_listed_line_by_hand() -> None:
    value = value_slice(one_line(4000.0, 5.0, 3.0, dead=1.0), reading())
    sold, leftover = 3 * 0.98 * (4000 * NET - ORDER), 0.10 * 2 * 0.95 * (4000 * NET - ORDER)
    by_formula = 3 * 0.98 * (4000 * (1 - 0.12) - 30 - 100 - 200 - 0.05 * (200 + 0.4 * 4000))
    assert sold == pytest.approx(by_formula)
    costs = reading().costs
    assert value.components.cash(costs)[0] == round(sold + leftover)
    assert value.lines.cash()[0] == pytest.approx(sold + leftover, abs=0.01)
    hours = (6 * 2.3 + 12 + 3 * 6.1) / 60
    assert value.components.hours[0] == pytest.approx(hours)
    assert value.components.after_pay(costs, 1.0, 1500.0)[0] == pytest.approx(sold + leftover - 1500 * hours, abs=1)
    assert value.lines.after_pay(1.0, 1500.0)[0] == pytest.approx(sold + leftover - 1500 * hours, abs=0.01)
    assert (value.components.orders[0], value.components.gross_sold[0]) == (3.0, 12000.0)
    assert value.lines.action[0] == Action.LIST


def test_the_rivals_shade_falls_on_prices_and_not_on_orders() -> None:
    value = value_slice(one_line(4000.0, 5.0, 3.0), reading())
    shaded = value_slice(one_line(4000.0 * 0.9, 5.0, 3.0), reading())
    costs = reading().costs
    assert value.components.cash(costs, 0.9)[0] == pytest.approx(shaded.components.cash(costs)[0], abs=1)
    assert value.lines.cash(0.9)[0] == pytest.approx(shaded.lines.cash()[0], abs=0.01)


def test_a_line_not_worth_its_minutes_is_left_over() -> None:
    value = value_slice(one_line(700.0, 2.0, 2.0), reading())
    assert value.lines.action[0] == Action.SKIP
    assert value.lines.cash()[0] == pytest.approx(2 * 0.95 * 0.10 * (700 * NET - ORDER), abs=0.01)
    components = value.components
    assert (components.orders[0], components.minutes_listing[0], components.gross_sold[0]) == (0.0, 0.0, 0.0)
    assert components.minutes_sorting[0] == pytest.approx(2 * 2.3)


def test_less_pay_brings_the_line_back() -> None:
    assert value_slice(one_line(700.0, 2.0, 2.0), reading(hourly_pay=0.0)).lines.action[0] == Action.LIST


@pytest.mark.parametrize(("pay_share", "action"), [(0.999, Action.LIST), (1.001, Action.SKIP)])
def test_the_pay_at_which_listing_stops(pay_share: float, action: Action) -> None:
    """Listing adds what is sold, less the leftover value of the units sold, for 12 + 3 x 6.1 minutes."""
    adds = 3 * (0.98 - 0.95 * 0.10) * (4000 * NET - ORDER)
    pay = pay_share * adds / (12 + 3 * 6.1) * 60
    assert value_slice(one_line(4000.0, 5.0, 3.0), reading(hourly_pay=pay)).lines.action[0] == action


def test_a_dear_line_that_is_never_sold_here() -> None:
    value = value_slice(one_line(90000.0, 2.0, 2.0, never=True), reading())
    assert value.lines.action[0] == Action.NEVER
    assert value.components.hours.max() == 0.0
    assert value.lines.cash()[0] == pytest.approx(2 * 0.95 * 0.10 * (90000 * NET - ORDER), abs=0.01)
    assert value.lines.minutes_listing[0] == 0.0


def test_nothing_saleable_takes_no_listing() -> None:
    value = value_slice(one_line(4000.0, 0.0, 0.0, dead=3.0), reading())
    assert value.components.minutes_listing[0] == 0.0
    assert value.components.minutes_sorting[0] == pytest.approx(3 * 2.3)
    assert value.components.cash(reading().costs)[0] == 0.0


def test_listing_minutes_fall_away_where_nothing_arrived_to_list() -> None:
    draws = SliceDraws(
        price=np.array([[4000.0, 4000.0]]),
        saleable=np.array([[0.0, 5.0]]),
        dead=np.array([[5.0, 0.0]]),
        sold=np.array([[0.0, 4.0]]),
        discount=np.ones((1, 1)),
        minutes_listing=np.array([[12.0]]),
        cost_key=np.array([0]),
        never=np.array([False]),
        chosen=CHOSEN_BY_US,
    )
    value = value_slice(draws, reading())
    assert value.components.minutes_listing.tolist() == [0.0, 12.0]
    assert value.components.minutes_sorting.tolist() == pytest.approx([5 * 2.3] * 2)
    assert value.lines.minutes_listing[0] == pytest.approx(6.0)


def test_a_line_of_unknown_worth_brings_nothing_and_is_skipped() -> None:
    value = value_slice(one_line(float("nan"), 2.0, 2.0), reading())
    assert value.lines.action[0] == Action.SKIP
    assert (value.lines.price_part[0], value.components.gross_sold[0]) == (0.0, 0.0)


def test_selling_more_than_there_is_is_refused() -> None:
    with pytest.raises(ValueError, match="saleable"):
        value_slice(one_line(4000.0, 2.0, 3.0), reading())


def test_costs_of_a_category_its_top_and_the_rest() -> None:
    categories = texts(["Toys > Kites", "Toys > Dolls", "Garden", " Toys "])
    keys, of_line = lot_cost_keys(SETTINGS, categories)
    assert keys[of_line].tolist() == ["Toys > Kites", "Toys", "", "Toys"]
    costs = selling_costs(SETTINGS, keys)
    assert costs.net_share[of_line].tolist() == pytest.approx([NET, NET - 0.1, NET, NET - 0.1])
    assert costs.order_costs[of_line].tolist() == pytest.approx([ORDER + 400, ORDER, ORDER, ORDER])
    assert lot_cost_keys(SETTINGS, texts([]))[0].tolist() == [""]


def many_lines(n: int) -> SliceDraws:
    rng = np.random.Generator(np.random.Philox(3))
    saleable = rng.integers(0, 6, (n, 64)).astype(float)
    return SliceDraws(
        price=rng.lognormal(7.0, 0.3, (n, 64)) * rng.lognormal(0, 1.0, (n, 1)),
        saleable=saleable,
        dead=rng.integers(0, 2, (n, 64)).astype(float),
        sold=saleable * rng.random((n, 64)),
        discount=rng.uniform(0.9, 1.0, (n, 64)),
        minutes_listing=rng.uniform(1, 30, (n, 1)),
        cost_key=rng.integers(0, 3, n),
        never=rng.random(n) < 0.1,
        chosen=np.where(rng.random(n) < 0.1, rng.integers(0, 3, n), NOT_CHOSEN),
    )


def take(draws: SliceDraws, index: np.ndarray) -> SliceDraws:
    return SliceDraws(**{field.name: getattr(draws, field.name)[index] for field in fields(draws)})


@pytest.mark.parametrize("cuts", [[7], [1, 2, 3], [20, 41, 59]])
def test_any_order_and_any_slicing_gives_the_same_bits(cuts: list[int]) -> None:
    draws, held = many_lines(60), reading(keys=("", "Toys", "Toys > Kites"))
    whole = value_slice(draws, held)
    assert set(whole.lines.action.tolist()) == {0, 1, 2}
    shuffled = np.random.Generator(np.random.Philox(4)).permutation(60)
    parts = [value_slice(take(draws, part), held).components for part in np.split(shuffled, cuts)]
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    assert all((total.arrays()[name] == array).all() for name, array in whole.components.arrays().items())
    assert (total.cash(held.costs, 0.93) == whole.components.cash(held.costs, 0.93)).all()


def test_lines_add_up_to_the_lot() -> None:
    held = reading(keys=("", "Toys", "Toys > Kites"))
    value = value_slice(many_lines(60), held)
    assert value.lines.cash(0.9).sum() == pytest.approx(value.components.cash(held.costs, 0.9).mean(), abs=0.5)
    paid = value.components.after_pay(held.costs, 0.9, 1500.0)
    assert value.lines.after_pay(0.9, 1500.0).sum() == pytest.approx(paid.mean(), abs=1)


def test_the_action_chosen_leaves_most_after_pay() -> None:
    draws, held = many_lines(60), reading(keys=("", "Toys", "Toys > Kites"))
    draws = replace(draws, never=np.zeros(60, dtype=bool), chosen=np.full(60, NOT_CHOSEN))
    chosen = value_slice(draws, held).lines.after_pay(1.0, 1500.0)
    forced = value_slice(replace(draws, chosen=np.full(60, int(Action.SKIP))), held).lines.after_pay(1.0, 1500.0)
    free = Reading(held.costs, 0.0, held.minutes_sort, held.minutes_pack, held.leftover_discount)
    listed = value_slice(draws, free).lines
    assert (chosen >= forced - 0.01).all()
    always = listed.action == Action.LIST
    assert (chosen[always] >= listed.after_pay(1.0, 1500.0)[always] - 0.01).all()


def test_components_survive_being_stored() -> None:
    value = value_slice(many_lines(20), reading(keys=("", "Toys", "Toys > Kites"))).components
    back = Components.from_arrays(unpack(pack(value.arrays())))
    costs = reading(keys=("", "Toys", "Toys > Kites")).costs
    assert (back.after_pay(costs, 0.9, 1500.0) == value.after_pay(costs, 0.9, 1500.0)).all()
    assert back.keys.tolist() == ["", "Toys", "Toys > Kites"]


def test_components_of_different_readings_do_not_add() -> None:
    value = value_slice(one_line(4000.0, 5.0, 3.0), reading()).components
    with pytest.raises(ValueError, match="share"):
        value + replace(value, keys=texts(["Toys"]))


@pytest.mark.parametrize("own", list(Action))
@pytest.mark.parametrize("never", [True, False])
def test_the_sellers_own_choice_goes_before_ours_and_before_never(own: Action, never: bool) -> None:
    chosen = replace(one_line(4000.0, 5.0, 3.0, never=never), chosen=np.array([own]))
    value = value_slice(chosen, reading())
    assert value.lines.action.tolist() == [own]
    assert (value.components.minutes_listing[0] > 0) == (own == Action.LIST)
