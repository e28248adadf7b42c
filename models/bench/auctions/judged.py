"""What do several shops state of the same lots, and what do these turn out to be worth?

Simplified against a whole appraisal: every unit sells singly within its window, at selling costs that are a share of
the price, so that cash proceeds are a share of the gross total; its distribution is the closed form of the estimate
(the bench holds it against draws).  Prices, their joint spread and `judgement_sd` are the product's own.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from models.bench.auctions.market import SharedMarket
from models.bench.shop import Shop, fitted, priced, total_of
from models.bench.worlds.lots import TestLot, oracle_total
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO
from models.estimate.lot_joint import LotPrices
from models.values.arrays import FloatArray
from models.values.sales import Sales
from models.values.settings import Goals

BASES = ("own_item", "brand_and_category", "category")
CONFIDENCE = Goals().confidence  # the demand under which everybody bids
FEWEST = 4  # sold rows of a purchase that say something of it


@dataclass(frozen=True)
class Stated:
    """Forecasts of the ln total, arrays of shape (n_lots, n_shops), the oracle's middle taken off [log units]."""

    middle: FloatArray
    sd: FloatArray
    judgement_sd: FloatArray

    def of(self, shops: slice) -> "Stated":
        """Only some of the shops."""
        return Stated(self.middle[:, shops], self.sd[:, shops], self.judgement_sd[:, shops])

    def stacked(self) -> FloatArray:
        """Middle, ln sd and ln judgement sd, shape (n_lots, n_shops, 3)."""
        return np.stack([self.middle, np.log(self.sd), np.log(self.judgement_sd)], axis=2)

    @staticmethod
    def unstacked(columns: FloatArray) -> "Stated":
        """What `stacked` gave."""
        return Stated(columns[:, :, 0], np.exp(columns[:, :, 1]), np.exp(columns[:, :, 2]))


@dataclass(frozen=True)
class Judged:
    """Lots, one row each; every value is taken against the oracle's middle, so that all lots count alike."""

    shops: Stated
    experts: Stated  # shops with longer histories
    actual: FloatArray  # (n_lots,), ln of what the lot brings
    tag_total: FloatArray  # (n_lots,), ln of quantity x tag as claimed
    oracle_sd: FloatArray  # (n_lots,)
    tag_share: FloatArray  # (n_shops,), ln of the share of the tags that a shop's own purchases teach it to pay
    known: tuple[float, ...] = ()  # mean share of lines by BASES


@dataclass(frozen=True)
class Crowd:
    """Who bids in one world."""

    shape: Shape
    lots: int
    shops: int
    experts: int
    expert_sales: int


def judged(crowd: Crowd) -> Judged:
    """Let every shop learn from its own history and value every lot."""
    market = SharedMarket(crowd.shape)
    cutoff = DAY_ZERO + crowd.shape.days
    lots = market.lots(crowd.lots)
    names = [f"shop {number}" for number in range(crowd.shops)]
    wise = [f"expert {number}" for number in range(crowd.experts)]
    histories = [market.history(name, crowd.shape.n_sales) for name in names]
    shops = [fitted(history, cutoff) for history in histories]
    experts = [fitted(market.history(name, crowd.expert_sales), cutoff) for name in wise]
    truth = [oracle_total(lot, crowd.shape) for lot in lots]
    middle = np.array([one.middle for one in truth])
    ours = _forecasts(shops, lots, cutoff)
    bases = np.concatenate([one.basis for row in ours for one in row])
    return Judged(
        shops=_stated(ours, middle),
        experts=_stated(_forecasts(experts, lots, cutoff), middle),
        actual=np.log([lot.actual for lot in lots]) - middle,
        tag_total=np.log([_tag_total(lot) for lot in lots]) - middle,
        oracle_sd=np.array([one.sd for one in truth]),
        tag_share=np.array([paid_share(history) for history in histories]),
        known=tuple(float(np.mean(bases == name)) for name in BASES),
    )


def _forecasts(shops: Sequence[Shop], lots: Sequence[TestLot], cutoff: np.datetime64) -> list[list[LotPrices]]:
    return [[priced(shop, lot.lines, cutoff + int(lot.days_ahead)) for shop in shops] for lot in lots]


def _stated(forecasts: list[list[LotPrices]], middle: FloatArray) -> Stated:
    totals = [[total_of(one) for one in row] for row in forecasts]
    return Stated(
        np.array([[one.middle for one in row] for row in totals]) - middle[:, None],
        np.array([[one.sd for one in row] for row in totals]),
        np.array([[one.judgement_sd for one in row] for row in forecasts]),
    )


def paid_share(history: Sales) -> float:
    """Ln of the share of its tags that all but the worst fifth of a shop's own purchases brought, unsold rows aside."""
    told = history.take(history.sold & (history.lot != "") & ~np.isnan(history.tag_each))
    _, of_row, rows = np.unique(told.lot, return_inverse=True, return_counts=True)
    share = np.bincount(of_row, told.sold_price) / np.bincount(of_row, told.tag_each)
    return float(np.log(np.quantile(share[rows >= FEWEST], 1 - CONFIDENCE)))


def _tag_total(lot: TestLot) -> float:
    """Quantity x tag; a blank tag counts as the lot's mean one, as one would by hand."""
    tag = lot.lines.tag_each
    return float(lot.lines.quantity @ np.where(np.isnan(tag), np.nanmean(tag), tag))
