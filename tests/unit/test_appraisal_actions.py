"""What is done with each line, through the whole appraisal: listings, photos, packs, or nothing."""

from dataclasses import replace
from functools import cache
from typing import Any

import numpy as np
import pytest
from appraisal_world import answer, demo_lines, demo_model, lines_like

from models.appraisal.question import Evaluation
from models.estimate.fit.effort import fit_effort
from models.values.sales import Sales

SETTINGS: dict[str, Any] = {
    "effort": {"minutes_first": 12, "minutes_repeat": 1, "minutes_used_unit": 6},
    "goals": {"hourly_pay": 0},  # everything is worth its time
    "never": {"words": ["recalled"]},
    "lot": {"missing_share": 0, "dead_share": 0, "dead_untested_share": 0},
}
GOODS = [
    "Brellwick desk lamp",
    "Brellwick floor lamp",
    "Assorted lamps",
    "Brellwick recalled heater",
    "Brellwick clock",
]


def goods(hourly_pay: float, tag: str = "40.00") -> Evaluation:
    lines = lines_like(
        description=[*GOODS, "Brellwick clock"],
        brand=["Brellwick"] * 6,
        category=["Home"] * 6,
        condition=[0, 2, 2, 0, 0, 0],
        quantity=[40, 40, 40, 40, 10, 30],
        tag_each=[float(tag) * 100] * 6,
    )
    lines = type(lines)(**{**vars(lines), "assorted": np.array([False, False, True, False, False, False])})
    untimed = replace(demo_model(), effort=fit_effort(Sales.blank(0), np.empty(0, dtype=np.int64)))
    return answer(lines, SETTINGS | {"goals": {"hourly_pay": hourly_pay}}, untimed)


@cache
def all_listed() -> Evaluation:
    return goods(0)


def test_listing_minutes_of_each_kind_of_line() -> None:
    """Sealed repeats are one listing, used ones need photos, assorted goods a listing each; an item's lines share."""
    lines = all_listed().lines
    assert [line["action"] for line in lines] == ["list", "list", "list", "never", "list", "list"]
    assert lines[0]["listing_minutes"] == pytest.approx(12 + 39)
    assert lines[1]["listing_minutes"] == pytest.approx(12 + 39 * 6)
    assert lines[2]["listing_minutes"] == pytest.approx(40 * 12)
    assert lines[3]["listing_minutes"] == 0
    clocks = [line["listing_minutes"] for line in lines[4:]]
    assert sum(clocks) == pytest.approx(lines[0]["listing_minutes"], abs=0.02)
    assert clocks[1] == pytest.approx(3 * clocks[0], abs=0.02)


def test_what_is_never_sold_takes_no_hours() -> None:
    told = all_listed()
    assert told.document["actions"] == {"listed": 5, "bundled": 0, "skipped": 0, "never": 1}
    sorted_units = 40 * 3 + 40
    assert told.document["hours"]["sorting"]["mean"] == pytest.approx(sorted_units * 2 / 60, rel=0.02)
    never = told.lines[3]
    assert never["cash_proceeds"] == never["proceeds_after_pay"]


def test_packs_are_told_with_their_size() -> None:
    told = goods(25, tag="12.00")
    words = {"list": "listed", "bundle": "bundled", "skip": "skipped", "never": "never"}
    for action, word in words.items():
        assert told.document["actions"][word] == sum(line["action"] == action for line in told.lines)
    packed = [line for line in told.lines if line["action"] == "bundle"]
    assert packed
    for line in told.lines:
        assert ("pack" in line) == (line["action"] == "bundle")
    for line in packed:
        assert 2 <= line["pack"]["units"] <= 24
        assert line["pack"]["units"] * line["pack"]["packs"] <= 40
        assert float(line["cash_proceeds"]) > 0
    assert told.lines[4].get("pack") == told.lines[5].get("pack")  # one item over two lines


def test_the_season_of_arrival_counts() -> None:
    """A shop that sells three times as fast in December: what arrives then sells more within four weeks."""
    model = demo_model()
    december = np.where(np.arange(12) == 11, np.log(3.0), 0.0)
    festive = replace(model, tempo=replace(model.tempo, month_effect=december))
    lines = demo_lines("manifest_new_brand.csv")

    def sold(closes: str, arrives: str) -> float:
        terms = {"closes_at": f"{closes}T12:00:00Z", "arrives_on": arrives}
        given = {"lot": terms, "goals": {"horizon_weeks": 6}, "backlog": {"hours_per_week": 100}}
        told = answer(lines, given, festive).lines
        return float(np.mean([line["share_sold"] for line in told]))

    autumn, winter = sold("2026-08-20", "2026-08-28"), sold("2026-11-20", "2026-11-28")
    assert winter > 1.3 * autumn
