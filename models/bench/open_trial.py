"""One cut-off or split of a real market: every method's line prices, and our lot totals."""

from dataclasses import dataclass, replace

import numpy as np

from models.bench.baselines.boosted import catboost_trees, lightgbm_trees
from models.bench.baselines.inputs import of_lines, of_sales
from models.bench.baselines.ridge import ridge
from models.bench.open_goods import MONTH_DAYS, OpenGoods, cars, computers
from models.bench.scores import crps_normal, holds, rms
from models.bench.shop import Shop, fitted, independent_total, priced, total_of
from models.bench.worlds.lots import LogNormal
from models.estimate.lot_joint import LotPrices
from models.values.arrays import FloatArray, IntArray
from models.values.streams import stream

METHODS = {"ridge": ridge, "LightGBM": lightgbm_trees, "CatBoost": catboost_trees}
Measures = dict[str, float]
COMPUTER_LOTS, CAR_LOTS = 14, 14


@dataclass(frozen=True)
class Month:
    """PC prices known at the end of a month."""

    month: int


@dataclass(frozen=True)
class Split:
    """Car prices with two makes held out."""

    number: int


def run_month(asked: Month) -> Measures:
    """A thousand sales known by the month's end; lots by ram from the next 62 days, without a floor for their shock."""
    goods = computers()
    rng = stream(asked.month, "bench computers")
    cutoff = goods.day[0] + np.timedelta64(int(MONTH_DAYS * asked.month) - int(MONTH_DAYS), "D")
    known = np.flatnonzero(goods.day <= cutoff)
    history = np.sort(rng.permutation(known)[:1000])
    ahead = np.flatnonzero((goods.day > cutoff) & (goods.day <= cutoff + 62))
    lots = [goods.lot(rng, ahead, (20, 60)) for _ in range(COMPUTER_LOTS)]
    return _measured(goods, history, lots, cutoff, days_ahead=46, floor=False)


def run_split(asked: Split) -> Measures:
    """Three hundred sales of four makes; lots of cars of the other two."""
    goods = cars()
    rng = stream(asked.number, "bench cars")
    held = np.isin(goods.brand.astype(str), rng.choice(np.unique(goods.brand.astype(str)), 2, replace=False))
    history = rng.permutation(np.flatnonzero(~held))[:300]
    lots = [goods.lot(rng, np.flatnonzero(held), (10, 60)) for _ in range(CAR_LOTS)]
    return _measured(goods, history, lots, goods.day[0], days_ahead=0, floor=True)


def _measured(
    goods: OpenGoods, history: IntArray, lots: list[IntArray], cutoff: np.datetime64, days_ahead: int, floor: bool
) -> Measures:
    sales = goods.sales(history)
    shop = fitted(sales, cutoff)
    ours = [_priced(shop, goods, lot, cutoff + days_ahead, floor) for lot in lots]
    actual = np.log([goods.price[lot].sum() for lot in lots])
    measures = _totals(actual, [total_of(lot) for lot in ours])
    alone = _totals(actual, [independent_total(lot) for lot in ours])
    measures["independent 80"] = alone["holds 80"]
    truth = np.log(np.concatenate([goods.price[lot] for lot in lots]))
    measures["rmse/ours"] = rms(np.concatenate([lot.mu for lot in ours]) - truth)
    inputs, outcome = of_sales(sales, cutoff), np.log(sales.sold_price)
    for name, method in METHODS.items():
        predict = method(inputs, outcome).predict
        told = [predict(of_lines(goods.lines(lot), days_ahead)) for lot in lots]
        measures[f"rmse/{name}"] = rms(np.concatenate(told) - truth)
    return measures


def _priced(shop: Shop, goods: OpenGoods, lot: IntArray, sale_day: np.datetime64, floor: bool) -> LotPrices:
    found = priced(shop, goods.lines(lot), sale_day)
    if floor:
        return found
    learned = shop.model.posterior.block_unseen("week")
    var = np.where(found.cells.kind == "lot", learned, found.cells.var)
    return replace(found, cells=replace(found.cells, var=var))


def _totals(actual: FloatArray, totals: list[LogNormal]) -> Measures:
    middle, sd = np.array([(total.middle, total.sd) for total in totals]).T
    found = {f"holds {level}": float(holds(actual, middle, sd, level / 100).mean()) for level in (80, 90, 95)}
    shift = float(np.mean(actual - middle))
    return found | {"shift": shift, "crps": float(crps_normal(actual, middle, sd).mean()), "sd": float(sd.mean())}
