"""One invented world with several shops: auctions among the shops themselves, and many more among stand-ins."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from models.bench.auctions.bidding import (
    Sold,
    auctioned,
    expected,
    hindsight_limits,
    limits,
    lost,
    oracle_limits,
    profit,
    ruled_limits,
    shades,
    tag_limits,
)
from models.bench.auctions.judged import BASES, Crowd, Judged, judged
from models.bench.auctions.surrogate import calibrated
from models.values.arrays import FloatArray
from models.values.streams import stream

BIDDINGS = ("rising", "sealed")
EQUAL = (1, 3, 8)  # rivals told and there
DRAWN = 20_000  # auctions of each kind among stand-ins
Measures = dict[str, float]


@dataclass(frozen=True)
class Kind:
    """Auctions of one kind: what the shop of interest is told, how many rivals there are and how those bid."""

    key: str
    told: int
    rivals: int
    rivals_told: int  # 0: they do not shade
    bid: str = "alike"  # alike | experts: after longer histories | means: all that they expect | truth: as the oracle


EQUAL_KINDS = tuple(Kind(f"equal {k}", k, k, k) for k in EQUAL)
OTHER_KINDS = (
    Kind("told 3, 8 there", 3, 8, 3),
    Kind("told 0, 3 there", 0, 3, 0),
    Kind("rivals do not shade", 3, 3, 0),
    Kind("rivals know ten times as much", 3, 3, 3, "experts"),
    Kind("rivals know the true odds", 3, 3, 0, "truth"),
    Kind("rivals pay all they expect", 3, 3, 0, "means"),
)


def run_auctions(crowd: Crowd) -> Measures:
    """Every measure of one world."""
    seen = judged(crowd)
    stand_in = calibrated(seen)
    found = dict(_calibration(seen))
    for bidding in BIDDINGS:
        for k in EQUAL:
            found[f"{bidding}/equal {k}/lost, shops"] = _lost_among_shops(seen, k, bidding)
        for kind in (*EQUAL_KINDS, *OTHER_KINDS):
            rng = stream(crowd.shape.seed, "bench auctions", f"{bidding} {kind.key}")
            drawn = stand_in.drawn(rng, DRAWN, 1 + kind.rivals, kind.rivals)
            found |= {f"{bidding}/{kind.key}/{name}": value for name, value in measured(drawn, kind, bidding)}
    return found


def _lost_among_shops(seen: Judged, rivals: int, bidding: str) -> float:
    """The real forecasts of the world's shops under the real rules, in as many separate groups as the shops make."""
    together = rivals + 1
    groups = seen.shops.middle.shape[1] // together
    limit = ruled_limits(seen.shops.of(slice(groups * together)), rivals, bidding)
    actual = np.repeat(seen.actual, groups)
    return lost(auctioned(limit.reshape(-1, together), bidding), actual, np.ones(len(actual), dtype=np.bool_))


def measured(drawn: Judged, kind: Kind, bidding: str) -> Iterator[tuple[str, float]]:
    """What became of the shop of interest, and of others in its place against the same rivals."""
    ours, actual, others = drawn.shops.of(slice(1)), drawn.actual, rival_limits(drawn, kind, bidding)
    own = limits(ours, kind.told, bidding)[:, 0]
    sold = _against(own, others, bidding)
    won = sold.winner == 0
    money = expected(ours, kind.told, bidding)[:, 0]
    yield "won", float(won.sum())
    yield "actual / expected", float(np.exp(actual[won]).sum() / money[won].sum()) if won.any() else float("nan")
    in_place = {
        "ours": sold,
        "unshaded": _against(own - shades(ours, kind.told, bidding)[:, 0], others, bidding),
        "oracle": _against(oracle_limits(drawn), others, bidding),
        "tags": _against(tag_limits(drawn), others, bidding),
        "tags, hindsight": _against(hindsight_limits(drawn), others, bidding),
        "nobody shades": auctioned(limits(drawn.shops, 0, bidding), bidding),
    }
    for name, one in in_place.items():
        yield f"{name}/profit", profit(one, actual, one.winner == 0)
        yield f"{name}/lost", lost(one, actual, one.winner == 0)


def rival_limits(drawn: Judged, kind: Kind, bidding: str) -> FloatArray:
    """How far the rivals of such an auction go, shape (n_auctions, n_rivals)."""
    rest = drawn.shops.of(slice(1, None))
    if kind.bid == "experts":
        return limits(drawn.experts, kind.rivals_told, bidding)
    if kind.bid == "truth":
        return np.repeat(oracle_limits(drawn)[:, None], kind.rivals, axis=1)
    if kind.bid == "means":
        return np.asarray(np.log(expected(rest, kind.rivals_told, bidding)))
    return limits(rest, kind.rivals_told, bidding)


def _against(own: FloatArray, others: FloatArray, bidding: str) -> Sold:
    return auctioned(np.column_stack([own, others]), bidding)


def _calibration(seen: Judged) -> Iterator[tuple[str, float]]:
    """What the stand-in is made of, as far as it can be told in a line."""
    error = seen.shops.middle - seen.actual[:, None]
    common = error.mean(axis=1)
    own_var = float(np.sum((error - common[:, None]) ** 2) / (len(error) * (error.shape[1] - 1)))
    yield "mean error", float(error.mean())
    yield "shared error", float(np.sqrt(max(0.0, common.var(ddof=1) - own_var / error.shape[1])))
    yield "own error", own_var**0.5
    yield "stated sd", float(seen.shops.sd.mean())
    yield "judgement sd", float(seen.shops.judgement_sd.mean())
    yield "own / judgement", own_var / float(np.mean(seen.shops.judgement_sd**2))
    yield "stated sd, ten times the sales", float(seen.experts.sd.mean())
    for name, share in zip(BASES, seen.known, strict=True):
        yield f"lines by {name}", share
