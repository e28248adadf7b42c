"""What must the seller check before bidding?  The lot's own cautions first, then what is always said."""

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import numpy as np

from models.appraisal.day_cautions import day_cautions
from models.appraisal.draw import Drawn
from models.appraisal.goods import goods_of_lot
from models.appraisal.judge import Decision
from models.appraisal.lines_words import listed_too_late, priced_as_tested, sold_before, unknown_condition
from models.appraisal.looked_up_words import looked_up_cautions
from models.appraisal.pace_words import pace_cautions
from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.appraisal.rival_words import rivals_caution
from models.appraisal.setting_cautions import as_far_as_learned, few_sales_caution, unheard_categories
from models.decide.costs import selling_costs
from models.estimate.price_model import BULK_OFFSET, UNKNOWN_BULK
from models.values.cautions import STANDING_CAUTIONS
from models.values.conditions import UNKNOWN, Condition, code_of
from models.values.fields import Unit
from models.values.problems import Caution
from models.values.setting_names import heading
from models.values.settings import REGISTRY

MOST_LEFTOVER = 0.15  # of expected cash
MOST_SORTING_WEEKS = 2.0  # of listing hours
ALL_LEFTOVER = 0.995  # of it; postage and fees of what sells can leave less than the leftovers alone bring
LEFTOVER = "selling.leftover_share"
MOST_BLANK = 0.5  # of sold rows; above it a column teaches little


def lot_cautions(question: Question, lot: Prepared, drawn: Drawn, decision: Decision) -> list[dict[str, Any]]:
    """All cautions in the contract's form; `line` only where one line is meant."""
    of_lines = sorted(lot.prices.cautions, key=lambda one: (one.line is not None, one.line or 0))
    asked = looked_up_cautions(lot.doubts, lot.lines, question.held.settings.currency)
    told = (
        *(replace(one, line=None) for one in asked),  # of the whole lot: one slip would move its ceiling
        *few_sales_caution(lot),
        *_of_rivals(question, lot, decision),
        *question.cautions,
        *_of_settings(question),
        *pace_cautions(lot.pace, question.held),
        *unheard_categories(question, lot),
        *of_lines,
        *lot.tempo.cautions,
        *_of_history(lot),
        *day_cautions(question, lot.known_until),
        *_of_lot(lot, question.held.settings.lot.dead_untested_share),
        *_of_sorting(question, drawn),
        *_of_leftover(question, drawn, decision),
    )
    return [*map(_told, told), *goods_of_lot(question, lot), *map(_told, STANDING_CAUTIONS)]


def _told(caution: Caution) -> dict[str, Any]:
    line = {} if caution.line is None else {"line": caution.line}
    return line | {"what": caution.what, "check": caution.check}


def _of_rivals(question: Question, lot: Prepared, decision: Decision) -> Iterator[Caution]:
    """Only a lot that may be bid for can be won."""
    if decision.at_ceiling is not None:
        settings = question.held.settings
        loss, shaded = decision.at_ceiling.chance_of_cash_loss, 1.0 - decision.shade
        told = rivals_caution(settings.rivals_count, settings.buying.bidding, loss, shaded)
        yield as_far_as_learned(told, lot)


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
            f"The currency is {currency}: no usual amounts are known in it, so these count as 0: "
            f"{'; '.join(map(heading, silent))}.",
            f"Give your own {'amount' if len(silent) == 1 else 'amounts'} where it is not 0; the ceiling is too high "
            "without.",
        )


def _of_lot(lot: Prepared, dead_untested_share: float) -> Iterator[Caution]:
    total = len(lot.lines)
    unknown = int((lot.lines.condition == UNKNOWN).sum())
    if unknown:
        yield unknown_condition(unknown, total)
    untested = lot.lines.condition == code_of(Condition.UNTESTED)
    if untested.any():
        yield priced_as_tested(int(untested.sum()), total, dead_untested_share, lot.untested.sales, lot.untested.share)
    late = int((lot.times.window <= 0).sum())
    if late:
        yield listed_too_late(late, total)
    known, untold = lot.own >= 0, lot.lines.condition == UNKNOWN
    other = known & (lot.prices.basis != "own_item") & ~untested
    yield sold_before(int(known.sum()), total, int(np.sum(other & ~untold)), int(np.sum(other & untold)))


def _of_sorting(question: Question, drawn: Drawn) -> Iterator[Caution]:
    """The backlog counts listing hours alone; a truckload takes weeks before anything can be listed."""
    weekly = question.held.settings.backlog.hours_per_week
    hours = float(drawn.components.minutes_sorting.mean()) / 60
    if weekly > 0 and hours > MOST_SORTING_WEEKS * weekly:
        yield Caution(
            f"Unloading, sorting and testing this lot takes about {hours:,.0f} hours, as much as {hours / weekly:,.0f}"
            f" of your weeks of listing ({weekly:g} hours each). The backlog counts listing hours alone.",
            "Be sure who does that work, where it lies meanwhile, and that you can still list.",
        )


def _of_leftover(question: Question, drawn: Drawn, decision: Decision) -> Iterator[Caution]:
    """How much of the money would come from goods that are not sold in time: an assumed share of their price."""
    total = drawn.components
    costs = selling_costs(question.held.settings, total.rows)
    share = total.leftover_share(costs)
    price_part = decision.shade * float((costs.net_share * share) @ total.leftover_worth.mean(axis=1))
    worth = price_part - float((costs.order_costs * share) @ total.leftover_units.mean(axis=1))
    cash = float(decision.draws.cash.mean())
    if cash > 0 and worth > MOST_LEFTOVER * cash:
        part = f"About {worth / cash:.0%}" if worth < ALL_LEFTOVER * cash else "All"
        yield Caution(
            f"{part} of what this lot may bring is leftover value of units that are not listed or do not sell in"
            " time: an assumed share of their price.",
            f"Be sure that you can get rid of them at that, or lower this setting: {heading(LEFTOVER)}.",
        )


_BLANK = {
    "condition": ("the condition", "how much less used goods fetch is then assumed, not learned"),
    "category": ("the category", "goods of different kinds are then judged alike"),
    "sold_on": ("the day of sale", "how the market moves is then not seen"),
}  # tags are told of by the prices themselves


def _of_history(lot: Prepared) -> Iterator[Caution]:
    for column, (name, meaning) in _BLANK.items():
        share = lot.blanks[column]
        if share > MOST_BLANK:
            yield Caution(
                f"{share:.0%} of your sold rows leave {name} blank: {meaning}.",
                f"Add {name} to your sold history and learn again, or bid lower.",
            )
    yield from _of_sourcing(lot.blanks.get("sourced", 0.0))


def _of_sourcing(silent: float) -> Iterator[Caution]:
    """Goods of a lot fetch less than hand-picked ones; a history that does not tell them apart is part of each."""
    if silent > MOST_BLANK:
        cut = 1.0 - np.exp(BULK_OFFSET * (1.0 - UNKNOWN_BULK))
        yield Caution(
            f"{silent:.0%} of your sold rows do not say whether they came from bulk lots or were picked one by one."
            f" Picked goods fetch more, so prices here are cut by about {cut:.0%} to be careful.",
            "If most of what you sell comes from such lots, say so under the columns of your sold history and learn"
            " again.",
        )
