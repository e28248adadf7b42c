"""What does the lot bring in each draw?  Slice by slice, so that memory does not grow with the manifest."""

import math
from dataclasses import dataclass, fields, replace

import numpy as np

from models.appraisal.model import Model
from models.appraisal.prepare import Prepared
from models.appraisal.question import Progress, Question
from models.decide.actions import Action
from models.decide.arrivals import BadShares, arrived_units, bad_shares, fates
from models.decide.components import Components
from models.decide.costs import SellingCosts, lot_rows, selling_costs
from models.decide.discount import discount
from models.decide.proceeds import LineFacts, LineValues, Reading, SliceDraws, value_slice
from models.decide.rivals import shade_factor
from models.decide.weekly_cash import WeeklyCash, WeeklySums, weekly_cash
from models.estimate.effort import item_numbers
from models.estimate.effort_draws import declared_factor_draws, listing_factor_draws, listing_spread
from models.estimate.effort_model import KINDS
from models.estimate.price_draws import SharedDraws, line_price_draws, shared_draws
from models.estimate.products import item_name
from models.estimate.tempo_draws import product_slices, sale_draws
from models.values.arrays import FloatArray, IntArray, texts
from models.values.in_force import InForce
from models.values.settings import Settings
from models.values.streams import DRAWS

SLICE_LINES = 16  # 1 MB for each array of draws, some fifty of them at a time: larger ones take a quarter longer


@dataclass(frozen=True)
class Drawn:
    """Sums per draw, and every line's expected values in the order of `Prepared`."""

    components: Components
    weekly: WeeklyCash
    lines: LineValues
    share_sold: FloatArray  # (n,), expected share of the quantity sold within the horizon; if listed, where it is not


@dataclass(frozen=True)
class _Shared:
    """What every slice reads alike."""

    prices: SharedDraws
    bad: BadShares
    facts: LineFacts  # of all lines
    reading: Reading
    cost_of_cash: float
    weekly: WeeklySums  # of the slices so far


def draw_lot(lot: Prepared, question: Question, model: Model, progress: Progress) -> Drawn:
    """Draw every line and add the slices up."""
    settings, seed = question.held.settings, question.seed
    rows, row = lot_rows(settings, lot.cost_category, fates(lot.lines.condition))
    shared = _Shared(
        shared_draws(lot.prices, seed),
        bad_shares(settings.lot, seed, lot.prices.lot_key),
        _facts(lot, row),
        _reading(lot, settings, selling_costs(settings, rows), seed),
        settings.goals.yearly_cost_of_cash,
        WeeklySums.none(math.ceil(settings.goals.horizon_weeks), DRAWS, _shade(lot, settings)),
    )
    total: Components | None = None
    done, parts, shares = [], [], []
    for index in product_slices(lot.matched, SLICE_LINES):
        components, part, share = _value(lot, shared, index)
        total = components if total is None else total + components
        done.append(index)
        parts.append(part)
        shares.append(share)
        progress(sum(map(len, done)) / len(lot.lines), "drawing what the lot may bring")
    if total is None:
        raise ValueError("a lot has at least one line")
    place = np.argsort(np.concatenate(done))
    weekly = weekly_cash(shared.weekly, total, selling_costs(settings, total.rows), shared.reading.leftover_discount)
    paced = _with_pace(total, lot, question.held, model, seed)
    return Drawn(paced, weekly, _joined(parts, place), np.concatenate(shares)[place])


def _facts(lot: Prepared, row: IntArray) -> LineFacts:
    lines, minutes = lot.lines, lot.minutes
    named = zip(lot.matched.name, lines.condition.tolist(), lines.assorted.tolist(), strict=True)
    mixed_goods = f"\x1fassorted\x1f{lot.prices.lot_key}"  # of one name, yet other goods in every lot
    return LineFacts(
        quantity=lines.quantity,
        item=item_numbers(lines, lot.matched, lines.assorted),
        name=texts([item_name(name, code) + (mixed_goods if mixed else "") for name, code, mixed in named]),
        row=row,
        never=lot.never,
        chosen=lot.chosen,
        minutes=np.stack([minutes.listing_first, minutes.listing_repeat, minutes.listing_used], axis=1),
        pack_minutes=np.stack([minutes.first, minutes.in_pack], axis=1),
    )


def _reading(lot: Prepared, settings: Settings, costs: SellingCosts, seed: int) -> Reading:
    effort, goals = settings.effort, settings.goals
    at_horizon = discount(np.array(lot.times.ends - lot.times.paid), goals.yearly_cost_of_cash)
    return Reading(costs, goals.hourly_pay, effort.minutes_sort, effort.minutes_pack, float(at_horizon), seed)


def _value(lot: Prepared, shared: _Shared, index: IntArray) -> tuple[Components, LineValues, FloatArray]:
    lines, seed = lot.lines, shared.reading.seed
    arrived = arrived_units(lines.quantity[index], lines.condition[index], lot.keys[index], shared.bad, seed)
    sales = sale_draws(lot.tempo, index, arrived.saleable, lot.times.window[index], seed)
    after_payment = lot.times.listed[index][:, None] - lot.times.paid + sales.mean_day
    draws = SliceDraws(
        facts=shared.facts.take(index),
        price=line_price_draws(lot.prices, shared.prices, index, seed),
        saleable=arrived.saleable,
        dead=arrived.dead,
        sold=sales.units,
        demand=sales.demand,
        discount=discount(after_payment, shared.cost_of_cash),
        day=after_payment,
        days=sales.days,
    )
    value = value_slice(draws, shared.reading)
    shared.weekly.add(value.grains, value.row, draws, shared.reading.costs)
    packed = value.lines.action == Action.BUNDLE
    sold = np.where(packed, value.lines.units_sold, sales.units.mean(axis=1))
    return value.components, value.lines, sold / lines.quantity[index]


def _shade(lot: Prepared, settings: Settings) -> float:
    buying = settings.buying
    return shade_factor(settings.rivals_count, buying.common_share, lot.prices.judgement_sd, buying.bidding)


def _with_pace(total: Components, lot: Prepared, held: InForce, model: Model, seed: int) -> Components:
    """How fast the seller works, drawn once for all lines; minutes that the seller gave are certain."""
    given = [name for name in (*KINDS, "minutes_sort", "minutes_pack") if held.origins[f"effort.{name}"] == "yours"]
    spread = listing_spread(lot.lines, lot.minutes, model.effort, given)
    first, repeat, used = listing_factor_draws(spread, lot.prices.lot_key, seed)
    sorting = 1.0 if "minutes_sort" in given else declared_factor_draws("sorting", seed)
    packing = 1.0 if "minutes_pack" in given else declared_factor_draws("packing", seed)
    return replace(
        total,
        minutes_sorting=total.minutes_sorting * sorting,
        listing_first=total.listing_first * first,
        listing_repeat=total.listing_repeat * repeat,
        listing_used=total.listing_used * used,
        minutes_packing=total.minutes_packing * packing,
    )


def _joined(parts: list[LineValues], place: IntArray) -> LineValues:
    return LineValues(
        **{
            field.name: np.concatenate([getattr(part, field.name) for part in parts])[place]
            for field in fields(LineValues)
        }
    )
