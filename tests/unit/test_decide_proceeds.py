"""Proceeds of single lines reckoned by hand, and sums that depend on neither order nor slicing."""

from dataclasses import replace

import numpy as np
import pytest
from slice_world import (
    KEYS,
    NET,
    NO_PACKS,
    ORDER,
    SELLING,
    SETTINGS,
    costs_of,
    facts_of,
    many_lines,
    one_line,
    reading,
    with_facts,
)

from models.decide.actions import NOT_CHOSEN, Action
from models.decide.components import Components
from models.decide.costs import lot_rows, selling_costs
from models.decide.proceeds import SliceDraws, value_slice
from models.values.arrays import texts
from models.values.packing import pack, unpack
from models.values.settings import Settings


def test_a_listed_line_by_hand() -> None:
    value = value_slice(one_line(4000.0, 5.0, 3.0, dead=1.0), reading())
    sold, leftover = 3 * 0.98 * (4000 * NET - ORDER), 0.10 * 2 * 0.95 * (4000 * NET - ORDER)
    by_formula = 3 * 0.98 * (4000 * (1 - 0.12) - 30 - 100 - 200 - 0.05 * (200 + 0.4 * 4000))
    assert sold == pytest.approx(by_formula)
    costs = costs_of(value.components)
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
    costs = costs_of(value.components)
    assert value.components.cash(costs, 0.9)[0] == pytest.approx(shaded.components.cash(costs)[0], abs=1)
    assert value.lines.cash(0.9)[0] == pytest.approx(shaded.lines.cash()[0], abs=0.01)


def test_a_line_not_worth_its_minutes_is_left_over() -> None:
    value = value_slice(with_facts(one_line(700.0, 2.0, 2.0), pack_minutes=NO_PACKS), reading())
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
    draws = with_facts(one_line(4000.0, 5.0, 3.0), pack_minutes=NO_PACKS)
    assert value_slice(draws, reading(hourly_pay=pay)).lines.action[0] == action


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
    assert value.components.cash(costs_of(value.components))[0] == 0.0


def test_listing_minutes_fall_away_where_nothing_arrived_to_list() -> None:
    draws = SliceDraws(
        facts_of([5]),
        price=np.array([[4000.0, 4000.0]]),
        saleable=np.array([[0.0, 5.0]]),
        dead=np.array([[5.0, 0.0]]),
        sold=np.array([[0.0, 4.0]]),
        demand=np.array([[3.0, 4.0]]),
        discount=np.ones((1, 1)),
        day=np.zeros((1, 2)),
        days=np.zeros((1, 2)),
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
    rows, of_line = lot_rows(SETTINGS, categories, np.array([0, 1, 2, 1]))
    assert rows.cost_key[of_line].tolist() == ["Toys > Kites", "Toys", "", "Toys"]
    assert rows.fate[of_line].tolist() == [0, 1, 2, 1]
    assert not rows.packed[of_line].any()
    assert rows.packed[of_line + 1].all()
    assert rows.take(of_line + 1).cost_key.tolist() == rows.take(of_line).cost_key.tolist()
    costs = selling_costs(SETTINGS, rows)
    assert costs.net_share[of_line].tolist() == pytest.approx([NET, NET - 0.1, NET, NET - 0.1])
    assert costs.order_costs[of_line].tolist() == pytest.approx([ORDER + 400, ORDER, ORDER, ORDER])
    assert lot_rows(SETTINGS, texts([]), np.array([]))[0].tuples() == []


@pytest.mark.parametrize("cuts", [[7], [1, 2, 3], [20, 41, 59]])
def test_any_order_and_any_slicing_gives_the_same_bits(cuts: list[int]) -> None:
    draws, held = many_lines(60), reading(keys=KEYS)
    whole = value_slice(draws, held)
    assert set(whole.lines.action.tolist()) == set(Action)
    shuffled = np.random.Generator(np.random.Philox(4)).permutation(60)
    parts = [value_slice(draws.take(part), held).components for part in np.split(shuffled, cuts)]
    total = parts[0]
    for part in parts[1:]:
        total = total + part
    assert all((total.arrays()[name] == array).all() for name, array in whole.components.arrays().items())
    costs = costs_of(total)
    assert (total.cash(costs, 0.93) == whole.components.cash(costs, 0.93)).all()


def test_lines_add_up_to_the_lot() -> None:
    value = value_slice(many_lines(60), reading(keys=KEYS))
    costs = costs_of(value.components)
    assert (value.lines.action == Action.BUNDLE).sum() > 2
    assert value.lines.cash(0.9).sum() == pytest.approx(value.components.cash(costs, 0.9).mean(), abs=0.5)
    paid = value.components.after_pay(costs, 0.9, 1500.0)
    assert value.lines.after_pay(0.9, 1500.0).sum() == pytest.approx(paid.mean(), abs=1)
    assert value.lines.units_sold.sum() == pytest.approx(value.components.units_sold.mean())


def test_rows_of_cost_and_fate_add_up_to_the_lot() -> None:
    """Every line in a row of its own category and fate, against the same lines under one cost key."""
    draws, one_key = many_lines(60), reading(Settings(selling=SELLING), KEYS)
    split = value_slice(draws, one_key).components
    whole = value_slice(with_facts(draws, row=np.zeros(60, dtype=np.int64)), one_key).components
    assert len(split.rows) > len(whole.rows) == 2
    plain = Settings(selling=SELLING)
    gap = split.cash(costs_of(split, plain), 0.9) - whole.cash(costs_of(whole, plain), 0.9)
    assert np.abs(gap).max() <= 1  # a whole minor unit, rounded
    assert split.sold_orders.sum(axis=0).tolist() == whole.sold_orders.sum(axis=0).tolist()


def test_the_action_chosen_leaves_most_after_pay() -> None:
    held = reading(keys=KEYS)
    draws = with_facts(many_lines(60), never=np.zeros(60, dtype=bool), chosen=np.full(60, NOT_CHOSEN))
    ours = value_slice(draws, held).lines
    chosen = ours.after_pay(1.0, 1500.0)
    forced = {
        action: value_slice(with_facts(draws, chosen=np.full(60, int(action))), held).lines.after_pay(1.0, 1500.0)
        for action in (Action.SKIP, Action.LIST)
    }
    assert (chosen >= forced[Action.SKIP] - 0.01).all()
    assert (chosen >= forced[Action.LIST] - 0.01).all()


def test_components_survive_being_stored() -> None:
    value = value_slice(many_lines(20), reading(keys=KEYS)).components
    back = Components.from_arrays(unpack(pack(value.arrays())))
    costs = costs_of(value)
    assert (back.after_pay(costs, 0.9, 1500.0) == value.after_pay(costs, 0.9, 1500.0)).all()
    assert back.rows.tuples() == value.rows.tuples()
    with pytest.raises(KeyError):
        Components.from_arrays({name: array for name, array in value.arrays().items() if name != "fate"})


def test_slices_of_different_rows_add() -> None:
    held = reading(keys=KEYS)
    toys = value_slice(with_facts(one_line(4000.0, 5.0, 3.0), row=np.array([2])), held).components
    rest = value_slice(one_line(9000.0, 2.0, 1.0), held).components
    both = toys + rest
    assert both.rows.tuples() == [("", 0, False), ("Toys", 0, False)]
    each = toys.cash(costs_of(toys))[0] + rest.cash(costs_of(rest))[0]
    assert both.cash(costs_of(both))[0] == pytest.approx(each, abs=1)
    assert (rest + toys).sold_worth.tolist() == both.sold_worth.tolist()


@pytest.mark.parametrize("own", list(Action))
@pytest.mark.parametrize("never", [True, False])
def test_the_sellers_own_choice_goes_before_ours_and_before_never(own: Action, never: bool) -> None:
    chosen = with_facts(one_line(4000.0, 5.0, 3.0, never=never), chosen=np.array([own]))
    value = value_slice(chosen, reading())
    assert value.lines.action.tolist() == [own]
    assert (value.components.minutes_listing[0] > 0) == (own in (Action.LIST, Action.BUNDLE))


def test_kinds_of_listing_minutes_are_kept_apart() -> None:
    draws = replace(one_line(9000.0, 5.0, 3.0), facts=facts_of([5], [[12.0, 3.0, 8.0]]))
    total = value_slice(draws, reading()).components
    assert (total.listing_first[0], total.listing_repeat[0], total.listing_used[0]) == (12.0, 3.0, 8.0)
    assert total.minutes_listing[0] == 23.0


def test_lines_of_one_item_share_its_fate() -> None:
    """Alone, the dear line would be listed and the cheap ones left; together they are worth the one listing."""
    facts = replace(facts_of([1, 1, 1], [[4.0, 0.0, 0.0]] * 3), item=np.zeros(3, dtype=np.int64))
    column = np.ones((3, 1))
    draws = SliceDraws(facts, np.array([[9000.0], [650.0], [650.0]]), column, column * 0, *[column] * 5)
    assert value_slice(draws, reading()).lines.action.tolist() == [Action.LIST] * 3
    apart = with_facts(draws, item=np.arange(3))
    assert value_slice(apart, reading()).lines.action.tolist() == [Action.LIST, Action.SKIP, Action.SKIP]
    mine = with_facts(draws, chosen=np.array([NOT_CHOSEN, int(Action.SKIP), NOT_CHOSEN]))
    assert value_slice(mine, reading()).lines.action.tolist() == [Action.LIST, Action.SKIP, Action.LIST]


def worthless(price: float = 300.0, **changes: object) -> SliceDraws:
    """Three saleable units whose costs eat the price: a net price of 258 less 340 each."""
    return with_facts(one_line(price, 3.0, 1.0), chosen=np.array([int(Action.SKIP)]), **changes)


@pytest.mark.parametrize("share", [0.25, 0.10, 0.0, -0.05])
def test_leftovers_that_nobody_would_sell_bring_and_cost_nothing(share: float) -> None:
    settings = Settings(selling=replace(SELLING, leftover_share=share))
    value = value_slice(worthless(), reading(settings))
    assert value.components.cash(costs_of(value.components, settings)).tolist() == [0.0]
    assert value.lines.cash().tolist() == [0.0]
    dear = value_slice(worthless(price=4000.0), reading(settings))
    expected = share * 3 * 0.95 * (4000 * NET - ORDER)
    assert dear.components.cash(costs_of(dear.components, settings))[0] == pytest.approx(expected, abs=1)


def test_worthless_leftovers_take_nothing_from_other_lines() -> None:
    held = reading()
    both = value_slice(worthless(), held).components + value_slice(one_line(4000.0, 5.0, 3.0), held).components
    alone = value_slice(one_line(4000.0, 5.0, 3.0), held).components
    assert both.cash(costs_of(both)).tolist() == alone.cash(costs_of(alone)).tolist()


def test_costs_that_eat_a_rows_price_on_reading_leave_its_leftovers_without_worth() -> None:
    total = value_slice(worthless(price=700.0), reading()).components
    assert total.cash(costs_of(total))[0] > 0
    dearer = Settings(selling=replace(SELLING, packing=900.0))
    assert total.leftover_share(costs_of(total, dearer)).tolist() == [0.0]
    assert total.cash(costs_of(total, dearer)).tolist() == [0.0]
