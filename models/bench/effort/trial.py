"""One seller, every method: errors of lines' minutes, coverage of lots' hours, and the pace."""

from collections.abc import Callable

import numpy as np

from models.bench.effort.baselines import gamma_regression, mean_minutes
from models.bench.effort.lots import EffortLot, lot_of
from models.bench.effort.world import EffortShape, Seller
from models.bench.worlds.world import DAY_ZERO
from models.estimate.effort import LineMinutes, line_minutes
from models.estimate.effort_draws import listing_factor_draws, listing_spread
from models.estimate.effort_model import EffortModel
from models.estimate.fit.effort import fit_effort
from models.estimate.fit.learned import learned_minutes
from models.estimate.pace import measured_pace
from models.estimate.products import ProductBook, build_book, match
from models.values.arrays import FloatArray
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.sales import Sales

DRAWN = 2000
Measures = dict[str, float]
Method = Callable[[Lines], FloatArray]


def run_effort(shape: EffortShape) -> Measures:
    """Every measure of one seller."""
    seller = Seller(shape)
    sales, log = seller.history(), seller.log()
    book, product = build_book(sales.title, sales.sku, sales.gtin)
    model = fit_effort(sales, product, log)
    lots = [lot_of(seller, number) for number in range(shape.lots)]
    methods = _methods(book, model, sales, log.hours.sum() * 60.0 / log.items.sum() if len(log) else np.nan)
    found = {f"mape/{name}": _mape(lots, method, False) for name, method in methods.items()}
    found |= {f"never listed/{name}": _mape(lots, method, True) for name, method in methods.items()}
    found |= _hours(lots, book, model, shape.seed)
    pace = measured_pace(sales, DAY_ZERO + int(seller.day.max()), model)
    found["pace"] = abs(np.log(pace.hours_per_week / seller.weekly_hours)) if pace else np.nan
    return found | {"timings": float(model.timings), "entries": float(model.entries)}


def told_minutes(book: ProductBook, model: EffortModel, lines: Lines) -> LineMinutes:
    """A manifest's minutes as an appraisal without settings of the seller's own tells them."""
    matched = match(book, lines.description, lines.sku, lines.gtin)
    held = in_force([], learned_minutes(model)).settings.effort
    return line_minutes(lines, matched, model, held, lines.assorted)


def _methods(book: ProductBook, model: EffortModel, sales: Sales, of_log: float) -> dict[str, Method]:
    untaught = fit_effort(sales.take(np.empty(0, dtype=np.int64)), np.empty(0, dtype=np.int64))
    made: dict[str, Method] = {
        "ours": lambda lines: told_minutes(book, model, lines).listing,
        "settings": lambda lines: told_minutes(book, untaught, lines).listing,
    }
    if model.timings:
        made |= {"Gamma GLM": gamma_regression(sales), "mean minutes": mean_minutes(sales)}
    elif np.isfinite(of_log):
        made["mean minutes"] = lambda lines: np.asarray(of_log * lines.quantity, dtype=np.float64)
    return made


def _mape(lots: list[EffortLot], method: Method, strange: bool) -> float:
    """Over the lines of goods that the seller lists, or over those of kinds that were never listed."""
    gaps = [np.abs(method(lot.lines) / lot.minutes - 1.0)[lot.strange == strange] for lot in lots]
    return float(np.concatenate(gaps).mean())


def _hours(lots: list[EffortLot], book: ProductBook, model: EffortModel, seed: int) -> Measures:
    """Share of lots whose hours lie in the stated range; spread and bias of the ranges."""
    inside, ratio, width = [], [], []
    for number, lot in enumerate(lots):
        minutes = told_minutes(book, model, lot.lines)
        factor = listing_factor_draws(listing_spread(lot.lines, minutes, model), f"lot {number}", seed, DRAWN)
        kinds = np.array([minutes.listing_first.sum(), minutes.listing_repeat.sum(), minutes.listing_used.sum()])
        drawn = kinds @ factor / 60.0
        low, high = np.quantile(drawn, [0.1, 0.9])
        inside.append(low <= lot.hours <= high)
        ratio.append(lot.hours / drawn.mean())
        width.append(high / low)
    return {"holds 80": float(np.mean(inside)), "hours": float(np.mean(ratio)), "width": float(np.mean(width))}
