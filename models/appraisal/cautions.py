"""What must the seller check before bidding?  The lot's own cautions first, then what is always said."""

import datetime as dt
from collections.abc import Iterator
from typing import Any

import numpy as np

from models.appraisal.draw import Drawn
from models.appraisal.goods import goods_of_lot
from models.appraisal.judge import Decision
from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.appraisal.rival_words import rivals_caution
from models.decide.costs import selling_costs
from models.values.cautions import STANDING_CAUTIONS
from models.values.conditions import UNKNOWN
from models.values.fields import Unit
from models.values.problems import Caution
from models.values.settings import REGISTRY

MOST_LEFTOVER = 0.15  # of expected cash
MOST_BLANK = 0.5  # of sold rows; above it a column teaches little
OLD_DAYS = 60  # a history that ended so long ago is told as old


def lot_cautions(question: Question, lot: Prepared, drawn: Drawn, decision: Decision) -> list[dict[str, Any]]:
    """All cautions in the contract's form; `line` only where one line is meant."""
    of_lines = sorted(lot.prices.cautions, key=lambda one: (one.line is not None, one.line or 0))
    told = (
        *_of_rivals(question, decision),
        *question.cautions,
        *_of_settings(question),
        *of_lines,
        *lot.tempo.cautions,
        *_of_history(lot),
        *_of_days(question, lot.known_until),
        *_of_lot(lot),
        *_of_leftover(question, drawn, decision),
    )
    return [*map(_told, told), *goods_of_lot(question, lot), *map(_told, STANDING_CAUTIONS)]


def _told(caution: Caution) -> dict[str, Any]:
    line = {} if caution.line is None else {"line": caution.line}
    return line | {"what": caution.what, "check": caution.check}


def _of_rivals(question: Question, decision: Decision) -> Iterator[Caution]:
    """Only a lot that may be bid for can be won."""
    if decision.at_ceiling is not None:
        settings = question.held.settings
        yield rivals_caution(settings.rivals_count, settings.buying.bidding, decision.at_ceiling.chance_of_cash_loss)


def _of_settings(question: Question) -> Iterator[Caution]:
    held = question.held
    currency = held.settings.currency
    silent = [
        key
        for key, declared in REGISTRY.items()
        if declared.unit is Unit.MONEY and declared.default is not None and held.origins[key] == "assumed"
    ]
    if currency != "USD" and silent:
        yield Caution(
            f"The currency is {currency}: no usual amounts are known in it, so these count as 0: {', '.join(silent)}.",
            "Give your own freight, fees, packing, postage and hourly pay; the ceiling is too high without them.",
        )


def _of_lot(lot: Prepared) -> Iterator[Caution]:
    unknown = int((lot.lines.condition == UNKNOWN).sum())
    if unknown:
        yield Caution(
            f"Without a condition that we know: {unknown} of {len(lot.lines)} lines. They count as untested goods.",
            "Look at the photos, or ask the seller what condition these lines are in.",
        )
    late = int((lot.times.window <= 0).sum())
    if late:
        yield Caution(
            f"{late} of {len(lot.lines)} lines would be listed after the horizon ends: they count as left over.",
            "Check your listing hours and what already waits.",
        )
    own = int(np.sum(lot.prices.basis == "own_item"))
    yield Caution(
        f"{own} of {len(lot.lines)} lines are items you have sold before; the others rest on goods like them.",
        "Look up sold prices of the dearest lines you have never sold.",
    )


def _of_leftover(question: Question, drawn: Drawn, decision: Decision) -> Iterator[Caution]:
    """How much of the money would come from goods that are not sold in time: an assumed share of their price."""
    total = drawn.components
    costs = selling_costs(question.held.settings, total.rows)
    leftover = costs.net_share * costs.leftover_share
    worth = float((leftover @ total.leftover_worth).mean()) * decision.shade
    cash = float(decision.draws.cash.mean())
    if cash > 0 and worth > MOST_LEFTOVER * cash:
        yield Caution(
            f"About {worth / cash:.0%} of what this lot may bring is leftover value of units that are not listed or"
            " do not sell in time: an assumed share of their price.",
            "Be sure that you can get rid of them at that, or set selling.leftover_share lower.",
        )


_BLANK = {
    "condition": "how much less used goods fetch is then assumed, not learned",
    "category": "goods of different kinds are then judged alike",
    "sold_on": "how the market moves is then not seen",
}  # tags are told of by the prices themselves


def _of_history(lot: Prepared) -> Iterator[Caution]:
    for column, meaning in _BLANK.items():
        share = lot.blanks[column]
        if share > MOST_BLANK:
            yield Caution(
                f"{share:.0%} of your sold rows leave {column} blank: {meaning}.",
                f"Add {column} to your sold history and learn again, or bid lower.",
            )


def _of_days(question: Question, known_until: dt.date) -> Iterator[Caution]:
    """Days that do not fit together: a history too old or too new, a close or an arrival in the past."""
    terms, as_of = question.held.settings.lot, question.as_of
    old = (as_of - known_until).days
    if old > OLD_DAYS:
        yield Caution(
            f"Your sold history ends on {known_until.isoformat()}, {old} days before this answer; prices may move.",
            "Upload your newer sales and learn again.",
        )
    if old < 0:
        yield Caution(
            f"This answer is for {as_of.isoformat()}, but rests on sales up to {known_until.isoformat()}.",
            "Check the day you asked for.",
        )
    if terms.closes_at is not None and terms.closes_at.date() < as_of - dt.timedelta(days=1):
        yield Caution(
            f"Bidding is given as ended on {terms.closes_at.date().isoformat()}, before this answer's day.",
            "Check the closing time.",
        )
    if terms.arrives_on is not None and terms.arrives_on < as_of:
        yield Caution(
            f"The arrival is given as {terms.arrives_on.isoformat()}, before this answer's day; it counts as today.",
            "Check the day of arrival.",
        )
