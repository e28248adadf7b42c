"""What is known of every line before anything is drawn?  Products first, then prices, pace, minutes and the queue.

Lines are put into an order of their own content first, so that the order of the file changes nothing, to the last bit.
"""

import datetime as dt
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from models.appraisal.model import Model
from models.appraisal.question import Question
from models.appraisal.timeline import Timeline, Worth, paid_on, timeline
from models.decide.actions import NOT_CHOSEN, Action
from models.decide.never import never_lines
from models.estimate.effort import LineMinutes, line_minutes
from models.estimate.looked_up import with_looked_up
from models.estimate.looked_up_doubt import PriceDoubt, believed, doubted
from models.estimate.lot_as_sold import as_sold, own_product
from models.estimate.lot_joint import LotPrices
from models.estimate.lot_prices import price_lot
from models.estimate.pace import Pace
from models.estimate.products import Matched, item_name, match
from models.estimate.sold_untested import SoldUntested, sold_untested
from models.estimate.tempo import LotTempo, days_to_sell, in_season, pace_lot
from models.estimate.tempo_lot import of_one_lot
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, day, texts
from models.values.lines import Lines
from models.values.settings import Settings

NEVER_DAYS = 3650.0  # a median later than ten years is told as never


@dataclass(frozen=True)
class Prepared:
    """A lot's lines in content order, with everything that does not need draws."""

    order: IntArray  # (n,), the manifest's position of each line here
    lines: Lines
    keys: TextArray  # (n,), what a line is; repeated lines numbered apart
    matched: Matched
    own: IntArray  # (n,), the product where it was sold before, -1 where not
    own_sales: IntArray  # (n,), sold rows of that product in any condition
    cost_category: TextArray  # (n,), whose selling costs a line has: its own, where it is blank its product's
    prices: LotPrices
    untested: SoldUntested  # what own sales as untested fetched
    doubts: tuple[PriceDoubt, ...]  # of what the seller looked up
    tempo: LotTempo
    days_to_sell: FloatArray  # (n,), from listing, NaN for never
    minutes: LineMinutes
    times: Timeline
    never: BoolArray
    chosen: IntArray  # (n,), `Action` codes of the seller's own choice, -1 where there is none
    unit_minutes: float  # mean minutes to list a unit of what waits
    pace: Pace | None  # what is listed in a usual week
    evidence: Mapping[str, float]  # timed rows and entries of the work log that minutes were learned from
    known_until: dt.date  # the end of what the history knows
    sales_used: int  # sold rows that prices were learned from
    categories: tuple[str, ...] | None  # that the history files sales under, plain paths; None: not known
    blanks: Mapping[str, float]  # share of its sold rows that leave a telling column blank


def prepare(question: Question, model: Model) -> Prepared:
    """Match, price, pace and place every line."""
    settings = question.held.settings
    order = _content_order(question)
    lines = question.lines.take(order)
    matched = match(model.book, lines.description, lines.sku, lines.gtin)
    own = own_product(lines, matched, model.prices)
    told = as_sold(lines, matched, model.prices)
    minutes = line_minutes(told, matched, model.effort, settings.effort, lines.assorted)
    unit_minutes = _unit_minutes(model, settings)
    gap = float((day(question.as_of) - model.known_until).astype(int))
    paid = paid_on(settings, question.as_of, question.zone)

    # Prices drift until the day of sale, which depends on the pace, which reads the price level: one round settles it.
    now = price_lot(lines, matched, model.prices, np.full(len(lines), gap))
    doubts = doubted(now, question.looked_up)
    looked_up = believed(question.looked_up, doubts)
    near = with_looked_up(now, now, looked_up)
    worth = Worth(matched.product, _value(near, lines), minutes.listing)
    times = timeline(settings, question.as_of, paid, worth, unit_minutes)
    tempo = of_one_lot(pace_lot(told, matched, model.tempo, settings.selling_for, near.unit_price.mean), near.lot_key)
    tempo = in_season(tempo, day(question.as_of) + times.listed.astype("timedelta64[D]"), times.window)
    selling_days = days_to_sell(tempo, NEVER_DAYS)
    asked = now if looked_up else None  # without looked-up prices a long lot need not be held twice
    del now, near
    ahead = gap + times.listed + np.minimum(np.nan_to_num(selling_days, nan=NEVER_DAYS), times.window / 2.0)
    return Prepared(
        order=order,
        lines=lines,
        keys=_keys(lines, matched),
        matched=matched,
        own=own,
        own_sales=_own_sales(own, model),
        cost_category=np.where(lines.category == "", told.category, lines.category),
        prices=_priced_ahead(price_lot(lines, matched, model.prices, ahead), asked, looked_up),
        untested=sold_untested(model.prices, model.comps),
        doubts=doubts,
        tempo=tempo,
        days_to_sell=selling_days,
        minutes=minutes,
        times=times,
        never=never_lines(lines, settings.never),
        chosen=_chosen(question, lines),
        unit_minutes=unit_minutes,
        pace=model.pace,
        evidence=model.effort.evidence,
        known_until=model.known_until.astype(dt.date),
        sales_used=model.sales_used,
        categories=model.categories,
        blanks=model.blanks,
    )


def _own_sales(own: IntArray, model: Model) -> IntArray:
    sales = model.prices.products.sales
    return np.where(own >= 0, sales[own], 0) if len(sales) else np.zeros(len(own), dtype=np.int64)


def _priced_ahead(then: LotPrices, now: LotPrices | None, looked_up: Mapping[int, Sequence[float]]) -> LotPrices:
    return then if now is None else with_looked_up(then, now, looked_up)


def _content_order(question: Question) -> IntArray:
    """Positions sorted by what the lines say and the seller said of them.

    Equal lines keep the file's order, which then changes nothing.
    """
    lines = question.lines
    columns = (lines.gtin, lines.sku, lines.description, lines.brand, lines.category, lines.condition, lines.quantity)
    tags, numbers = np.nan_to_num(lines.tag_each, nan=-1).tolist(), lines.no.tolist()
    told = [(sorted(question.looked_up.get(no, ())), question.chosen.get(no, "")) for no in numbers]
    rows = list(zip(*(column.tolist() for column in columns), tags, told, strict=True))
    return np.array(sorted(range(len(rows)), key=rows.__getitem__), dtype=np.int64)


def _chosen(question: Question, lines: Lines) -> IntArray:
    codes = {action.name.lower(): int(action) for action in Action}
    return np.array([codes.get(question.chosen.get(no, ""), NOT_CHOSEN) for no in lines.no.tolist()], dtype=np.int64)


def _keys(lines: Lines, matched: Matched) -> TextArray:
    seen: Counter[str] = Counter()
    keys = []
    for name, condition in zip(matched.name, lines.condition.tolist(), strict=True):
        item = item_name(name, condition)
        keys.append(f"{item}\x1f{seen[item]}")
        seen[item] += 1
    return texts(keys)


def _unit_minutes(model: Model, settings: Settings) -> float:
    learned = model.effort.unit_minutes
    return learned if np.isfinite(learned) else settings.effort.minutes_first


def _value(prices: LotPrices, lines: Lines) -> FloatArray:
    return np.asarray(lines.quantity * np.nan_to_num(prices.unit_price.mean))
