"""How honest would it have been on the seller's own history?  Cut-off after cut-off: fit, forecast, compare.

Nothing is drawn and no clock is read: the same history and day give the same figures.
"""

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from models.appraisal.backtest.baselines import BASELINES, SHARE_OF_TAG, Method
from models.appraisal.backtest.cut_offs import cut_off_days
from models.appraisal.backtest.dated import Dated, dated
from models.appraisal.backtest.document import document
from models.appraisal.backtest.forecast import forecast, known_then, window
from models.appraisal.backtest.outcome import Compared, Tested, joined, listings, others_told, tested_lots
from models.appraisal.backtest.own_lots import OwnLot, own_lots
from models.appraisal.backtest.walked import Walked
from models.estimate.tags import believable
from models.values.given import Given
from models.values.sales import Sales

Progress = Callable[[float, str], None]
MOST_CUT_OFFS = 26


@dataclass(frozen=True)
class Asked:
    """`given` are the seller's settings; `others` are ways of pricing to compare with, beside the simple ones."""

    as_of: dt.date
    currency: str
    given: Given = field(default_factory=dict)
    most_cut_offs: int = MOST_CUT_OFFS
    others: Mapping[str, Method] = field(default_factory=dict)


def backtest(sales: Sales, asked: Asked, progress: Progress) -> dict[str, Any]:
    """The whole walk as a document; where too little is known it says so and holds no figures."""
    walked = walk(dated(sales, asked.as_of), asked, progress)
    return document(walked, asked.as_of, asked.currency)


def walk(history: Dated, asked: Asked, progress: Progress) -> Walked:
    """Every cut-off's lots and listings, told and happened."""
    days = cut_off_days(history, asked.most_cut_offs)
    by_day = own_lots(history, days)
    begins = np.cumsum([0, *(len(lots) for lots in by_day)]).tolist()
    tested: list[Tested] = []
    rows = []
    for number, lots in enumerate(by_day):
        progress(number / len(days), f"day {number + 1} of {len(days)}, as of {days[number]}")
        if lots:  # else nothing is asked, so nothing need be learned
            one = compared(history, number, days[number], lots, asked)
            tested += tested_lots(one)
            rows.append(listings(one, begins[number]))
    sold_on = np.sort(history.sales.sold_on[history.sold])
    known = np.searchsorted(sold_on, days, side="right").tolist()
    return Walked(history, days, tuple(known), tuple(tested), joined(rows) if rows else None)


def _ways(history: Dated, asked: Asked) -> Mapping[str, Method]:
    """Ways of pricing to compare with; a share of the tag only where there are tags."""
    tagged = bool(believable(history.sales.tag_each, asked.currency).any())
    simple = {name: way for name, way in BASELINES.items() if tagged or name != SHARE_OF_TAG}
    return {**simple, **asked.others}


def compared(history: Dated, number: int, day: np.datetime64, lots: Sequence[OwnLot], asked: Asked) -> Compared:
    """One cut-off: what was known goes in, what is forecast comes out, then the two are laid side by side."""
    known, question = known_then(history, day), window(history, day, lots)
    told = forecast(known, question, asked.currency, asked.given)
    others = others_told(known, question, told, _ways(history, asked), asked.currency)
    return Compared(number, history, lots, question, told, others)
