"""How soon do goods of this shop sell, fitted on what sold and what has not sold yet?

Files that hold sold listings only cannot tell: dropping the unsold ones makes every goods look quick.  Then the model
is `declared`, and the settings' never_sells_share and days_to_sell stand in, which a caution says.
"""

from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Any

import numpy as np
from scipy.sparse import csr_matrix, hstack

from models.estimate.fit.prices_sample import variance_rows
from models.estimate.fit.tempo_begin import begun
from models.estimate.fit.tempo_exposure import (
    MONTHS,
    SEASON_DAYS,
    Pieces,
    known_sold,
    pieces_of,
    timed_listings,
)
from models.estimate.fit.tempo_least import OwnPace, own_pace
from models.estimate.fit.tempo_ridge import Prior, RidgeFit, frailty_ridge
from models.estimate.tempo_declared import FEWEST_UNITS
from models.estimate.tempo_levels import Levels, brand_keys, category_keys, counted, no_levels, price_level
from models.estimate.tempo_model import Kinds, TempoModel
from models.values.arrays import FloatArray, IntArray, TextArray, texts
from models.values.conditions import CONDITIONS
from models.values.sales import Sales

LEAST_PRICES = 5  # of a category, for a median price of its own
MOST_LEVELS = 600  # of a block, those with most listings: the others are goods of an unknown kind
# Sd of an effect in ln rate, where learning starts.
SPREADS = MappingProxyType({"top": 0.32, "sub": 0.25, "brand": 0.25, "condition": 0.25, "month": 0.15, "price": 0.3})
# Their error is stated whatever the other effects are, that of the others given the rest: a line has all of them, and
# what is in doubt between two of its levels is counted once.
FINEST = ("sub", "brand")


def fit_tempo(sales: Sales, product: IntArray, n_products: int, known_until: np.datetime64) -> TempoModel:
    """Rates of sale by kind of goods, and what each product's own listings say.

    Parameters
    ----------
    sales : Sales
        The history, unsold listings included.  Units of a row with quantity above 1 count as that many sales.
    product : ndarray of shape (n_rows,)
        Product of each row, 0 .. n_products - 1.
    n_products : int
        Number of products.
    known_until : datetime64
        End of what is known: unsold listings were unsold on that day.

    Returns
    -------
    TempoModel
        `declared` where fewer than 5 sold or 5 unsold units have a known start.
    """
    timed = timed_listings(sales, product, known_until)
    stock = own_stock(sales, product, n_products, known_until)
    sold_units, unsold_units = int(timed.events.sum()), int(timed.units[~timed.sold].sum())
    if sold_units < FEWEST_UNITS or unsold_units < FEWEST_UNITS:
        own = own_pace(sales, product, n_products, known_until)
        return _declared(sold_units, unsold_units, stock, own)
    known = begun(timed)
    seen = known.seen
    seasonal = bool(np.ptp(np.concatenate([known.taught.start, known.taught.end])) >= SEASON_DAYS)
    pieces = pieces_of(known.taught, seasonal)
    medians, kinds = kinds_of(sales, known.taught.row, known_until)
    blocks = _blocks(kinds, pieces)
    _, of = np.unique(known.taught.product, return_inverse=True)
    fit = _fit(blocks, pieces, of[pieces.listing])
    model = TempoModel(
        declared=False, seasonal=seasonal, sold_units=sold_units, unsold_units=unsold_units, shape=fit.shape,
        price_category=medians, sales=counted(seen.product, seen.events, n_products),
        expected=counted(known.taught.product[pieces.listing], fit.hazard, n_products), stock=stock,
        begins=known.begins, earlier=known.earlier, **_tables(blocks, fit),
    )  # fmt: skip
    if seen is known.taught:
        return model
    _, kinds = kinds_of(sales, seen.row, known_until)
    pieces = pieces_of(seen, seasonal)
    hazard = pieces.days * np.exp(model.ln_rate(kinds)[pieces.listing] + _season(model, pieces))
    return replace(model, expected=counted(seen.product[pieces.listing], hazard, n_products))


def _season(model: TempoModel, pieces: Pieces) -> FloatArray:
    return np.where(pieces.month >= 0, model.month_effect[pieces.month], 0.0)


def own_stock(sales: Sales, product: IntArray, n_products: int, known_until: np.datetime64) -> FloatArray:
    """Unsold units of each product at the end of what is known, shape (n_products,)."""
    listed = ~(sales.first_listed > known_until)
    unsold = ~known_sold(sales, known_until) & listed
    return counted(product[unsold], sales.quantity[unsold].astype(float), n_products)


def kinds_of(sales: Sales, row: IntArray, known_until: np.datetime64) -> tuple[Levels, Kinds]:
    """What was sold in each row, with its price against its category's median.

    Asking prices are compared with asking prices and sold prices with sold prices: unsold listings have only the
    former, which stand higher, and the gap would pass for slow sale.
    """
    asked = np.isfinite(sales.asking_price) & (sales.asking_price > 0)
    fetched = np.where(known_sold(sales, known_until), sales.sold_price, np.nan)
    top, sub = category_keys(sales.category)
    sold_medians = _medians(top, sub, fetched)
    asked_medians = _medians(top, sub, np.where(asked, sales.asking_price, np.nan))
    level = np.where(
        asked,
        price_level(sales.asking_price, median_of(asked_medians, top, sub)),
        price_level(fetched, median_of(sold_medians, top, sub)),
    )
    condition = sales.condition.astype(np.int64)
    return sold_medians, Kinds(top[row], sub[row], brand_keys(sales.brand[row]), condition[row], level[row])


def median_of(medians: Levels, top: TextArray, sub: TextArray) -> FloatArray:
    """Ln median price of the finest level known, NaN where there is none."""
    fine = medians.value_of(sub)
    return np.where(np.isfinite(fine), fine, medians.value_of(top))


def _fit(blocks: list["_Block"], pieces: Pieces, product: IntArray) -> RidgeFit:
    """Spreads learned on whole products, where there are very many on a part of them; then one fit on all."""
    X = csr_matrix(hstack([block.columns for block in blocks]))
    of_block = np.repeat(np.arange(len(blocks)), [block.columns.shape[1] for block in blocks])
    prior = Prior(of_block, np.array([SPREADS[block.name] for block in blocks]), learned=True)
    some, part = variance_rows(product), None
    if some is not None and pieces.events[some].any():
        _, few = np.unique(product[some], return_inverse=True)
        part = frailty_ridge(csr_matrix(X[some]), pieces.events[some], pieces.days[some], few, prior)
        prior = Prior(of_block, part.spread)  # the shape is learned from all: it hangs on products with many sales
    return frailty_ridge(X, pieces.events, pieces.days, product, prior, part)


@dataclass(frozen=True)
class _Block:
    name: str
    levels: TextArray
    columns: csr_matrix


def _blocks(kinds: Kinds, pieces: Pieces) -> list[_Block]:
    at = pieces.listing
    conditions = texts([str(code) if code >= 0 else "" for code in kinds.condition[at].tolist()])
    months = texts([f"{month:02d}" if month >= 0 else "" for month in pieces.month.tolist()])
    named = {"top": kinds.top[at], "sub": kinds.sub[at], "brand": kinds.brand[at]}
    blocks = [_one_hot(name, values) for name, values in (named | {"condition": conditions, "month": months}).items()]
    return [*blocks, _Block("price", texts(["price"]), csr_matrix(kinds.price_level[at][:, None]))]


def _one_hot(name: str, values: TextArray) -> _Block:
    levels, code = np.unique(values.astype(str), return_inverse=True)
    often = np.argsort(-np.bincount(code, minlength=len(levels)), kind="stable")
    kept = np.sort(often[levels[often] != ""][:MOST_LEVELS])  # a blank is no level
    place = np.full(len(levels), -1)
    place[kept] = np.arange(len(kept))
    rows = np.flatnonzero(place[code] >= 0)
    shape = (len(values), len(kept))
    columns = csr_matrix((np.ones(len(rows)), (rows, place[code[rows]])), shape=shape)
    return _Block(name, texts(levels[kept].tolist()), columns)


def _tables(blocks: list[_Block], fit: RidgeFit) -> dict[str, Any]:
    ends = np.cumsum([block.columns.shape[1] for block in blocks])
    made = {}
    for block, end, spread in zip(blocks, ends, fit.spread.tolist(), strict=True):
        at = slice(end - block.columns.shape[1], end)
        told = block.columns.T @ fit.information
        if block.name in FINEST:
            told = np.maximum(1.0 / fit.variance[at] - spread**-2.0, 0.0)
        if block.name == "price":
            told = block.columns.multiply(block.columns).T @ fit.information
        made[block.name] = Levels(block.levels, fit.beta[at], told, spread)
    months = _placed(made["month"], MONTHS)
    level = float(np.log(np.mean(np.exp(months))))  # factors that average to 1: the rest belongs to the base
    return {
        "top": made["top"], "sub": made["sub"], "brand": made["brand"],
        "condition_effect": _placed(made["condition"], len(CONDITIONS)), "month_effect": months - level,
        "ln_base": fit.ln_base + level, "base_information": float(fit.information.sum()),
        "condition_sd": made["condition"].sd_of(texts([str(code) for code in range(len(CONDITIONS))])),
        "price_slope": float(made["price"].effect[0]),
        "price_slope_sd": float(made["price"].sd_of(texts(["price"]))[0]),
    }  # fmt: skip


def _placed(levels: Levels, n: int) -> FloatArray:
    effects = np.zeros(n)
    effects[[int(name) for name in levels.name.tolist()]] = levels.effect
    return effects


def _medians(top: TextArray, sub: TextArray, price: FloatArray) -> Levels:
    found: dict[str, float] = {}
    usable = np.isfinite(price) & (price > 0)
    for keys in (top, sub):
        levels, code = np.unique(keys[usable].astype(str), return_inverse=True)
        ordered = np.log(price[usable])[np.argsort(code, kind="stable")]
        groups = np.split(ordered, np.cumsum(np.bincount(code))[:-1]) if len(levels) else []
        found |= {
            name: float(np.median(group))
            for name, group in zip(levels.tolist(), groups, strict=True)
            if name and len(group) >= LEAST_PRICES
        }
    names = sorted(found)
    return Levels(texts(names), np.array([found[name] for name in names], dtype=float), np.zeros(len(names)))


def _declared(sold_units: int, unsold_units: int, stock: FloatArray, own: OwnPace) -> TempoModel:
    nothing = np.zeros(len(stock))
    return TempoModel(
        declared=True, seasonal=False, sold_units=sold_units, unsold_units=unsold_units, shape=np.nan, ln_base=np.nan,
        base_information=0.0, top=no_levels(), sub=no_levels(), brand=no_levels(),
        condition_effect=np.zeros(len(CONDITIONS)), month_effect=np.zeros(MONTHS), price_slope=0.0,
        price_category=no_levels(), sales=nothing, expected=nothing, stock=stock, least_sales=own.sales,
        least_days=own.days,
    )  # fmt: skip
