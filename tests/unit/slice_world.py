"""Slices of lines for the tests of proceeds, packs and weekly cash."""

from dataclasses import replace

import numpy as np

from models.decide.actions import NOT_CHOSEN
from models.decide.components import Components
from models.decide.costs import Rows, SellingCosts, selling_costs
from models.decide.proceeds import LineFacts, Reading, SliceDraws
from models.values.arrays import texts
from models.values.settings import Selling, Settings

SELLING = Selling(
    fee_share=0.10, fixed_fee=30.0, advertising_share=0.02, packing=100.0, postage_each=200.0, refund_share=0.05,
    refund_loss_share=0.4, leftover_share=0.10,
)  # fmt: skip
SETTINGS = Settings(selling=SELLING, by_category={"Toys": {"fee_share": 0.20}, "Toys > Kites": {"packing": 500.0}})
NET, ORDER = 1 - 0.10 - 0.02 - 0.05 * 0.4, 30 + 100 + 200 + 0.05 * 200
KEYS = ("", "Toys", "Toys > Kites")
NO_PACKS = np.array([[999.0, 1.0]])  # minutes that no pack is worth


def rows_of(keys: tuple[str, ...]) -> Rows:
    return Rows.of([(key, 0, packed) for key in keys for packed in (False, True)])


def reading(settings: Settings = SETTINGS, keys: tuple[str, ...] = ("",), hourly_pay: float = 1500.0) -> Reading:
    costs = selling_costs(settings, rows_of(keys))
    return Reading(costs, hourly_pay=hourly_pay, minutes_sort=2.3, minutes_pack=6.1, leftover_discount=0.95)


def costs_of(components: Components, settings: Settings = SETTINGS) -> SellingCosts:
    return selling_costs(settings, components.rows)


def facts_of(quantity: list[int], minutes: list[list[float]] | None = None) -> LineFacts:
    n = len(quantity)
    return LineFacts(
        quantity=np.array(quantity),
        item=np.arange(n),
        name=texts([f"item {at}" for at in range(n)]),
        row=np.zeros(n, dtype=np.int64),
        never=np.zeros(n, dtype=bool),
        chosen=np.full(n, NOT_CHOSEN),
        minutes=np.array(minutes or [[12.0, 0.0, 0.0]] * n),
        pack_minutes=np.array([[12.0, 1.0]] * n),
    )


def with_facts(draws: SliceDraws, **changes: object) -> SliceDraws:
    return replace(draws, facts=replace(draws.facts, **changes))


def one_line(price: float, saleable: float, sold: float, dead: float = 0.0, never: bool = False) -> SliceDraws:
    def one(value: float) -> np.ndarray:
        return np.array([[value]])

    facts = replace(facts_of([int(saleable + dead)]), never=np.array([never]))
    drawn = (one(value) for value in (price, saleable, dead, sold, sold, 0.98, 40.0, 20.0))
    return SliceDraws(facts, *drawn)


def many_lines(n: int) -> SliceDraws:
    rng = np.random.Generator(np.random.Philox(3))
    quantity = rng.integers(1, 6, n)
    saleable = rng.binomial(quantity[:, None], 0.9, (n, 64)).astype(float)
    demand = rng.integers(0, 9, (n, 64)).astype(float)
    facts = replace(
        facts_of(quantity.tolist(), rng.uniform(1, 30, (n, 3)).tolist()),
        row=2 * rng.integers(0, 3, n),
        never=rng.random(n) < 0.1,
        chosen=np.where(rng.random(n) < 0.1, rng.integers(0, 4, n), NOT_CHOSEN),
        pack_minutes=np.array([[4.0, 0.5]] * n),
    )
    day = rng.uniform(30, 150, (n, 64))
    return SliceDraws(
        facts,
        price=rng.lognormal(6.3, 0.3, (n, 64)) * rng.lognormal(0, 1.0, (n, 1)),
        saleable=saleable,
        dead=quantity[:, None] - saleable,
        sold=np.minimum(demand, saleable),
        demand=demand,
        discount=1.1 ** (-day / 365),
        day=day,
        days=rng.uniform(0, 60, (n, 64)) * (rng.random((n, 64)) < 0.7),
    )
