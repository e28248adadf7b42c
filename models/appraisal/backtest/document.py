"""What does a backtest say as JSON?  Money as decimal strings, shares 0 to 1, days and hours as numbers.

`told` is always what was said on the cut-off, `happened` what came; `ratio` is told / happened.
  as_of, known_until, currency, sales {dated, undated, listed: rows with a day of listing}
  enough, why          false: nothing can be told, `why` says so, and nothing else follows
  goods                bulk: judged on goods bought in bulk alone; all: on everything, for those were too few
  tested {lots, named, sales, units}   not_judged {lots}
  money {told, happened, ratio}   lot_error {median, mean} of |ratio - 1|   ln_price_rmse of single sales
  coverage [{stated, happened, lots, low, high}]   share of lots inside the central range, with Wilson's 95% range
  baselines [{name, money, lot_error, ln_price_rmse, nearer {by, standard_error}}]   the same of simpler ways, on the
            same lots; `by` how much less they were off on the average lot: above 0 they were nearer
  other_goods          the same of what is not `goods`, grouped by fortnight and category; null where that is too little
  time {later_sales {days, sales, change, low, high}: by what share goods of a lot that sell so much later fetch more,
        within [{days, units, told, happened}], half_sold_days {told, happened}, takings {days, money}}   null: untold
  time_why             why time to sell is not judged although days of listing are known; null: it is, or they are not
  minutes {listings, hours {told, happened}, ratio, lot_error {median, lots}}   null: nobody timed a listing
  cut_offs [{day, sales_known, lots, sales, money, lot_error, held (lots inside their 80% range), shift (mean ln
            happened / median told), baselines {name: ratio}, time {days, told, happened}}]   no lots: three keys
  lots [{name, cut_off, sales, units, unsold, told, p10, p90, happened}]   every one that was judged
"""

import datetime as dt
from collections.abc import Sequence
from typing import Any

import numpy as np

from models.appraisal.backtest.cut_offs import FEWEST_SALES
from models.appraisal.backtest.outcome import Tested
from models.appraisal.backtest.own_lots import Goods
from models.appraisal.backtest.score import (
    LATER_DAYS,
    STATED,
    TAKINGS_DAYS,
    Errors,
    Held,
    LaterSales,
    Minutes,
    Money,
    Timing,
    ends,
    errors,
    held,
    is_inside,
    minutes,
    nearer_by,
    shift,
    timing,
)
from models.appraisal.backtest.walked import FEWEST_LOTS, Walked, chief
from models.estimate.tempo_declared import FEWEST_UNITS
from models.values.money import written

RANGE = 0.8


def document(walked: Walked, as_of: dt.date, currency: str) -> dict[str, Any]:
    """The whole, or why there is nothing to tell."""
    history = walked.history
    sales = {"dated": int(history.sold.sum()), "undated": history.undated, "listed": int(history.is_listed.sum())}
    head = {"as_of": as_of.isoformat(), "known_until": str(history.end), "currency": currency, "sales": sales}
    why = _why_not(walked)
    if why or walked.listings is None:
        return {**head, "enough": False, "why": why}
    lots = chief(walked.judged)
    rest = [lot for lot in walked.judged if lot.goods is not Goods.BULK] if len(lots) < len(walked.judged) else []
    goods = "bulk" if all(lot.goods is Goods.BULK for lot in lots) else "all"
    asked = sum(lot.goods is Goods.BULK or goods == "all" for lot in walked.lots)
    time_why = _time_why(walked)
    timed, worked = None if time_why else timing(walked.listings), minutes(walked.listings)
    return {
        **head,
        "enough": True,
        **_scores(lots, goods, currency),
        "not_judged": {"lots": asked - len(lots)},
        "baselines": [_baseline(lots, name, currency) for name in lots[0].others],
        "other_goods": _scores(rest, "not_bulk", currency) if len(rest) >= FEWEST_LOTS else None,
        "time": _timing(timed, currency) if timed else None,
        "time_why": time_why,
        "minutes": _minutes(worked) if worked else None,
        "cut_offs": [_cut_off(walked, number, lots, currency) for number in range(len(walked.days))],
        "lots": [_lot(lot, walked, currency) for lot in lots],
    }


def _why_not(walked: Walked) -> str | None:
    sold = int(walked.history.sold.sum())
    if sold < FEWEST_SALES:
        told = "1 sale says when it sold" if sold == 1 else f"{sold} sales say when they sold"
        return f"{told}; with fewer than {FEWEST_SALES} nothing can be told."
    judged = len(walked.judged)
    if judged < FEWEST_LOTS:
        known = walked.sales_known[0] if walked.sales_known else sold
        count = {0: "no lot or fortnight", 1: "only one lot or fortnight"}.get(
            judged, f"only {judged} lots or fortnights"
        )
        return (
            f"After the first {known} sales {count} of listings can be judged, most of it sold; with fewer than"
            f" {FEWEST_LOTS} nothing can be told."
        )
    return None


def _time_why(walked: Walked) -> str | None:
    """On the sold rows alone every cut-off would be tested on what sold in the end, with a pace that is not in use."""
    unsold = walked.unsold_units
    if unsold >= FEWEST_UNITS:
        return None
    few = f"only {unsold} unsold units" if unsold > 1 else "only one unsold unit" if unsold else "sold listings only"
    return (
        f"Your history holds {few}: what did not sell is missing, so how soon things sell comes from your settings and"
        " cannot be tested."
    )


def _scores(lots: Sequence[Tested], goods: str, currency: str) -> dict[str, Any]:
    return {
        "goods": goods,
        "tested": {
            "lots": len(lots),
            "named": sum(one.is_named for one in lots),
            "sales": sum(one.sales for one in lots),
            "units": sum(one.units for one in lots),
        },
        **_errors(errors(lots), currency),
        "coverage": [_held(held(lots, stated)) for stated in STATED],
    }


def _errors(one: Errors, currency: str) -> dict[str, Any]:
    return {
        "money": _money(one.money, currency),
        "lot_error": {"median": round(one.median, 4), "mean": round(one.mean, 4)},
        "ln_price_rmse": round(one.ln_price_rmse, 4),
    }


def _baseline(lots: Sequence[Tested], name: str, currency: str) -> dict[str, Any]:
    by, error = nearer_by(lots, name)
    nearer = {"by": round(by, 4), "standard_error": round(error, 4)}
    return {"name": name, **_errors(errors(lots, name), currency), "nearer": nearer}


def _money(one: Money, currency: str) -> dict[str, Any]:
    told, happened = written(one.told, currency), written(one.happened, currency)
    return {"told": told, "happened": happened, "ratio": round(one.ratio, 4)}


def _held(one: Held) -> dict[str, Any]:
    low, high = one.by_luck
    return {
        "stated": one.stated,
        "happened": round(one.share, 4),
        "lots": one.lots,
        "low": round(low, 4),
        "high": round(high, 4),
    }


def _timing(one: Timing, currency: str) -> dict[str, Any]:
    return {
        "within": [
            {"days": of.days, "units": int(of.units), "told": round(of.told, 4), "happened": round(of.happened, 4)}
            for of in one.within
        ],
        "half_sold_days": {"told": _rounded(one.half_told), "happened": _rounded(one.half_happened)},
        "later_sales": None if one.later is None else _later(one.later),
        "takings": None if one.takings is None else {"days": TAKINGS_DAYS, **_money(one.takings, currency)},
    }


def _later(one: LaterSales) -> dict[str, Any]:
    shares = {"change": round(one.change, 4), "low": round(one.low, 4), "high": round(one.high, 4)}
    return {"days": LATER_DAYS, "sales": one.sales, **shares}


def _minutes(one: Minutes) -> dict[str, Any]:
    return {
        "listings": one.rows,
        "hours": {"told": round(one.hours.told / 60, 2), "happened": round(one.hours.happened / 60, 2)},
        "ratio": round(one.hours.ratio, 4),
        "lot_error": {"median": None if one.median is None else round(one.median, 4), "lots": one.lots},
    }


def _cut_off(walked: Walked, number: int, chief_lots: Sequence[Tested], currency: str) -> dict[str, Any]:
    """One day; without a lot to judge its figures are absent."""
    lots = [lot for lot in chief_lots if lot.cut_off == number]
    head = {"day": str(walked.days[number]), "sales_known": walked.sales_known[number], "lots": len(lots)}
    if not lots:
        return head
    told = errors(lots)
    return {
        **head,
        "sales": sum(lot.sales for lot in lots),
        "money": _money(told.money, currency),
        "lot_error": {"median": round(told.median, 4), "mean": round(told.mean, 4)},
        "held": sum(is_inside(lot, RANGE) for lot in lots),
        "shift": round(shift(lots), 4),
        "baselines": {name: round(errors(lots, name).money.ratio, 4) for name in lots[0].others},
        "time": _of_day(walked, number),
    }


def _of_day(walked: Walked, number: int) -> dict[str, Any] | None:
    """Share sold within 30 days of what was listed next."""
    assert walked.listings is not None  # noqa: S101
    if _time_why(walked):
        return None
    timed = timing(walked.listings.take(np.asarray(walked.listings.cut_off == number)))
    if timed is None:
        return None
    first = timed.within[0]
    return {"days": first.days, "told": round(first.told, 4), "happened": round(first.happened, 4)}


def _lot(lot: Tested, walked: Walked, currency: str) -> dict[str, Any]:
    low, high = ends(lot, RANGE)
    return {
        "name": lot.name,
        "cut_off": str(walked.days[lot.cut_off]),
        "sales": lot.sales,
        "units": lot.units,
        "unsold": lot.units_listed - lot.units,
        "told": written(lot.ours.total, currency),
        "p10": written(low, currency),
        "p90": written(high, currency),
        "happened": written(lot.happened, currency),
    }


def _rounded(days: float | None) -> float | None:
    return None if days is None else round(days, 1)
