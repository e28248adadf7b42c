"""What became of what was forecast?  One cut-off's lots and listings, told and happened side by side."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from models.appraisal.backtest.baselines import Method, PriceTold
from models.appraisal.backtest.dated import Dated
from models.appraisal.backtest.forecast import Forecast, Window
from models.appraisal.backtest.own_lots import Goods, OwnLot
from models.estimate.fit.effort_rows import timed_rows
from models.estimate.lot_joint import LotPrices
from models.estimate.lot_totals import Total, lot_total
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.sales import Sales


@dataclass(frozen=True)
class Told:
    """What one method said of a lot's goods that sold."""

    total: float  # [minor units]
    ln_error: FloatArray  # (n_sales,) ln told less ln fetched


@dataclass(frozen=True)
class Tested:
    """One lot: its goods that sold, all as if priced on the cut-off."""

    cut_off: int
    name: str
    goods: Goods
    is_named: bool
    sales: int
    units: int
    units_listed: int  # sold or not
    ours: Told
    log_sd: float  # of our total
    happened: float  # gross of what sold [minor units]
    others: Mapping[str, Told]


@dataclass(frozen=True)
class Listings:
    """Every listing of every lot asked about; arrays of shape (n_rows,)."""

    cut_off: IntArray
    lot: IntArray  # number of its lot over all cut-offs
    goods: TextArray
    waited: FloatArray  # days from listing to sale, inf: not sold by the end
    seen: FloatArray  # days from listing to the end of the history; NaN without a day of listing
    units: FloatArray
    gross_told: FloatArray  # all units sold singly [minor units]
    gross: FloatArray  # what the row fetched, 0 if it did not sell
    ln_off: FloatArray  # ln fetched less ln median told, NaN if it did not sell
    sold_by: FloatArray  # (n_rows, n_waits)
    minutes_told: FloatArray
    minutes: FloatArray  # NaN where nobody timed it

    def take(self, index: IntArray | BoolArray) -> "Listings":
        """The rows at `index`."""
        return Listings(**{name: getattr(self, name)[index] for name in self.__dataclass_fields__})


def joined(parts: Sequence[Listings]) -> Listings:
    """One table of several."""
    names = Listings.__dataclass_fields__
    return Listings(**{name: np.concatenate([getattr(part, name) for part in parts]) for name in names})


def others_told(
    known: Sales, asked: Window, told: Forecast, methods: Mapping[str, Method], currency: str
) -> dict[str, PriceTold]:
    """What other methods say of the same listings, fitted on the same sales; they may read the expected sale day."""
    sold = known.take(np.nan_to_num(known.sold_price) > 0)
    expected = replace(asked.listings, sold_on=told.sale_day)
    return {name: method(sold, asked.cut_off, currency)(expected) for name, method in methods.items()}


@dataclass(frozen=True)
class Compared:
    """One cut-off with what came of it."""

    number: int
    history: Dated
    lots: Sequence[OwnLot]
    asked: Window
    told: Forecast
    others: Mapping[str, PriceTold]


def tested_lots(one: Compared) -> Iterator[Tested]:
    """Each lot's goods that sold by the end of the history; what did not is on neither side."""
    for lot, at, prices in zip(one.lots, one.asked.lots, one.told.lots, strict=True):
        price = one.history.sales.sold_price[lot.rows]
        sold = np.nan_to_num(price) > 0
        units = one.history.sales.quantity[lot.rows].astype(np.float64) * sold  # 0 where not sold
        total = _total(prices, units)
        if not total.mean > 0:
            continue
        fetched = np.log(price[sold])
        yield Tested(
            cut_off=one.number,
            name=lot.name,
            goods=lot.goods,
            is_named=lot.is_named,
            sales=int(sold.sum()),
            units=int(units.sum()),
            units_listed=int(one.history.sales.quantity[lot.rows].sum()),
            ours=Told(total.mean, prices.mu[sold] - fetched),
            log_sd=float(np.sqrt(total.log_var)),
            happened=float(np.nan_to_num(price) @ units),
            others={name: _told(told, at[sold], units[sold], fetched) for name, told in one.others.items()},
        )


def listings(one: Compared, first_lot: int) -> Listings:
    """Every listing of the cut-off's lots, sold or not; lots are numbered from `first_lot`."""
    rows = np.concatenate([lot.rows for lot in one.lots])
    sales, start = one.history.sales.take(rows), one.asked.start
    sold = np.nan_to_num(sales.sold_price) > 0
    mu = np.concatenate([lot.mu for lot in one.told.lots])
    units = sales.quantity.astype(np.float64)
    days = (np.where(sold, sales.sold_on, one.history.end) - start).astype(np.int64).astype(np.float64)
    seen = (one.history.end - start).astype(np.int64).astype(np.float64)
    return Listings(
        cut_off=np.full(len(rows), one.number),
        lot=first_lot + np.repeat(np.arange(len(one.lots)), [len(lot.rows) for lot in one.lots]),
        goods=texts([lot.goods.value for lot in one.lots for _ in lot.rows]),
        waited=np.where(sold, days, np.inf),
        seen=np.where(one.asked.is_listed, seen, np.nan),
        units=units,
        gross_told=units * np.concatenate([lot.unit_price.mean for lot in one.told.lots]),
        gross=np.where(sold, units * np.nan_to_num(sales.sold_price), 0.0),
        ln_off=np.where(sold, np.log(np.where(sold, sales.sold_price, 1.0)), np.nan) - mu,
        sold_by=one.told.sold_by,
        minutes_told=one.told.minutes,
        minutes=np.where(timed_rows(sales), units * sales.listing_minutes, np.nan),
    )


def _total(prices: LotPrices, units: FloatArray) -> Total:
    """Closed form of so many units of each listing; one listing's units went together at one price."""
    cv2 = np.expm1(prices.noise_var)
    return lot_total(units * prices.unit_price.mean, cv2, prices.rows, prices.cells, prices.posterior)


def _told(told: PriceTold, at: IntArray, units: FloatArray, fetched: FloatArray) -> Told:
    ln_price = told.ln_price[at]
    return Told(float(np.exp(ln_price) @ units) * told.factor, ln_price - fetched)
