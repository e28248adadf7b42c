"""Which curves of an evaluation are drawn?  The bid, the cash that comes back, the hours that wait."""

from collections.abc import Mapping, Sequence
from typing import Any

from models.report.chart import Chart, Curves, chart


def evaluation_charts(document: Mapping[str, Any]) -> dict[str, Chart]:
    """Pictures by name, `profit` and `loss` by bid, `cash` and `hours` by week; what cannot be drawn is left out."""
    found = {
        "profit": _by_bid(document, "expected_profit"),
        "loss": _by_bid(document, "chance_of_cash_loss"),
        "cash": _cash(document),
        "hours": _hours(document),
    }
    drawn = {name: chart(curves) for name, curves in found.items() if curves is not None}
    return {name: one for name, one in drawn.items() if one is not None}


def _by_bid(document: Mapping[str, Any], name: str) -> Curves | None:
    points = document.get("bid_curve") or []
    ceiling = document.get("bid_ceiling") or {}
    mark = _number(ceiling.get("amount")) if ceiling.get("verdict") == "bid" else None
    return Curves(_numbers(points, "bid"), [_numbers(points, name)], mark=mark) if points else None


def _cash(document: Mapping[str, Any]) -> Curves | None:
    points = document.get("cash_curve") or []
    if not points:
        return None
    back = ((document.get("at_ceiling") or {}).get("payback_weeks") or {}).get("p50")
    band = _numbers(points, "p10"), _numbers(points, "p90")
    return Curves(_numbers(points, "week"), [_numbers(points, "p50")], band, back)


def _hours(document: Mapping[str, Any]) -> Curves | None:
    weeks = (document.get("backlog") or {}).get("weekly") or []
    if not weeks:
        return None
    after = [one["hours_after"] for one in weeks]
    lines = [_numbers(after, "p50"), _numbers(weeks, "hours_before")]
    return Curves(_numbers(weeks, "week"), lines, (_numbers(after, "p10"), _numbers(after, "p90")))


def _numbers(points: Sequence[Mapping[str, Any]], name: str) -> list[float]:
    return [_number(one.get(name)) for one in points]


def _number(written: Any) -> float:
    """A figure of the document, which writes amounts as text; NaN for what is not told."""
    return float("nan") if written is None else float(written)
