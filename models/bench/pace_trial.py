"""One invented world of paces, every method: chances that a unit sells in time, and ranges of units sold."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from models.bench.baselines.waits import Chance, Waits, kaplan_meier, logistic_hazards, sold_only
from models.bench.scores import rms
from models.bench.worlds.pace_world import PaceLot, PaceWorld
from models.bench.worlds.paces import PaceShape
from models.estimate.fit.tempo import fit_tempo
from models.estimate.products import ProductBook, build_book, match
from models.estimate.tempo import in_season, pace_lot, share_sold
from models.estimate.tempo_draws import sold_draws
from models.estimate.tempo_lot import LotTempo
from models.estimate.tempo_model import TempoModel
from models.values.arrays import FloatArray, IntArray
from models.values.categories import top_and_sub
from models.values.sales import Sales
from models.values.settings import Selling
from models.values.streams import DRAWS, stream

Measures = dict[str, float]
METHODS = {"Kaplan-Meier": kaplan_meier, "logistic": logistic_hazards, "sold only": sold_only}
WITHIN = (30, 180)  # days
GROUPS = ("all", "known", "new")  # products listed before, and not
LINES, DEEP_LINES, DEEP_UNITS, HORIZON = 200, 20, 10, 180
MONTHS_FROM = 400  # days of history, from which a method may tell months apart


@dataclass(frozen=True)
class PaceTrial:
    """One world, and how many lots of deep items are offered in it."""

    shape: PaceShape
    lots: int


@dataclass(frozen=True)
class _Shop:
    book: ProductBook
    model: TempoModel

    def paced(self, lot: PaceLot, until: np.datetime64, days: int) -> LotTempo:
        lines = lot.lines
        found = match(self.book, lines.description, lines.sku, lines.gtin)
        return in_season(pace_lot(lines, found, self.model, lambda _: Selling(), lot.price), until, float(days))


def run_paces(trial: PaceTrial) -> Measures:
    """Every measure of one world."""
    world = PaceWorld(trial.shape)
    history = world.history()
    book, product = build_book(history.title, history.sku, history.gtin)
    shop = _Shop(book, fit_tempo(history, product, book.n_products, world.until))
    found = {"declared": float(shop.model.declared), "sold": float(history.sold.mean())}
    found |= dict(_chances(world, history, shop))
    return found | dict(_deep(world, shop, trial.lots))


def _chances(world: PaceWorld, history: Sales, shop: _Shop) -> Iterator[tuple[str, float]]:
    """Error of the chance that one unit sells in time; own stock is set aside, which no other method knows."""
    lot = world.lot(0, LINES, 1)
    seen, asked = _waits(world, history, lot)
    fits: dict[str, Chance] = {name: method(seen) for name, method in METHODS.items()}
    for days in WITHIN:
        ours = shop.paced(lot, world.until, days)
        alone = replace(ours, stock=np.zeros_like(ours.stock))
        told = {"ours": share_sold(alone, np.full(len(lot.product), float(days)))}
        told |= {name: chance(asked, float(days)) for name, chance in fits.items()}
        for name, chance in told.items():
            gap = chance - world.sold_by(lot, days)
            for lines, rows in zip(GROUPS, (lot.known | True, lot.known, ~lot.known), strict=True):
                yield f"{days}/{lines}/rmse/{name}", rms(gap[rows])
                yield f"{days}/{lines}/bias/{name}", float(gap[rows].mean())


def _waits(world: PaceWorld, history: Sales, lot: PaceLot) -> tuple[Waits, Waits]:
    """What the other methods see of the listings, and of the lines."""
    seasonal = world.shape.days >= MONTHS_FROM
    tops = np.array([top_and_sub(one)[0] for one in [*history.category, *lot.lines.category]], dtype=object)
    top = tops[: len(history)]
    ln_price, n = np.log(history.asking_price), len(lot.lines)
    middle = {one: float(np.median(ln_price[top == one])) for one in set(top.tolist())}
    listed = np.concatenate([history.listed_on, np.full(n, world.until)]).astype("datetime64[M]").astype(np.int64)
    month = np.where(seasonal, listed % 12, -1)
    ends = np.where(history.sold, history.sold_on, world.until)
    whole = Waits(
        category=tops, brand=np.concatenate([history.brand, lot.lines.brand]),
        condition=np.concatenate([history.condition, lot.lines.condition]).astype(np.int64),
        price_level=np.concatenate([ln_price, np.log(lot.price)])
        - np.array([middle.get(one, float(np.median(ln_price))) for one in tops.tolist()]),
        month=month, days=np.concatenate([np.maximum((ends - history.listed_on).astype(float), 0.5), np.zeros(n)]),
        sold=np.concatenate([history.sold, np.zeros(n, dtype=np.bool_)]),
    )  # fmt: skip
    return whole.take(np.arange(len(history))), whole.take(len(history) + np.arange(n))


def _deep(world: PaceWorld, shop: _Shop, lots: int) -> Iterator[tuple[str, float]]:
    """Where in our draws what happens falls: for every item of ten units, and for all units of the lot."""
    rng = stream(world.shape.seed, "bench pace outcome", str(world.shape.listings))
    items, inside, known, whole, sold, told = [], [], [], [], 0.0, 0.0
    for number in range(1, lots + 1):
        lot = world.lot(number, DEEP_LINES, DEEP_UNITS)
        draws = _drawn(shop.paced(lot, world.until, HORIZON), np.arange(len(lot.product)))
        actual = world.units_sold(lot, HORIZON, rng)
        low, high = np.quantile(draws, [0.1, 0.9], axis=1, method="inverted_cdf")
        items.append(_place(draws, actual, rng))
        inside.append((low <= actual) & (actual <= high))
        known.append(lot.known)
        whole.append(_place(draws.sum(axis=0)[None], actual.sum(keepdims=True), rng)[0])
        sold, told = sold + float(actual.sum()), told + float(draws.mean(axis=1).sum())
    held = np.abs(np.concatenate(items) - 0.5) <= 0.4
    of_known = np.concatenate(known)
    yield from {
        "deep/all": held.mean(),
        "deep/known": held[of_known].mean(),
        "deep/new": held[~of_known].mean(),
    }.items()
    yield "deep/within p10 to p90", float(np.concatenate(inside).mean())
    yield "deep/whole lot", float(np.mean(np.abs(np.array(whole) - 0.5) <= 0.4))
    yield "deep/sold / told", sold / told


def _drawn(lot: LotTempo, index: IntArray) -> FloatArray:
    return sold_draws(lot, index, np.full((len(index), DRAWS), float(DEEP_UNITS)), np.full(len(index), HORIZON), 1)


def _place(draws: FloatArray, actual: FloatArray, rng: np.random.Generator) -> FloatArray:
    """Share of draws below what happened; ties are split at random (Czado, Gneiting & Held 2009).

    doi:10.1111/j.1541-0420.2009.01191.x
    """
    below, equal = (draws < actual[:, None]).mean(axis=1), (draws == actual[:, None]).mean(axis=1)
    return np.asarray(below + rng.random(len(actual)) * equal)
