"""Stored draws of an invented lot: two cost keys, tested and untested goods, single units and packs."""

import datetime as dt
from typing import Any

import numpy as np

from models.appraisal.stored import Stored
from models.decide.components import Components
from models.decide.costs import Rows
from models.values.given import read_given
from models.values.in_force import InForce, in_force
from models.values.streams import stream

ROWS = Rows.of([("", 0, False), ("", 1, False), ("Toys", 0, False), ("Toys", 0, True)])
UNITS = np.array([60.0, 30.0, 40.0, 20.0])
PRICES = np.array([2400.0, 1500.0, 1900.0, 900.0])
TOYS = {"selling": {"by_category": {"Toys": {"fee_share": 0.15}}}}


def stored_lot(draws: int = 512, units: float = 1.0) -> Stored:
    """About 1,900 USD of goods, a tenth of them left over; `units` scales how much of it there is."""
    random = stream(1, "a stored lot")
    level = np.exp(0.3 * random.standard_normal(draws) - 0.045)
    sold = np.round(UNITS[:, None] * units * (0.7 + 0.2 * random.random((4, draws))))
    left = np.round(UNITS[:, None] * units) - sold
    packs = np.where(ROWS.packed, 4.0, 1.0)[:, None]
    discounts = 0.98 - 0.02 * random.random((4, draws))
    orders = sold / packs
    pace = np.exp(0.2 * random.standard_normal((3, draws)) - 0.02)
    parts = Components(
        cost_key=ROWS.cost_key, fate=ROWS.fate, packed=ROWS.packed,
        gross_sold=(PRICES[:, None] * level * sold).sum(axis=0), orders=orders.sum(axis=0), units_sold=sold.sum(axis=0),
        sold_worth=PRICES[:, None] * level * sold * discounts, sold_orders=orders * discounts,
        leftover_worth=PRICES[:, None] * level * left * 0.95, leftover_units=left * 0.95,
        minutes_sorting=2.0 * (sold + left).sum(axis=0) * pace[0], listing_first=12.0 * 40 * units * pace[1],
        listing_repeat=1.0 * 50 * units * pace[1], listing_used=6.0 * 30 * units * pace[1],
        minutes_packing=6.0 * orders.sum(axis=0) * pace[2],
    )  # fmt: skip
    return Stored(parts, 0.25, 150.0 * units, float("nan"), True, dt.date(2026, 7, 1), 0.0, 182.0)


def under(*documents: dict[str, Any]) -> InForce:
    """Settings in force, the most particular document first, toys with a fee of their own."""
    return in_force([*(read_given(one) for one in documents), read_given(TOYS)])
