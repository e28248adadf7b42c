"""What would have been said on a day of what was listed next?  Fitted on what was known then; outcomes are not here."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from models.appraisal.backtest.dated import Dated
from models.appraisal.backtest.own_lots import Goods, OwnLot
from models.appraisal.known import known_sales, without_outcome
from models.appraisal.model import Model
from models.appraisal.training import fit
from models.estimate.effort import line_minutes
from models.estimate.fit.prices_facts import bulk_share
from models.estimate.lot_cells import LOT_KIND
from models.estimate.lot_facts import OwnListings
from models.estimate.lot_prices import LotPrices, price_lot
from models.estimate.products import match
from models.estimate.tempo import days_to_sell, in_season, pace_lot, share_sold
from models.estimate.tempo_lot import LotTempo
from models.values.arrays import BoolArray, DayArray, FloatArray, IntArray, texts
from models.values.given import Given
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.settings import Settings

WAITS = (7, 14, 30, 45, 60, 90, 135, 182, 273, 365)  # days after listing at which the share sold is told
MOST_AHEAD = 91.0  # days from listing to the expected sale: half of the usual horizon, as lots are priced


@dataclass(frozen=True)
class Window:
    """What is asked on a day: listings that came next, without what became of them; arrays of shape (n_rows,)."""

    cut_off: np.datetime64
    listings: Sales
    start: DayArray
    is_listed: BoolArray  # `start` is a day of listing
    lots: tuple[IntArray, ...]  # places of each lot's rows
    goods: tuple[Goods, ...]  # of each lot


@dataclass(frozen=True)
class Forecast:
    """Arrays of shape (n_rows,) unless said."""

    lots: tuple[LotPrices, ...]
    sold_by: FloatArray  # (n_rows, n_waits) share of the units sold so many days after listing; NaN: cannot be told
    minutes: FloatArray  # to list all units of the row
    sale_day: DayArray  # expected


def window(history: Dated, cut_off: np.datetime64, lots: Sequence[OwnLot]) -> Window:
    """The rows of some lots as they stood when they were listed."""
    rows = np.concatenate([np.empty(0, dtype=np.int64), *(lot.rows for lot in lots)])
    ends = np.cumsum([len(lot.rows) for lot in lots])
    listings = history.sales.take(rows)
    return Window(
        cut_off=cut_off,
        listings=replace(
            without_outcome(listings, np.ones(len(rows), dtype=np.bool_)), listing_minutes=np.full(len(rows), np.nan)
        ),
        start=history.start[rows],
        is_listed=history.is_listed[rows],
        lots=tuple(np.arange(end - len(lot.rows), end) for lot, end in zip(lots, ends.tolist(), strict=True)),
        goods=tuple(lot.goods for lot in lots),
    )


def known_then(history: Dated, cut_off: np.datetime64) -> Sales:
    """The history at the end of that day: what sold later had not sold yet, what was listed later is not there."""
    return known_sales(history.sales, cut_off)


@dataclass(frozen=True)
class _Fitted:
    """What every lot of a day is priced and paced with."""

    model: Model
    settings: Settings
    gap: float  # days from the end of what is known to the cut-off


def forecast(known: Sales, asked: Window, currency: str, given: Given) -> Forecast:
    """Fit on what was known, and tell prices, pace and minutes of every lot asked about, each as if it stood alone."""
    model = fit(known, asked.cut_off.astype("datetime64[D]").item(), currency, lambda share, step: None)
    fitted = _Fitted(model, in_force([given], model.learned).settings, _days(asked.cut_off - model.known_until))
    lines, bulk = as_lines(asked.listings), _bulk(known, asked.listings)
    parts = [
        _of_lot(
            fitted, _Lot(lines.take(rows), bulk[rows], asked.start[rows], asked.is_listed[rows], goods), asked.cut_off
        )
        for rows, goods in zip(asked.lots, asked.goods, strict=True)
    ]
    return Forecast(
        lots=tuple(part.prices for part in parts),
        sold_by=np.concatenate([part.sold_by for part in parts]),
        minutes=np.concatenate([part.minutes for part in parts]),
        sale_day=np.concatenate([part.sale_day for part in parts]),
    )


@dataclass(frozen=True)
class _Lot:
    lines: Lines
    bulk: FloatArray
    start: DayArray
    is_listed: BoolArray
    goods: Goods


@dataclass(frozen=True)
class _ToldLot:
    prices: LotPrices
    sold_by: FloatArray
    minutes: FloatArray
    sale_day: DayArray


def _of_lot(fitted: _Fitted, lot: _Lot, cut_off: np.datetime64) -> _ToldLot:
    """Prices drift until the day of sale, which hangs on the pace, which reads prices: one round settles it."""
    model, lines, own = fitted.model, lot.lines, OwnListings(lot.bulk)
    matched = match(model.book, lines.description, lines.sku, lines.gtin)
    now = price_lot(lines, matched, model.prices, np.full(len(lines), fitted.gap), own)
    pace = pace_lot(lines, matched, model.tempo, fitted.settings.selling_for, now.unit_price.mean)
    pace = in_season(pace, lot.start, MOST_AHEAD)
    wait = np.minimum(np.nan_to_num(days_to_sell(pace, 2 * MOST_AHEAD), nan=MOST_AHEAD), MOST_AHEAD)
    ahead = _days(lot.start - cut_off) + np.where(lot.is_listed, wait, 0.0)
    prices = price_lot(lines, matched, model.prices, fitted.gap + ahead, own)
    return _ToldLot(
        prices=without_lot_shock(prices) if lot.goods is Goods.SINGLE else prices,
        sold_by=_sold_by(pace, lot.is_listed & (not model.tempo.declared)),
        minutes=line_minutes(lines, matched, model.effort, fitted.settings.effort, lines.assorted).listing,
        sale_day=cut_off + ahead.astype("timedelta64[D]"),
    )


def without_lot_shock(prices: LotPrices) -> LotPrices:
    """Single finds were never a lot, so nothing hits them as one."""
    var = np.where(prices.cells.kind == LOT_KIND, 0.0, prices.cells.var)
    return replace(prices, cells=replace(prices.cells, var=var))


def _days(span: Any) -> Any:
    return span.astype("timedelta64[D]").astype(np.int64).astype(np.float64)


def as_lines(listings: Sales) -> Lines:
    """Listings as the lines of a manifest."""
    return replace(
        Lines.blank(len(listings)),
        description=listings.title,
        brand=listings.brand,
        category=listings.category,
        condition=listings.condition,
        quantity=listings.quantity,
        tag_each=listings.tag_each,
        sku=listings.sku,
        gtin=listings.gtin,
    )


def _bulk(known: Sales, listings: Sales) -> FloatArray:
    """Share bought in bulk: as each listing tells, a blank as blanks were usually meant by then."""
    blank = np.full(2, -1, dtype=np.int8)
    usual = bulk_share(np.concatenate([known.sourced, blank]), np.concatenate([known.lot, texts(["named", ""])]))[-2:]
    named = np.array([bool(name.strip()) for name in listings.lot.tolist()], dtype=np.bool_)
    told = listings.sourced.astype(np.float64)
    return np.where(told >= 0, told, np.where(named, usual[0], usual[1]))


def _sold_by(pace: LotTempo, tellable: BoolArray) -> FloatArray:
    told = [share_sold(pace, np.full(len(tellable), float(days))) for days in WAITS]
    return np.where(tellable[:, None], np.stack(told, axis=1), np.nan)
