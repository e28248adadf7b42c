"""What does the lot bring in each draw?  Slice by slice, so that memory does not grow with the manifest."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, replace

import numpy as np

from models.appraisal.model import Model
from models.appraisal.prepare import Prepared
from models.appraisal.question import Progress, Question
from models.decide.arrivals import BadShares, arrived_units, bad_shares
from models.decide.components import Components
from models.decide.costs import SellingCosts, lot_cost_keys, selling_costs
from models.decide.discount import discount
from models.decide.proceeds import LineValues, Reading, SliceDraws, SliceValue, value_slice
from models.estimate.effort import Work, minutes_factor_draws
from models.estimate.price_draws import SharedDraws, line_price_draws, shared_draws
from models.estimate.tempo_draws import product_slices, sale_draws
from models.values.arrays import FloatArray, IntArray
from models.values.in_force import InForce
from models.values.settings import Settings

SLICE_LINES = 32  # 2 MB for each array of draws, some thirty of them at a time


@dataclass(frozen=True)
class Drawn:
    """Sums per draw, and every line's expected values in the order of `Prepared`."""

    components: Components
    costs: SellingCosts
    lines: LineValues
    share_sold: FloatArray  # (n,), expected share of the quantity sold within the horizon, if listed


@dataclass(frozen=True)
class _Shared:
    """What every slice reads alike."""

    prices: SharedDraws
    bad: BadShares
    reading: Reading
    cost_key: IntArray
    cost_of_cash: float
    seed: int


def draw_lot(lot: Prepared, question: Question, model: Model, progress: Progress) -> Drawn:
    """Draw every line and add the slices up."""
    settings, seed = question.held.settings, question.seed
    cost_keys, cost_key = lot_cost_keys(settings, lot.lines.category)
    costs = selling_costs(settings, cost_keys)
    shared = _Shared(
        shared_draws(lot.prices, seed),
        bad_shares(settings.lot, seed),
        _reading(lot, settings, costs),
        cost_key,
        settings.goals.yearly_cost_of_cash,
        seed,
    )
    total: Components | None = None
    done, parts, shares = [], [], []
    for index in _slices(lot):
        value, share = _value(lot, shared, index)
        total = value.components if total is None else total + value.components
        done.append(index)
        parts.append(value.lines)
        shares.append(share)
        progress(sum(map(len, done)) / len(lot.lines), "drawing what the lot may bring")
    if total is None:
        raise ValueError("a lot has at least one line")
    place = np.argsort(np.concatenate(done))
    return Drawn(
        _with_pace(total, question.held, model, seed), costs, _joined(parts, place), np.concatenate(shares)[place]
    )


def _slices(lot: Prepared) -> Iterator[IntArray]:
    yield from product_slices(lot.matched, SLICE_LINES)


def _reading(lot: Prepared, settings: Settings, costs: SellingCosts) -> Reading:
    effort, goals = settings.effort, settings.goals
    at_horizon = discount(np.array(lot.times.ends - lot.times.paid), goals.yearly_cost_of_cash)
    return Reading(costs, goals.hourly_pay, effort.minutes_sort, effort.minutes_pack, float(at_horizon))


def _value(lot: Prepared, shared: _Shared, index: IntArray) -> tuple[SliceValue, FloatArray]:
    lines = lot.lines
    arrived = arrived_units(lines.quantity[index], lines.condition[index], lot.keys[index], shared.bad, shared.seed)
    sales = sale_draws(lot.tempo, index, arrived.saleable, lot.times.window[index], shared.seed)
    after_payment = lot.times.listed[index][:, None] - lot.times.paid + sales.mean_day
    draws = SliceDraws(
        price=line_price_draws(lot.prices, shared.prices, index, shared.seed),
        saleable=arrived.saleable,
        dead=arrived.dead,
        sold=sales.units,
        discount=discount(after_payment, shared.cost_of_cash),
        minutes_listing=lot.minutes.listing[index][:, None],
        cost_key=shared.cost_key[index],
        never=lot.never[index],
        chosen=lot.chosen[index],
    )
    return value_slice(draws, shared.reading), sales.units.mean(axis=1) / lines.quantity[index]


def _with_pace(total: Components, held: InForce, model: Model, seed: int) -> Components:
    """How fast the seller works is one factor a kind of work for the whole lot; minutes the seller gave are certain."""

    def pace(work: Work, key: str) -> FloatArray | float:
        return 1.0 if held.origins[key] == "yours" else minutes_factor_draws(model.effort, seed, work)

    return replace(
        total,
        minutes_sorting=total.minutes_sorting * pace("sorting", "effort.minutes_sort"),
        minutes_listing=total.minutes_listing * minutes_factor_draws(model.effort, seed, "listing"),
        minutes_packing=total.minutes_packing * pace("packing", "effort.minutes_pack"),
    )


def _joined(parts: list[LineValues], place: IntArray) -> LineValues:
    return LineValues(
        **{
            field.name: np.concatenate([getattr(part, field.name) for part in parts])[place]
            for field in fields(LineValues)
        }
    )
