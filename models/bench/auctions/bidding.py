"""How far does each bidder go, who wins and what do they pay?

Bids are told as cash out [ln, against the oracle's middle]: premium and fees move every bidder alike.
"""

import math
from dataclasses import dataclass

import numpy as np
from scipy.special import ndtri

from models.bench.auctions.judged import CONFIDENCE, Judged, Stated
from models.decide.ceiling import LotDraws, bid_ceiling
from models.decide.rivals import shade_factor
from models.decide.room import Room
from models.decide.terms import cash_out
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.settings import Buying, Goals, Settings

Z: float = float(ndtri(1 - CONFIDENCE))
_SHARE = Buying().common_share
_GRID: FloatArray = ndtri((np.arange(2048) + 0.5) / 2048)  # equally likely values of a standard normal
_LOT = 1e6  # [minor units] a lot's true median: its cents then do not matter
# No return and no pay is asked for, so that the confidence rule binds everywhere: others could only lower the ceiling.
_RULES = Settings(buying=Buying(freight=0.0, bid_step=((0.0, 1.0),)), goals=Goals(return_on_cash=0.0, hourly_pay=0.0))
_ROOM = Room(True, 1.0, 26.0, 1.0, None)


@dataclass(frozen=True)
class Sold:
    """How auctions ended, arrays of shape (n_auctions,)."""

    winner: IntArray
    price: FloatArray  # cash out [ln]


def limits(stated: Stated, told: float, bidding: str) -> FloatArray:
    """The confidence rule's limit on cash out, after the shade for so many rivals told, shape of `stated`."""
    return stated.middle + Z * stated.sd + shades(stated, told, bidding)


def ruled_limits(stated: Stated, told: float, bidding: str) -> FloatArray:
    """The same from the rules themselves, one lot after the other: cash out at the bid ceiling; NaN if not binding."""
    found = np.empty(stated.middle.shape)
    for place in np.ndindex(found.shape):
        shade = shade_factor(told, _SHARE, float(stated.judgement_sd[place]), bidding)
        cash = np.rint(_LOT * shade * np.exp(stated.middle[place] + stated.sd[place] * _GRID))
        ceiling = bid_ceiling(LotDraws(cash, cash, 0.0), _RULES, _ROOM)
        binds = ceiling.binding_rule == "confidence"
        found[place] = math.log(cash_out(ceiling.amount, _RULES.buying, 1.0) / _LOT) if binds else np.nan
    return found


def shades(stated: Stated, told: float, bidding: str) -> FloatArray:
    """Ln of the factor on every price; linear in the judgement's spread."""
    return math.log(shade_factor(told, _SHARE, 1.0, bidding)) * stated.judgement_sd


def expected(stated: Stated, told: float, bidding: str) -> FloatArray:
    """Cash proceeds as stated beside the ceiling: after the shade."""
    return np.asarray(np.exp(stated.middle + stated.sd**2 / 2 + shades(stated, told, bidding)))


def oracle_limits(seen: Judged) -> FloatArray:
    """The same rule read by one who knows the distribution of the true worth, (n_lots,); nothing to shade."""
    return Z * seen.oracle_sd


def tag_limits(seen: Judged) -> FloatArray:
    """A fixed share of the tags, (n_lots,), as a shop's own purchases taught it."""
    return seen.tag_total + seen.tag_share


def hindsight_limits(seen: Judged) -> FloatArray:
    """The share of the tags that, of all these lots, as many brought as the confidence asks for; nobody knows it."""
    return seen.tag_total + np.quantile(seen.actual - seen.tag_total, 1 - CONFIDENCE)


def auctioned(limit: FloatArray, bidding: str) -> Sold:
    """Highest limit wins; sealed it pays its own, rising it pays the runner-up's.

    `limit` has shape (n_auctions, n_bidders), two bidders or more.
    """
    rising = np.sort(limit, axis=1)
    price = rising[:, -1] if bidding == "sealed" else rising[:, -2]
    return Sold(limit.argmax(axis=1), price)


def lost(sold: Sold, actual: FloatArray, won: BoolArray) -> float:
    """Share of the won lots whose cash did not come back."""
    return float(np.mean(actual[won] < sold.price[won])) if won.any() else float("nan")


def profit(sold: Sold, actual: FloatArray, won: BoolArray) -> float:
    """Cash gain a lot offered, in shares of what the lot's true median is."""
    return float(np.sum(np.exp(actual[won]) - np.exp(sold.price[won])) / len(won))
