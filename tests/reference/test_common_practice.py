"""Rules of thumb of the trade, with numbers of our own: common practice, no source.

A tag ten times too high on an item with 60 own sales moves the ceiling by at most 5%.  A tag several times the going
price must not raise the ceiling where the seller's own sales show the going price.  400 pieces of one thing are not
worth 400 times one.
"""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from appraisal_world import AS_OF, answer, demo_lines, demo_sales, lines_like

from models.appraisal.model import Model
from models.appraisal.training import fit
from models.values.arrays import texts
from models.values.sales import Sales
from models.values.streams import stream

SETTINGS: dict[str, Any] = {"buying": {"freight": 50}, "backlog": {"hours_per_week": 20}, "goals": {"hourly_pay": 5}}
TITLE = "Norrimund Copper Watering Can 6 L"


@pytest.fixture(scope="module")
def with_sixty() -> Model:
    """The demo shop's last 600 rows and sixty sales of one more thing, at about 40 against a tag of 70."""
    sales = demo_sales()
    some = sales.take(np.arange(len(sales) - 600, len(sales)))
    rows = some.take(np.arange(60))
    days = AS_OF.toordinal() - 719163 - np.arange(60) * 9 - 4
    prices = np.round(4000.0 * np.exp(0.15 * stream(1, "test").standard_normal(60)))
    sixty = replace(
        rows,
        title=texts([TITLE] * 60),
        brand=texts(["Norrimund"] * 60),
        category=texts(["Garden > Hand Tools"] * 60),
        condition=np.zeros(60, dtype=np.int8),
        quantity=np.ones(60, dtype=np.int64),
        tag_each=np.full(60, 7000.0),
        sold_price=prices,
        sold_on=days.astype("datetime64[D]"),
        listed_on=(days - 6).astype("datetime64[D]"),
        first_listed_on=np.full(60, np.datetime64("NaT", "D")),
        ended_on=np.full(60, np.datetime64("NaT", "D")),
        sku=texts([""] * 60),
        gtin=texts([""] * 60),
        listing_ref=texts([f"N{number}" for number in range(60)]),
    )
    columns = {name: np.concatenate([getattr(some, name), getattr(sixty, name)]) for name in Sales.__dataclass_fields__}
    return fit(Sales(**columns), AS_OF, "USD", lambda share, step: None)


def ceiling_with_tag(model: Model, tag: float) -> tuple[float, float]:
    known = lines_like(
        description=[TITLE] * 2, brand=["Norrimund"] * 2, category=["Garden > Hand Tools"] * 2, quantity=[8, 4],
        tag_each=[tag, tag],
    )  # fmt: skip
    told = answer(known, SETTINGS, model).document
    return float(told["bid_ceiling"]["unrounded"]), float(told["resale"]["mean"])


@pytest.mark.parametrize("factor", [3.0, 10.0])
def test_a_tag_too_high_does_not_move_the_ceiling(with_sixty: Model, factor: float) -> None:
    honest, resale = ceiling_with_tag(with_sixty, 7000.0)
    assert honest > 0
    assert 12 * 30 < resale < 12 * 50
    wrong, same = ceiling_with_tag(with_sixty, 7000.0 * factor)
    assert wrong == pytest.approx(honest, rel=0.05)
    assert same == pytest.approx(resale, rel=0.05)


def test_four_hundred_pieces_are_not_worth_four_hundred_times_one(with_sixty: Model) -> None:
    def cash(quantity: int) -> float:
        line = lines_like(
            description=[TITLE], brand=["Norrimund"], category=["Garden > Hand Tools"], quantity=[quantity],
            tag_each=[7000.0],
        )  # fmt: skip
        return float(answer(line, SETTINGS, with_sixty).document["cash_proceeds"]["mean"])

    assert 0 < cash(400) < 0.6 * 400 * cash(1)


def test_a_busy_backlog_leaves_no_room() -> None:
    """150 units a week in and 90 listed: the backlog grows, so no bid is right (the units ledger)."""
    pace = {"hours_per_week": 18, "waiting_units": 10, "weekly_intake_units": 150}
    told = answer(demo_lines("manifest_new_brand.csv"), {"backlog": pace}).document
    assert told["bid_ceiling"]["verdict"] == "pass"
    assert told["bid_ceiling"]["amount"] == "0.00"
    assert told["bid_ceiling"]["room"]["holds"] is False
    assert told["backlog"]["after"]["weeks_to_clear"] is None
    assert told["backlog"]["after"]["grows_hours_per_week"] > 0
    assert told["at_ceiling"] is None
