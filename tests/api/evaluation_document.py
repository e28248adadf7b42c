"""An evaluation as the contract writes it, for tests of what is shown; its figures are invented and mean nothing."""

from typing import Any

from models.values.cautions import STANDING_CAUTIONS

QUANTILES = ("p05", "p10", "p20", "p25", "p50", "p75", "p80", "p90", "p95")
CURVE = ("cash_out", "chance_of_cash_loss", "chance_below_pay", "expected_profit", "return_on_cash")
AT_CEILING = {
    "cash_out": "1100.00", "expected_profit": "420.00", "expected_cash_gain": "640.00", "chance_of_cash_loss": 0.12,
    "chance_below_pay": 0.21, "return_on_cash": 0.38, "profit_per_hour": "24.10",
    "payback_weeks": {"p10": 6, "p50": 9, "p90": None},
}  # fmt: skip
LOT = "this lot against its description"
RATES = {"p10": 90, "p50": 130, "p90": 190}  # cash a week
STEPS = [["0.00", "1.00"], ["500.00", "25.00"]]


def line(no: int) -> dict[str, Any]:
    """One line."""
    return {
        "no": no, "source_row": no + 1, "item": f"lamp {no}, works", "description": f"Desk lamp {no} <b>",
        "brand": "Norvane", "category": "Home > Lamps", "condition": "works", "quantity": 3, "tag_each": "39.00",
        "tag_used": "39.00", "sku": "", "gtin": "",
        "unit_price": {"mean": "14.20", "p10": "8.10", "p50": "13.00", "p90": "21.40"},
        "share_sold": 0.81, "days_to_sell": 33.0, "listing_minutes": 18.0, "cash_proceeds": f"{30 - no}.10",
        "proceeds_after_pay": "21.00", "action": "list", "evidence": {"basis": "category", "sales_like_it": 41},
        "cautions": [],
    } | ({"action": "bundle", "pack": {"units": 3, "packs": 1}} if no == 3 else {})  # fmt: skip


def spread(mean: str) -> dict[str, str]:
    """The same figure at every quantile."""
    return {"mean": mean} | dict.fromkeys(QUANTILES, mean)


def document(verdict: str = "bid") -> dict[str, Any]:
    """One evaluation, a bid or a pass for want of room."""
    held = verdict == "bid"
    return {
        "lot": {
            "name": "Pallet 7", "source": "Harbour Lots", "currency": "USD", "closes_at": "2099-07-01T18:00:00Z",
            "current_bid": "300.00", "lines": 3, "units": 9, "tag_total": "351.00",
        },
        "as_of": "2026-06-30", "seed": 1,
        "bid_ceiling": ceiling(held),
        "at_ceiling": AT_CEILING if held else None,
        "resale": spread("2400.00"), "cash_proceeds": spread("1740.00"), "proceeds_after_pay": spread("1520.00"),
        "hours": {kind: {"mean": 4.5, "p10": 3.9, "p90": 5.2} for kind in ("sorting", "listing", "packing")},
        "backlog": backlog(),
        "bid_curve": [bid_at(bid) for bid in range(180, 901, 180)],
        "assumptions": [
            assumed("buying.freight", "250.00", ("150.00", "450.00"), ("560.00", "800.00")),
            assumed("buying.tax_rate", 0.0, (0.0, 0.1), ("0.00", "720.00")),
            assumed("goals.confidence", 0.8),
            assumed("goals.horizon_weeks", 26.0),
            assumed("buying.premium", 0.125) | {"source": "yours"},
            assumed("buying.bid_step", STEPS) | {"source": "yours"},
        ],
        "cash_curve": [
            {"week": week} | {name: f"{week * rate - 1100}.00" for name, rate in RATES.items()}
            for week in range(27)
        ],
        "explain": {
            "top3_share": 0.41, "top10_share": 1.0, "changed": [],
            "spread": [{"from": cause, "share": 0.9 if cause == LOT else 0.1} for cause in (LOT, "single products")],
        },
        "actions": {"listed": 2, "bundled": 1, "skipped": 0, "never": 0},
        "research_first": [
            {"line": 2, "why": "61% of the lot's value, and its brand was never sold here", "spread_removed": 0.31},
            {"line": 1, "why": "20% of the lot's value, and only its tag speaks for it", "spread_removed": 0.004},
            {"line": 99, "why": "5% of the lot's value, and only its tag speaks for it", "spread_removed": 0.002},
        ],
        "cautions": [
            {"what": "Nothing of this brand was sold before.", "check": "Look a few prices up.", "line": 2},
            *({"what": one.what, "check": one.check} for one in STANDING_CAUTIONS),
        ],
        "problems": {"rows": 4, "kept": 3, "set_aside": 1, "items": []},
    }  # fmt: skip


def assumed(key: str, value: Any, ends: Any = (None, None), ceilings: Any = (None, None)) -> dict[str, Any]:
    """One setting in force with its range and what both ends make of the ceiling."""
    told = {"ceiling_low": ceilings[0], "ceiling_high": ceilings[1]}
    return {"key": key, "value": value, "source": "assumed", "low": ends[0], "high": ends[1]} | told


def bid_at(bid: int) -> dict[str, Any]:
    """One point of the bid curve."""
    return {"bid": f"{bid}.00"} | {name: AT_CEILING[name] for name in CURVE}


def ceiling(held: bool) -> dict[str, Any]:
    """The decision."""
    return {
        "verdict": "bid" if held else "pass", "amount": "720.00" if held else "0.00", "unrounded": "720.44",
        "binding_rule": "confidence",
        "by_rule": {"expected_return": "810.00", "confidence": "720.44", "loss_limit": None, "cash_limit": None},
        "room": {"holds": held, "weeks_to_clear": 31.2, "limit": 26, "unsold_units": 149, "unsold_limit": None},
        "rivals": {"count": 3, "shade": 0.07}, "steps_left": {"steps": 420, "next_step_cash": "1.15"},
        "what_would_change": [] if held else [
            {"key": "goals.max_weeks_to_clear", "from": 26.0, "to": 31.2},
            {"key": "buying.freight", "from": "250.00", "to": "180.00"},
        ],
    }  # fmt: skip


def backlog() -> dict[str, Any]:
    """Clears without the lot, never with it."""
    waiting = {"units": 140.0, "hours": 28.0}
    after = {"p10": 30.0, "p50": 31.0, "p90": 33.0}
    return {
        "before": waiting | {"weeks_to_clear": 1.9, "clears_on": "2026-07-15", "grows_hours_per_week": None},
        "after": waiting | {"weeks_to_clear": None, "clears_on": None, "grows_hours_per_week": 1.5},
        "extra_weeks": None, "peak_hours": 33.0,
        "weekly": [{"week": week, "hours_before": 28.0 - week, "hours_after": after} for week in range(5)],
    }  # fmt: skip
