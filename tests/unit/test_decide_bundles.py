"""Packs reckoned by hand: one listing, one parcel and a discount a pack; the smallest size that pays."""

from dataclasses import replace

import numpy as np
import pytest
from slice_world import facts_of, with_facts

from models.decide.actions import Action
from models.decide.bundles import MOST_IN_PACK, best_pack, in_packs
from models.decide.costs import Rows, selling_costs
from models.decide.proceeds import Reading, SliceDraws, SliceValue, value_slice
from models.values.arrays import texts
from models.values.settings import Selling, Settings

SETTINGS = Settings()  # fee 12%, refunds .05 x .5: .855 of the price stays; 1.30 an order; a tenth for leftover units
ROWS = Rows.of([("", 0, False), ("", 0, True)])
READING = Reading(selling_costs(SETTINGS, ROWS), hourly_pay=1500.0, minutes_sort=2.0, minutes_pack=6.0)
PLENTY = 1e5  # buyers: every pack finds one


def slice_of(
    units: list[float], price: float, demand: float = PLENTY, n_draws: int = 64, listing: list[float] | None = None
) -> SliceDraws:
    """Lines of which every unit arrives and works; each has `demand` buyers."""
    saleable = np.repeat(np.array(units)[:, None], n_draws, axis=1)
    buyers = np.full_like(saleable, demand)
    facts = facts_of([int(one) for one in units], [listing or [12.0, one - 1.0, 0.0] for one in units])
    sold, none = np.minimum(buyers, saleable), np.zeros_like(saleable)
    return SliceDraws(facts, none + price, saleable, none, sold, buyers, none + 1.0, none, none)


def left_over(units: float, price: float) -> float:
    return 0.1 * units * max(0.0, 0.855 * price - 130)  # what costs more to sell than it fetches brings nothing


def gain(units: int, packs: int, price: float) -> float:
    """Of packs that all sell: cash beyond the leftover value, less units + 17 minutes a pack at 25 a minute."""
    cash = packs * (0.75 * 0.855 * units * price - 130)
    return cash - packs * left_over(units, price) - packs * 25 * (12 + units - 1 + 6)


def test_forty_units_at_three_each() -> None:
    """Singly a unit nets 1.27 and packing it alone costs 1.50; in packs, 3 still lose and 4 win: by hand."""
    draws = slice_of([40.0], 300.0)
    assert gain(3, 13, 300.0) < 0 < gain(4, 10, 300.0)
    value = value_slice(draws, READING)
    assert value.lines.action.tolist() == [Action.BUNDLE]
    assert (value.lines.pack_units[0], value.lines.packs[0]) == (4, 10)
    parts = value.components
    assert parts.packed.tolist() == [True]
    assert (parts.orders[0], parts.units_sold[0], parts.sold_orders[0, 0]) == (10.0, 40.0, 10.0)
    assert parts.sold_worth[0, 0] == 40 * 300.0  # single prices: the discount is taken on reading
    assert (parts.listing_first[0], parts.listing_repeat[0], parts.listing_used[0]) == (120.0, 30.0, 0.0)
    assert parts.minutes_packing[0] == 60.0
    cash = parts.cash(selling_costs(SETTINGS, parts.rows))[0]
    assert cash == round(10 * (0.855 * 900 - 130))
    assert value.lines.after_pay(1.0, 1500.0)[0] - left_over(40, 300) + 25 * 80 == pytest.approx(gain(4, 10, 300.0))


def test_another_discount_is_read_without_drawing_again() -> None:
    parts = value_slice(slice_of([40.0], 300.0), READING).components
    kinder = Settings(selling=Selling(bundle_discount=0.1))
    assert parts.cash(selling_costs(kinder, parts.rows))[0] == round(10 * (0.855 * 0.9 * 1200 - 130))


def test_units_that_fill_no_pack_are_left_over() -> None:
    value = value_slice(slice_of([43.0], 300.0), READING)
    parts = value.components
    assert (value.lines.pack_units[0], value.lines.packs[0], parts.units_sold[0]) == (4, 10, 40.0)
    expected = 10 * (0.855 * 900 - 130) + left_over(3, 300)
    assert parts.cash(selling_costs(SETTINGS, parts.rows))[0] == pytest.approx(expected, abs=1)


def test_what_pays_singly_is_listed_singly() -> None:
    assert value_slice(slice_of([40.0], 900.0), READING).lines.action.tolist() == [Action.LIST]


@pytest.mark.parametrize(("units", "price"), [(40.0, 20.0), (1.0, 300.0), (3.0, 300.0)])
def test_what_no_pack_is_worth_is_skipped(units: float, price: float) -> None:
    value = value_slice(slice_of([units], price), READING)
    assert value.lines.action.tolist() == [Action.SKIP]
    assert value.lines.pack_units.tolist() == [0]
    assert best_pack(slice_of([units], price), left_over(units, price), READING) is None


def test_a_pack_is_as_large_as_it_must_be_and_no_larger_than_the_most() -> None:
    """Without an hourly pay the order's 1.30 alone asks for 2; the dearer the hours, the larger the pack."""
    sizes = []
    for pay in (600.0, 1500.0, 2400.0, 3300.0):
        reading = replace(READING, hourly_pay=pay)
        pack = best_pack(slice_of([200.0], 250.0), left_over(200, 250), reading)
        assert pack is not None
        assert pack.gain > 0
        sizes.append(pack.units)
    assert sizes == sorted(set(sizes))
    assert sizes[0] >= 2
    assert sizes[-1] <= MOST_IN_PACK


def test_buyers_of_packs_are_as_many_fewer_as_packs_are_larger() -> None:
    """400 units and 20 buyers of one: on average 20/k packs, so 20 units whatever the size."""
    draws = slice_of([400.0], 300.0, demand=20.0, n_draws=8192)
    for units in (2, 5, 10):
        way = in_packs(draws, units, 400, seed=1)
        error = np.sqrt(20 * (1 / units) * (1 - 1 / units) / 8192)
        assert abs(way.parcels.mean() - 20 / units) < 4 * error
        assert (way.units == units * way.parcels).all()
        assert (way.parcels == np.round(way.parcels)).all()


def test_few_buyers_make_no_pack_worth_its_listing() -> None:
    """10 packs of 4 take 10 listings, but 4 buyers of one make one buyer of a pack."""
    value = value_slice(slice_of([40.0], 300.0, demand=4.0, n_draws=512), READING)
    assert value.lines.action.tolist() == [Action.SKIP]


def test_assorted_goods_are_spared_their_many_listings() -> None:
    """40 different things at 5.00: 40 listings of 12 minutes lose, 10 lots of 4 or fewer win."""
    listing = [480.0, 0.0, 0.0]
    value = value_slice(slice_of([40.0], 500.0, listing=listing), READING)
    assert value.lines.action.tolist() == [Action.BUNDLE]
    assert value.lines.minutes_listing[0] < 480 / 1.5
    dear = value_slice(slice_of([40.0], 1500.0, listing=listing), READING)
    assert dear.lines.action.tolist() == [Action.LIST]
    assert dear.lines.minutes_listing[0] == 480.0


def total(value: SliceValue) -> tuple[float, float, float]:
    parts = value.components
    cash = parts.cash(selling_costs(SETTINGS, parts.rows)).mean()
    return float(cash), float(parts.orders.mean()), float(parts.hours.mean())


def test_an_item_is_bundled_over_all_its_lines() -> None:
    """40 lines of one unit are sold as one line of 40."""
    whole = value_slice(slice_of([40.0], 300.0), READING)
    many = slice_of([1.0] * 40, 300.0, demand=PLENTY / 40, listing=[12 / 40, 39 / 40, 0.0])
    many = with_facts(many, item=np.zeros(40, dtype=np.int64), name=texts(["item 0"] * 40))
    split = value_slice(many, READING)
    assert set(split.lines.action.tolist()) == {Action.BUNDLE}
    assert set(split.lines.packs.tolist()) == {10}
    assert total(split) == pytest.approx(total(whole), rel=1e-5)


def test_the_seller_may_want_packs_where_single_listings_pay_more() -> None:
    chosen = with_facts(slice_of([40.0], 900.0), chosen=np.array([int(Action.BUNDLE)]))
    value = value_slice(chosen, READING)
    assert value.lines.action.tolist() == [Action.BUNDLE]
    assert value.lines.pack_units[0] == 2  # the smallest that pays


def test_packs_that_lose_are_made_as_bearable_as_can_be_where_the_seller_wants_them() -> None:
    chosen = with_facts(slice_of([40.0], 20.0), chosen=np.array([int(Action.BUNDLE)]))
    by_hand = {units: gain(units, 40 // units, 20.0) for units in range(2, MOST_IN_PACK + 1)}
    least_bad = max(by_hand, key=lambda units: by_hand[units])
    pack = best_pack(chosen, left_over(40, 20.0), READING, forced=True)
    assert pack is not None
    assert (pack.units, pack.gain) == (least_bad, pytest.approx(by_hand[least_bad]))
    assert pack.gain < 0
    assert value_slice(chosen, READING).lines.pack_units.tolist() == [least_bad]


def test_packs_of_a_single_unit_are_left_to_us() -> None:
    for price, action in ((3000.0, Action.LIST), (100.0, Action.SKIP)):
        chosen = with_facts(slice_of([1.0], price), chosen=np.array([int(Action.BUNDLE)]))
        assert value_slice(chosen, READING).lines.action.tolist() == [action]


def test_too_few_arrived_for_a_pack_take_no_listing() -> None:
    draws = slice_of([6.0], 900.0, n_draws=2)
    saleable = np.array([[3.0, 6.0]])
    draws = replace(draws, saleable=saleable, dead=6.0 - saleable, sold=saleable)
    way = in_packs(draws, 4, 6, seed=1)
    assert way.opened.tolist() == [[0.0, 1.0]]
    assert way.parcels.tolist() == [[0.0, 1.0]]


def test_sizes_that_are_passed_over_unseen_would_not_have_paid() -> None:
    """With every size drawn, the first that pays is the one found by drawing only those that might."""
    rng = np.random.Generator(np.random.Philox(6))
    found = 0
    for at in range(60):
        units, price = float(rng.integers(2, 60)), float(rng.uniform(40, 500))
        demand = rng.poisson(rng.uniform(0.1, 1.5) * units, (1, 2048)).astype(float)
        draws = replace(slice_of([units], price, n_draws=2048), demand=demand, sold=np.minimum(demand, units))
        draws = replace(draws, price=draws.price * rng.lognormal(-0.02, 0.2, (1, 2048)), discount=draws.discount * 0.97)
        every = best_pack(draws, left_over(units, price), READING, forced=True)
        ours = best_pack(draws, left_over(units, price), READING)
        assert every is not None
        assert (None if ours is None else ours.units) == (every.units if every.gain > 0 else None), at
        found += ours is not None
    assert 15 < found < 55
