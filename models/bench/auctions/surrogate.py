"""A Gaussian stand-in for one world's lots and shops, for auctions by the ten thousand.

What a lot's shops share and what is each shop's own are estimated from the real forecasts by moments; levels, spreads
and judgement spreads are jointly normal on their logs, with the truth, the experts and the tags.
"""

from dataclasses import dataclass

import numpy as np

from models.bench.auctions.judged import Judged, Stated
from models.values.arrays import FloatArray

_FEW = 3  # columns of one shop: middle, ln sd, ln judgement sd


@dataclass(frozen=True)
class Surrogate:
    """Shared columns of a lot: actual, tag total, then what shops and experts state; own ones of a shop, an expert."""

    mean: FloatArray  # (2 + 3 + 3,)
    shared: FloatArray  # (8, 8) square root of the covariance
    own: FloatArray  # (3, 3), the same of a shop
    own_expert: FloatArray  # (3, 3)
    oracle_sd: float
    tag_share: FloatArray  # of each real shop; auctions draw from them

    def drawn(self, rng: np.random.Generator, lots: int, shops: int, experts: int) -> Judged:
        """So many lots, each valued by so many shops that nobody has met before."""
        lot = self.mean + rng.standard_normal((lots, len(self.mean))) @ self.shared
        columns = lot[:, None, 2 : 2 + _FEW] + rng.standard_normal((lots, shops, _FEW)) @ self.own
        wiser = lot[:, None, 2 + _FEW :] + rng.standard_normal((lots, experts, _FEW)) @ self.own_expert
        return Judged(
            shops=Stated.unstacked(columns),
            experts=Stated.unstacked(wiser),
            actual=lot[:, 0],
            tag_total=lot[:, 1],
            oracle_sd=np.full(lots, self.oracle_sd),
            tag_share=rng.choice(self.tag_share, lots),
        )


def calibrated(seen: Judged) -> Surrogate:
    """The stand-in whose means and covariances are those of the real forecasts.

    The mean over m shops carries own / m beside what is shared, which is taken off again.
    """
    shops, own = _parted(seen.shops.stacked())
    experts, own_expert = _parted(seen.experts.stacked())
    lot = np.column_stack([seen.actual, seen.tag_total, shops, experts])
    shared = np.cov(lot.T)
    first, second = slice(2, 2 + _FEW), slice(2 + _FEW, None)
    shared[first, first] -= own / seen.shops.middle.shape[1]
    shared[second, second] -= own_expert / seen.experts.middle.shape[1]
    return Surrogate(
        mean=lot.mean(axis=0),
        shared=_root(shared),
        own=_root(own),
        own_expert=_root(own_expert),
        oracle_sd=float(seen.oracle_sd.mean()),
        tag_share=seen.tag_share,
    )


def _parted(columns: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Means over a lot's shops, (n_lots, 3), and the covariance of what is a shop's own, (3, 3)."""
    n_lots, n_shops, width = columns.shape
    mean = columns.mean(axis=1)
    gap = (columns - mean[:, None]).reshape(-1, width)
    return mean, np.asarray(gap.T @ gap / (n_lots * (n_shops - 1)))


def _root(covariance: FloatArray) -> FloatArray:
    """Symmetric square root; a covariance estimated by differences can come out slightly negative."""
    value, vector = np.linalg.eigh(covariance)
    return np.asarray((vector * np.sqrt(np.maximum(value, 0.0))) @ vector.T)
