"""Where the points of the pictures lie."""

import re
from typing import Any

import pytest

from models.report.chart import BOTTOM, LEFT, RIGHT, TOP, Curves, chart, step_of
from models.report.curves import evaluation_charts

CURVE = [
    {"bid": f"{bid}.00", "expected_profit": f"{900 - bid}.00", "chance_of_cash_loss": bid / 2000}
    for bid in (200, 400, 600, 800, 1000)
]  # fmt: skip
DOCUMENT: dict[str, Any] = {
    "bid_ceiling": {"verdict": "bid", "amount": "600.00"},
    "at_ceiling": {"payback_weeks": {"p10": 1, "p50": 2, "p90": None}},
    "bid_curve": CURVE,
    "cash_curve": [
        {"week": week, "p10": f"{week * 30 - 100}.00", "p50": f"{week * 50 - 100}.00", "p90": f"{week * 90 - 100}.00"}
        for week in range(5)
    ],
    "backlog": {
        "weekly": [{"week": week, "hours_before": 4.0 - week, "hours_after": {"p10": 5, "p50": 6, "p90": 8}}
                   for week in range(5)],
    },
}  # fmt: skip


def points(path: str) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in re.findall(r"([-\d.]+) ([-\d.]+)", path)]


def test_a_line_goes_from_edge_to_edge_and_rises_with_its_values() -> None:
    drawn = chart(Curves([0.0, 5.0, 10.0], [[0.0, 50.0, 100.0]]))
    assert drawn is not None
    assert points(drawn.lines[0]) == [(LEFT, BOTTOM), ((LEFT + RIGHT) / 2, (TOP + BOTTOM) / 2), (RIGHT, TOP)]
    assert drawn.zero == BOTTOM
    assert [one.value for one in drawn.up] == [0.0, 50.0, 100.0]
    assert [one.value for one in drawn.across] == [0.0, 2.0, 4.0, 6.0, 8.0, 10.0]


def test_what_goes_below_nothing_is_drawn_below_its_line() -> None:
    drawn = chart(Curves([0.0, 1.0], [[-30.0, 70.0]], mark=0.5))
    assert drawn is not None
    below, above = (y for _, y in points(drawn.lines[0]))
    assert above < drawn.zero < below
    assert drawn.mark == (LEFT + RIGHT) / 2


def test_all_nothing_is_still_a_picture() -> None:
    drawn = chart(Curves([0.0, 1.0], [[0.0, 0.0]]))
    assert drawn is not None
    assert {y for _, y in points(drawn.lines[0])} == {BOTTOM}


def test_a_mark_outside_is_left_out() -> None:
    drawn = chart(Curves([0.0, 1.0], [[1.0, 2.0]], mark=7.0))
    assert drawn is not None
    assert drawn.mark is None


@pytest.mark.parametrize(
    "curves",
    [
        Curves([1.0], [[1.0]]),
        Curves([1.0, 1.0], [[1.0, 2.0]]),
        Curves([0.0, 1.0], [[1.0, float("nan")]]),
        Curves([], []),
    ],
)
def test_what_is_no_line_is_no_picture(curves: Curves) -> None:
    assert chart(curves) is None


@pytest.mark.parametrize("extent", [0.003, 0.7, 1.0, 26.0, 999.0, 1000.0, 123456.0])
def test_steps_are_round_and_few(extent: float) -> None:
    step = step_of(extent, 4)
    assert f"{step:.0e}"[0] in "125"
    assert 1 <= extent / step <= 4 + 1e-6


def test_every_curve_of_an_evaluation_is_drawn() -> None:
    drawn = evaluation_charts(DOCUMENT)
    assert list(drawn) == ["profit", "loss", "cash", "hours"]
    assert drawn["profit"].mark == drawn["loss"].mark == (LEFT + RIGHT) / 2
    assert drawn["cash"].mark == pytest.approx(LEFT + (RIGHT - LEFT) * 2 / 4)
    band = points(drawn["cash"].band)
    assert len(band) == 10
    low, high = band[4], band[5]
    assert low[0] == high[0] == RIGHT
    assert high[1] < low[1], "the high end of the band lies above its low end"
    assert len(drawn["hours"].lines) == 2


def test_what_is_not_told_is_not_drawn() -> None:
    assert evaluation_charts({"bid_ceiling": {"verdict": "pass", "amount": "0.00"}}) == {}
    passed = DOCUMENT | {"bid_ceiling": {"verdict": "pass", "amount": "0.00"}, "at_ceiling": None}
    drawn = evaluation_charts(passed)
    assert drawn["profit"].mark is None
    assert drawn["cash"].mark is None
    unknown = DOCUMENT | {"cash_curve": [{"week": 0, "p10": None, "p50": None, "p90": None}] * 2}
    assert "cash" not in evaluation_charts(unknown)
