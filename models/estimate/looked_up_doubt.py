"""Can a looked-up price be meant?  Far off all that is known of its goods, not until a second agrees."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from models.estimate.looked_up_surprise import GAP_SD, SHARED_GAP_SD, own_item, surplus_var
from models.estimate.lot_joint import LotPrices
from models.estimate.tags import WRONG_SHARE, good_probability
from models.values.arrays import BoolArray, FloatArray

# All common practice, no source.
FAR: Final = 5.0  # times outside the stated range: said, even where it is believed
APART: Final = 4.0  # highest over lowest price of one line: said
AGREE: Final = 1.5  # two prices no further apart bear each other out
Z95: Final = 1.6448536269514722  # standard normal quantile of .95: nine prices of ten lie within


@dataclass(frozen=True)
class PriceDoubt:
    """Looked-up prices of one line that are to be asked about [minor units]."""

    line: int
    prices: tuple[float, ...]  # all that were given, rising
    ignored: tuple[float, ...]  # those that are not counted
    low: float  # range of nine sales of ten without them, NaN where nothing is known
    high: float
    is_far: bool  # some lie far outside that range, else they only differ from each other
    in_part: bool  # those counted are together so far off that they do not count in full


def doubted(now: LotPrices, prices: Mapping[int, Sequence[float]]) -> tuple[PriceDoubt, ...]:
    """Lines whose looked-up prices look like slips, by line number.

    Parameters
    ----------
    now : LotPrices
        As of today, before anything looked up taught it.
    prices : mapping of line number to prices
        Sold prices of one unit [minor units], each above zero.

    Raises
    ------
    KeyError
        If the lot has no such line.

    Notes
    -----
    A price is good with the probability that a tag is, by how far it lies from the line's own distribution widened by
    the gaps of `looked_up`; a price less likely good than wrong is ignored, unless another of its line agrees.  What is
    left counts in part where `surplus_var` of `looked_up` says so.

    Examples
    --------
    >>> from models.estimate.lot_prices import price_lot
    >>> from models.values.lines import Lines
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.sales import Sales
    >>> lines, sales = Lines.blank(2), Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> lot = price_lot(lines, match(book, lines.description, lines.sku, lines.gtin), model, np.zeros(2))
    >>> [(one.line, one.ignored) for one in doubted(lot, {1: (9e9, 4000.0), 2: (4000.0,)})]
    [(1, (9000000000.0,))]
    """
    place = {int(number): at for at, number in enumerate(now.no.tolist())}
    found = (_doubt(line, np.sort(np.asarray(some)), now, place[line]) for line, some in sorted(prices.items()) if some)
    return tuple(one for one in found if one is not None)


def believed(prices: Mapping[int, Sequence[float]], doubts: Sequence[PriceDoubt]) -> Mapping[int, Sequence[float]]:
    """The looked-up prices without those that are ignored.

    Examples
    --------
    >>> doubt = PriceDoubt(1, (5.0, 900.0), (900.0,), 4.0, 6.0, True, False)
    >>> believed({1: (5.0, 900.0), 2: (7.0,)}, (doubt,))
    {1: (5.0,), 2: (7.0,)}
    """
    ignored = {one.line: one.ignored for one in doubts}
    return {line: tuple(one for one in some if one not in ignored.get(line, ())) for line, some in prices.items()}


def _doubt(line: int, some: FloatArray, now: LotPrices, at: int) -> PriceDoubt | None:
    centre, var = float(now.mu[at]), float(now.log_var[at] + now.noise_var[at])
    if not np.isfinite(centre):
        low = high = np.nan
        wrong = far = np.zeros(len(some), dtype=np.bool_)
    else:
        low, high = (float(np.exp(centre + z * np.sqrt(var))) for z in (-Z95, Z95))
        far = (some < low / FAR) | (some > high * FAR)
        spread = np.full(len(some), var + GAP_SD**2 + SHARED_GAP_SD**2)
        good = good_probability(np.log(some), np.full(len(some), centre), spread, WRONG_SHARE)
        wrong = (good < 0.5) & ~_borne_out(some)
    in_part = _counts_in_part(some[~wrong], now, at)
    if not (in_part or wrong.any() or far.any() or some[-1] > APART * some[0]):
        return None
    is_far = in_part or bool((wrong | far).any())
    return PriceDoubt(line, tuple(some.tolist()), tuple(some[wrong].tolist()), low, high, is_far, in_part)


def _counts_in_part(some: FloatArray, now: LotPrices, at: int) -> bool:
    if not len(some) or not own_item(now, np.array([at]))[0]:
        return False
    seen, count = np.array([np.log(some).mean()]), np.array([float(len(some))])
    return bool(surplus_var(now, np.array([at]), seen, count)[0] > 0)


def _borne_out(some: FloatArray) -> BoolArray:
    """True where another price of the line is close; `some` rises."""
    close = np.diff(some) <= (AGREE - 1.0) * some[:-1]
    return np.asarray(np.append(close, False) | np.insert(close, 0, False), dtype=np.bool_)
