"""A seller with known true minutes: what listing takes by state, kind and repeat, week after week."""

from dataclasses import dataclass, replace

import numpy as np
from scipy.special import stdtrit

from models.bench.worlds.world import DAY_ZERO
from models.estimate.effort_model import FURTHER_SEALED, FURTHER_USED, SEALED
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.sales import Sales
from models.values.streams import stream
from models.values.work_log import WorkLog

TOPS, SUBS, STRANGE = 6, 24, 4  # the last so many subs are never listed before the lots come
SETTINGS = np.log([12.0, 1.0, 6.0])  # the defaults, around which sellers lie
SELLER_SD, RATIO_SD, CONDITION_SD = 0.5, 0.3, 0.15
GRADE = 0.1
TOP_SDS, SUB_SDS, LOT_SDS = (0.15, 0.40), (0.10, 0.30), (0.0, 0.2)  # of a world, evenly
SCALE, DEGREES, REACH = 0.4, 6.0, 3.0  # noise of one row: Student, cut at so many scales
WEEKLY_SD, IDLE = 0.25, 0.15  # spread of a week's listings; share of weeks without work
SHOWN = 0.85  # share of what was listed that the export shows
LOGGED, REMEMBERED_SD = 0.5, 0.1  # share of weeks with an entry, its error before rounding to half an hour
TIMED_SHARE = 0.5


@dataclass(frozen=True)
class EffortShape:
    """One seller; `told` is what the history says of minutes: all | half | totals | dates."""

    seed: int
    rows: int
    told: str
    lots: int


@dataclass(frozen=True)
class Goods:
    """Rows or lines, arrays of shape (n,)."""

    sub: IntArray
    product: IntArray
    condition: IntArray
    quantity: IntArray


class Seller:
    """True minutes, the rows that were listed, and the lots that come."""

    def __init__(self, shape: EffortShape) -> None:
        self.shape = shape
        rng = stream(shape.seed, "bench seller", str(shape.rows))
        base = SETTINGS + rng.normal(0, [SELLER_SD, RATIO_SD, RATIO_SD])
        base[1:] += base[0] - SETTINGS[0]  # repeats move with the first
        self.ln_kind = base
        self.by_condition = GRADE * (np.arange(6) - 1.5) + rng.normal(0, CONDITION_SD, 6)
        self.lot_sd = rng.uniform(*LOT_SDS)
        top, sub = rng.normal(0, rng.uniform(*TOP_SDS), TOPS), rng.normal(0, rng.uniform(*SUB_SDS), SUBS)
        self.by_sub = top[np.arange(SUBS) % TOPS] + sub
        self._listed(rng)

    def _listed(self, rng: np.random.Generator) -> None:
        """Rows week after week; an item listed again within a week is a further unit of that listing."""
        n = self.shape.rows
        self.goods = _goods(rng, n, SUBS - STRANGE, int(0.6 * n) + 10)
        usual = float(np.clip(n / 12, 8, 60))
        counts = np.maximum(np.round(usual * np.exp(rng.normal(0, WEEKLY_SD, n))), 1).astype(np.int64)
        self.week = np.repeat(np.arange(n), counts)[:n]
        calendar = np.flatnonzero(rng.random(3 * n + 20) >= IDLE)  # which week the k-th working week is
        self.day = np.sort(calendar[self.week] * 7 + rng.integers(0, 6, n))
        self.first = ~_again(self.goods.product * 8 + self.goods.condition, self.day)
        bunch = np.exp(rng.normal(0, self.lot_sd, n) - self.lot_sd**2 / 2)[self.week]
        self.minutes = self.mean_minutes(self.goods, self.first) * bunch * self.noise(rng, n)
        self.shown = rng.random(n) < SHOWN
        self.shown[0] = True
        self.timed = rng.random(n) < TIMED_SHARE

    def mean_minutes(self, goods: Goods, first: BoolArray) -> FloatArray:
        """True mean minutes of rows, each one listing or further units of one."""
        own = first.astype(np.float64)
        return own * self.of_first(goods) + (goods.quantity - own) * self.of_further(goods)

    def of_first(self, goods: Goods) -> FloatArray:
        """Mean minutes of a listing of its own."""
        return np.asarray(np.exp(self.ln_kind[0]) * self._state(goods))

    def of_further(self, goods: Goods) -> FloatArray:
        """Mean minutes of a further unit, never more than a first."""
        kind = np.where(goods.condition == SEALED, FURTHER_SEALED, FURTHER_USED)
        return np.asarray(np.exp(np.minimum(self.ln_kind[kind], self.ln_kind[0])) * self._state(goods))

    def _state(self, goods: Goods) -> FloatArray:
        return np.asarray(np.exp(self.by_condition[goods.condition] + self.by_sub[goods.sub]))

    @property
    def weekly_hours(self) -> float:
        """True hours of the median week of the last 26."""
        spent = np.bincount(self.week, weights=self.minutes) / 60.0
        return float(np.median(spent[spent > 0][-26:]))

    @staticmethod
    def noise(rng: np.random.Generator, n: int) -> FloatArray:
        """Factors of mean one."""
        drawn = SCALE * np.clip(rng.standard_t(DEGREES, n), -REACH, REACH)
        return np.asarray(np.exp(drawn) / MEAN_OF_NOISE)

    def history(self) -> Sales:
        """What the export shows."""
        at = np.flatnonzero(self.shown)
        told = {"all": np.ones(len(at), bool), "half": self.timed[at]}.get(self.shape.told, np.zeros(len(at), bool))
        quantity = self.goods.quantity[at]
        day = DAY_ZERO + self.day[at]
        return replace(
            Sales.blank(len(at)), title=texts([f"thing {one}" for one in self.goods.product[at]]),
            category=paths(self.goods.sub[at]), condition=self.goods.condition[at].astype(np.int8), quantity=quantity,
            listed_on=day, sold_on=day + 20, sold_price=np.full(len(at), 2000.0),
            listing_minutes=np.where(told, self.minutes[at] / quantity, np.nan),
        )  # fmt: skip

    def log(self) -> WorkLog:
        """Entries of some weeks, on the week's last working day; none unless totals are what is told."""
        if self.shape.told != "totals":
            return WorkLog.of([])
        rng = stream(self.shape.seed, "bench work log", str(self.shape.rows))
        weeks = np.unique(self.week)
        chosen = weeks[rng.random(len(weeks)) < LOGGED] if len(weeks) > 3 else weeks
        entries: list[tuple[np.datetime64, float, float, str, str]] = []
        for week in chosen.tolist():
            rows = self.week == week
            spent = self.minutes[rows].sum() / 60.0 * np.exp(rng.normal(0, REMEMBERED_SD))
            on = DAY_ZERO + int(self.day[rows].max())
            entries.append((on, float(self.goods.quantity[rows].sum()), max(round(2 * spent) / 2, 0.5), "", ""))
        return WorkLog.of(entries)


def paths(sub: IntArray) -> TextArray:
    """Category paths."""
    return texts([f"top{one % TOPS} > sub{one}" for one in sub.tolist()])


def titles(product: IntArray) -> TextArray:
    """As the history writes them."""
    return texts([f"thing {one}" for one in product.tolist()])


def _goods(rng: np.random.Generator, n: int, subs: int, products: int) -> Goods:
    """Goods of the usual kinds; few used ones come in numbers."""
    popular = rng.gamma(0.7, 1.0, products) + 0.05
    product = rng.choice(products, n, p=popular / popular.sum())
    condition = rng.choice(6, n, p=[0.35, 0.2, 0.2, 0.12, 0.08, 0.05])
    sealed = rng.geometric(0.45, n)
    used = np.where(rng.random(n) < 0.2, rng.integers(2, 5, n), 1)
    kind = stream(products, "bench kinds", str(subs)).integers(0, subs, products)
    return Goods(kind[product], product, condition, np.where(condition == SEALED, sealed, used))


def _again(item: IntArray, day: IntArray) -> BoolArray:
    """True where the same item was listed up to a week before."""
    order = np.lexsort((day, item))
    near = np.zeros(len(item), dtype=bool)
    near[order[1:]] = (np.diff(item[order]) == 0) & (np.diff(day[order]) <= 7)
    return near


def _mean_of_noise() -> float:
    """Mean of exp(noise) over even quantiles."""
    levels = (np.arange(100_000) + 0.5) / 100_000
    return float(np.exp(SCALE * np.clip(stdtrit(DEGREES, levels), -REACH, REACH)).mean())


MEAN_OF_NOISE = _mean_of_noise()
