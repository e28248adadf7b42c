"""Bid plans against published knapsacks, brute force over every subset (written here anew) and a closed form.

Sources: instances P01, P06 and P08 with their optima 309, 1,735 and 13,549,094 from the data sets KNAPSACK_01 of John
Burkardt, Florida State University (P08 by Kreher and Stinson, Combinatorial Algorithms, CRC Press 1998,
ISBN 0-8493-3988-X).  Var(A + B) = Var A + Var B + 2 Cov(A, B): two lots that load b on one shared standard normal and
own unit noise have a sum of variance 2 (1 + b^2) + 2 b^2, unrelated ones 2 (1 + b^2).
"""

from itertools import combinations

import numpy as np
import pytest

from models.decide.plan import Candidate, bid_plan
from models.decide.plan_search import JointLimits, LotTable, best_lots
from models.decide.quantiles import lowest_at
from models.values.streams import stream

P01 = (165, [23, 31, 29, 44, 53, 38, 63, 85, 89, 82], [92, 57, 49, 68, 60, 43, 67, 84, 87, 72], 309)
P06 = (170, [41, 50, 49, 59, 55, 57, 60], [442, 525, 511, 593, 546, 564, 617], 1735)
P08 = (
    6404180,
    [382745, 799601, 909247, 729069, 467902, 44328, 34610, 698150, 823460, 903959, 853665, 551830, 610856, 670702,
     488960, 951111, 323046, 446298, 931161, 31385, 496951, 264724, 224916, 169684],
    [825594, 1677009, 1676628, 1523970, 943972, 97426, 69666, 1296457, 1679693, 1902996, 1844992, 1049289, 1252836,
     1319836, 953277, 2067538, 675367, 853655, 1826027, 65731, 901489, 577243, 466257, 369261],
    13549094,
)  # fmt: skip


def sure(profit: list[int], weight: list[int]) -> LotTable:
    """Lots whose cash is certain, so that only the limits bind."""
    cash_out = np.array(weight, dtype=float)
    return LotTable(np.array(profit, dtype=float), cash_out, np.ones(len(weight)), np.tile(cash_out[:, None], 4))


@pytest.mark.parametrize(("room", "weight", "profit", "optimum"), [P01, P06, P08], ids=["P01", "P06", "P08"])
def test_published_knapsacks_come_out(room: int, weight: list[int], profit: list[int], optimum: int) -> None:
    found = best_lots(sure(profit, weight), JointLimits(float(room), 1e9, 0.8))
    assert found.profit == found.most == optimum
    assert sum(weight[lot] for lot in found.chosen) <= room


@pytest.mark.parametrize(("room", "weight", "profit", "optimum"), [P01, P06, P08], ids=["P01", "P06", "P08"])
def test_hours_bind_as_cash_does(room: int, weight: list[int], profit: list[int], optimum: int) -> None:
    lots = sure(profit, [1] * len(weight))
    lots = LotTable(lots.profit, lots.cash_out, np.array(weight, dtype=float), lots.cash)
    assert best_lots(lots, JointLimits(1e9, float(room), 0.8)).profit == optimum


def some_lots(seed: int, count: int) -> LotTable:
    """Skewed lots that share a market and differ in size."""
    rng = stream(seed, "lots to choose from")
    cash_out = np.rint(rng.uniform(200, 3000, count))
    market, own = rng.normal(0, 0.3, 64), rng.normal(0, 0.5, (count, 64))
    cash = np.rint(cash_out[:, None] * rng.uniform(1.0, 2.0, (count, 1)) * np.exp(market + own))
    hours = rng.uniform(0, 40, count)
    return LotTable(np.rint(cash.mean(axis=1) - 10 * hours) - cash_out, cash_out, hours, cash)


def brute(lots: LotTable, limits: JointLimits) -> float:
    """The best profit of all subsets, the goals read from sorted sums as the rules of one lot read them."""
    best, everyone = 0.0, range(len(lots.profit))
    for size in range(1, len(lots.profit) + 1):
        for subset in combinations(everyone, size):
            some = list(subset)
            due, cash = lots.cash_out[some].sum(), lots.cash[some].sum(axis=0)
            if due > limits.cash or lots.hours[some].sum() > limits.hours:
                continue
            if lowest_at(cash, 1 - limits.confidence) < due:
                continue
            if limits.loss_limit is not None and lowest_at(cash, limits.loss_chance) + limits.loss_limit < due:
                continue
            best = max(best, float(lots.profit[some].sum()))
    return best


@pytest.mark.parametrize("seed", range(24))
def test_no_subset_is_better(seed: int) -> None:
    lots = some_lots(seed, 4 + seed % 7)
    total = float(lots.cash_out.sum()), float(lots.hours.sum())
    loss = (None, 400.0, 0.0)[seed % 3]
    limits = JointLimits((0.3, 0.6, 1.0)[seed % 3] * total[0], (0.9, 0.4)[seed % 2] * total[1], 0.7, loss, 0.1)
    found = best_lots(lots, limits)
    assert found.profit == found.most == brute(lots, limits)


@pytest.mark.parametrize("seed", range(4))
def test_more_lots_than_are_searched_exactly_stay_within_the_gap(seed: int) -> None:
    lots = some_lots(seed, 18)
    limits = JointLimits(0.4 * float(lots.cash_out.sum()), 0.5 * float(lots.hours.sum()), 0.7)
    found, best = best_lots(lots, limits), brute_by_doubling(lots, limits)
    assert found.profit <= best <= found.most


def brute_by_doubling(lots: LotTable, limits: JointLimits) -> float:
    """All 2^18 subsets: cheap sums first, the draws only of those that could still be the best."""
    profit, due, hours = (np.zeros(1) for _ in range(3))
    for at in range(len(lots.profit)):
        profit = np.concatenate([profit, profit + lots.profit[at]])
        due = np.concatenate([due, due + lots.cash_out[at]])
        hours = np.concatenate([hours, hours + lots.hours[at]])
    fits = np.flatnonzero((due <= limits.cash) & (hours <= limits.hours))
    for subset in fits[np.argsort(-profit[fits], kind="stable")].tolist():
        some = [at for at in range(len(lots.profit)) if subset >> at & 1]
        if not some or lowest_at(lots.cash[some].sum(axis=0), 1 - limits.confidence) >= due[subset]:
            return float(profit[subset])
    return 0.0


@pytest.mark.parametrize("load", [0.0, 0.5, 1.0, 2.0])
def test_the_spread_of_a_sum_follows_what_the_lots_share(load: float) -> None:
    rng = stream(7, "shared normal")
    shared, one, other = rng.standard_normal((3, 400_000))
    lots = [Candidate(1.0, 1.0, 1e5 + 1000 * (load * shared + own), np.full(400_000, 1e5)) for own in (one, other)]
    figures = bid_plan(lots, JointLimits(1e9, 1e9, 0.8)).figures
    assert figures.sd == pytest.approx(1000 * np.sqrt(2 * (1 + load**2) + 2 * load**2), rel=0.01)
    assert figures.sd_apart == pytest.approx(1000 * np.sqrt(2 * (1 + load**2)), rel=0.01)
