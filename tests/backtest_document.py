"""A backtest as a document, with what a test wants otherwise."""

from typing import Any


def backtest_document(**changed: Any) -> dict[str, Any]:
    """Sixteen lots bought in bulk, 2% too low in money, ranges as stated."""
    money = {"told": "36737.30", "happened": "37256.27", "ratio": 0.9861}
    coverage = [
        {"stated": 0.5, "happened": 0.4375, "lots": 16, "low": 0.231, "high": 0.6682},
        {"stated": 0.8, "happened": 0.875, "lots": 16, "low": 0.6398, "high": 0.965},
        {"stated": 0.9, "happened": 0.9375, "lots": 16, "low": 0.7167, "high": 0.9889},
        {"stated": 0.95, "happened": 1.0, "lots": 16, "low": 0.8064, "high": 1.0},
    ]
    found = {
        "as_of": "2026-07-01", "known_until": "2026-06-30", "currency": "USD", "sales": {"dated": 5992, "undated": 0},
        "enough": True, "goods": "bulk", "money": money,
        "tested": {"lots": 16, "named": 16, "sales": 1761, "units": 1773},
        "lot_error": {"median": 0.1514, "mean": 0.1491}, "ln_price_rmse": 0.3221, "coverage": coverage,
        "not_judged": {"lots": 1},
        "baselines": [
            {
                "name": "share_of_tag", "money": {"told": "41215.15", "happened": "37256.27", "ratio": 1.1063},
                "lot_error": {"median": 0.1501, "mean": 0.1792}, "ln_price_rmse": 0.5722,
                "nearer": {"by": -0.0301, "standard_error": 0.021},
            },
            {
                "name": "category_brand_medians", "ln_price_rmse": 0.6351,
                "money": {"told": "38480.80", "happened": "37256.27", "ratio": 1.0329},
                "lot_error": {"median": 0.1633, "mean": 0.1833}, "nearer": {"by": -0.0342, "standard_error": 0.03},
            },
        ],
        "other_goods": None,
        "time": {
            "within": [
                {"days": 30, "units": 4381, "told": 0.4136, "happened": 0.4296},
                {"days": 90, "units": 4049, "told": 0.7106, "happened": 0.7145},
            ],
            "half_sold_days": {"told": 42.0, "happened": 41.0},
            "later_sales": {"days": 30, "sales": 4000, "change": -0.0121, "low": -0.0182, "high": -0.006},
            "takings": {"days": 90, "told": "77046.46", "happened": "78760.57", "ratio": 0.9782},
        },
        "minutes": {
            "listings": 1399, "hours": {"told": 267.3, "happened": 265.66}, "ratio": 1.0062,
            "lot_error": {"median": 0.0794, "lots": 58},
        },
        "cut_offs": [
            {
                "day": "2025-01-22", "sales_known": 2926, "lots": 1, "sales": 110,
                "money": {"told": "2082.67", "happened": "2966.40", "ratio": 0.7021},
                "lot_error": {"median": 0.2979, "mean": 0.2979}, "held": 0, "shift": 0.3747,
                "baselines": {"share_of_tag": 0.8082, "category_brand_medians": 0.7908},
                "time": {"days": 30, "told": 0.323, "happened": 0.4348},
            },
            {"day": "2025-02-21", "sales_known": 3122, "lots": 0},
        ],
        "lots": [
            {
                "name": "LOT-14 <b>", "cut_off": "2025-01-22", "sales": 110, "units": 110, "unsold": 0,
                "told": "2082.67", "p10": "1568.51", "p90": "2651.72", "happened": "2966.40",
            }
        ],
    }  # fmt: skip
    return found | changed


TOO_FEW = {
    "as_of": "2026-07-01", "known_until": "2026-06-30", "currency": "USD", "sales": {"dated": 31, "undated": 4},
    "enough": False, "why": "31 sales say when they sold; with fewer than 60 nothing can be told.",
}  # fmt: skip


def beaten_document(surely: bool = False, both: bool = False) -> dict[str, Any]:
    """A fixed share of the tag was nearer, or both simple ways."""
    share, medians = backtest_document()["baselines"]
    by = {"by": 0.03, "standard_error": 0.01 if surely else 0.02}
    return backtest_document(baselines=[share | {"nearer": by}, medians | ({"nearer": by} if both else {})])
