"""One invented world, every method: errors of line prices and of lot totals, with clean and with wrong tags."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from models.bench.baselines.boosted import catboost_trees, lightgbm_trees
from models.bench.baselines.forecast import Baseline
from models.bench.baselines.inputs import of_lines, of_sales
from models.bench.baselines.ridge import ridge
from models.bench.baselines.simple import medians, share_of_tag
from models.bench.scores import crps_normal, holds, rms
from models.bench.shop import fitted, independent_total, priced, total_of
from models.bench.worlds.lots import GROUPS, LogNormal, TestLot, oracle_total
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.estimate.lot_joint import LotPrices
from models.values.arrays import FloatArray
from models.values.sales import Sales

Measures = dict[str, float]
METHODS = {
    "share of tag": share_of_tag, "medians": medians, "ridge": ridge, "LightGBM": lightgbm_trees,
    "CatBoost": catboost_trees,
}  # fmt: skip
WRONG_TAGS = 0.07
LEVELS = (80, 90, 95)


@dataclass(frozen=True)
class Trial:
    """One world and how many lots are offered in it; without baselines only our own forecasts are made."""

    shape: Shape
    lots: int
    baselines: bool


def run_trial(trial: Trial) -> Measures:
    """Every measure of one world."""
    found = dict(_measured(trial, "clean"))
    if trial.baselines:
        found |= _measured(replace(trial, shape=replace(trial.shape, wrong_tags=WRONG_TAGS)), "wrong")
    return found


def _measured(trial: Trial, tags: str) -> Iterator[tuple[str, float]]:
    world = World(trial.shape)
    history, lots = world.history(), world.lots(trial.lots)
    cutoff = DAY_ZERO + trial.shape.days
    shop = fitted(history, cutoff)
    ours = [priced(shop, lot.lines, cutoff + int(lot.days_ahead)) for lot in lots]
    fits = _baselines(history, cutoff) if trial.baselines else {}
    for key, value in _line_errors(lots, ours, fits):
        yield f"{tags}/{key}", value
    for key, value in _total_errors(lots, ours, trial.shape):
        yield f"{tags}/{key}", value
    for name, fit in fits.items():
        yield f"{tags}/error/{name}", float(np.mean(np.abs(_point_totals(lots, fit) - _actual(lots))))


def _baselines(history: Sales, cutoff: np.datetime64) -> dict[str, Baseline]:
    sold = history.take(history.sold)
    inputs, outcome = of_sales(sold, cutoff), np.log(sold.sold_price)
    return {name: method(inputs, outcome) for name, method in METHODS.items()}


def _line_errors(lots: list[TestLot], ours: list[LotPrices], fits: dict[str, Baseline]) -> Iterator[tuple[str, float]]:
    """RMSE of the ln price of one unit of each line."""
    group = np.concatenate([lot.group for lot in lots])
    actual = np.log(np.concatenate([lot.first_price for lot in lots]))
    told = {"ours": [lot.mu for lot in ours], "oracle": [lot.level for lot in lots]}
    for name, fit in fits.items():
        told[name] = [fit.predict(of_lines(lot.lines, lot.days_ahead)) for lot in lots]
    for name, values in told.items():
        gap = np.concatenate(values) - actual
        for number, kind in enumerate(GROUPS):
            yield f"rmse/{name}/{kind}", rms(gap[group == number])


def _total_errors(lots: list[TestLot], ours: list[LotPrices], shape: Shape) -> Iterator[tuple[str, float]]:
    """Coverage, width, CRPS [log units] and money of lot totals."""
    told = {
        "ours": [total_of(lot) for lot in ours],
        "independent": [independent_total(lot) for lot in ours],
        "oracle": [oracle_total(lot, shape) for lot in lots],
    }
    actual = _actual(lots)
    for name, totals in told.items():
        middle, sd = _columns(totals)
        for level in LEVELS:
            yield f"holds {level}/{name}", float(np.mean(holds(actual, middle, sd, level / 100)))
        yield f"crps/{name}", float(np.mean(crps_normal(actual, middle, sd)))
        yield f"sd/{name}", float(np.mean(sd))
        yield f"money/{name}", float(np.exp(actual).sum() / sum(total.mean for total in totals))


def _columns(totals: list[LogNormal]) -> tuple[FloatArray, FloatArray]:
    return np.array([total.middle for total in totals]), np.array([total.sd for total in totals])


def _actual(lots: list[TestLot]) -> FloatArray:
    return np.log([lot.actual for lot in lots])


def _point_totals(lots: list[TestLot], fit: Baseline) -> FloatArray:
    return np.log([lot.lines.quantity @ fit.money(of_lines(lot.lines, lot.days_ahead)) for lot in lots])
