"""How long does a fit take and how much memory?  Each task runs alone, in a fresh process with one BLAS thread."""

import time
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix

from models.bench.baselines.inputs import Columns, of_sales
from models.bench.baselines.ridge import plain_ridge, ridge
from models.bench.shop import fitted
from models.bench.stopwatch import peak_mb, seconds
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.estimate.blocks import design
from models.estimate.fit.prices_facts import dates, facts_of
from models.estimate.fit.prices_levels import PRICE_BLOCKS, chosen, price_base
from models.values.sales import Sales

Measures = dict[str, float]


@dataclass(frozen=True)
class Fit:
    """A history to fit; with `rounds` the times are the best of so many, with 0 only memory is taken."""

    sales: int
    rounds: int


def run_fit(asked: Fit) -> Measures:
    """Seconds of our fit and of two plain ridges, each from the same sold rows; memory of ours."""
    shape = Shape(seed=1, n_sales=asked.sales)
    history, cutoff = World(shape).history(), DAY_ZERO + shape.days
    started = time.perf_counter()
    fitted(history, cutoff)
    first = time.perf_counter() - started
    measures = {"memory": peak_mb(), "ours": first}
    if asked.rounds:
        sold = history.take(history.sold)
        measures["tuned ridge"] = seconds(lambda: _tuned_ridge(sold, cutoff))
        methods: dict[str, Callable[[], object]] = {
            "ours": lambda: fitted(history, cutoff),
            "ridge": lambda: _tfidf_ridge(sold, cutoff),
            "own columns": lambda: _own_columns(sold),
        }
        for _ in range(asked.rounds):  # in turn: a machine that is busy for a while is so for all of them
            for name, method in methods.items():
                measures[name] = min(measures.get(name, np.inf), seconds(method))
    return measures


def _tfidf_ridge(sold: Sales, cutoff: np.datetime64) -> None:
    """Words, pairs, kinds, tag, bulk and age as sparse columns, one ridge at a given penalty."""
    inputs = of_sales(sold, cutoff)
    plain_ridge(Columns(inputs).of(inputs), np.log(sold.sold_price), 1.0)


def _tuned_ridge(sold: Sales, cutoff: np.datetime64) -> None:
    """The ridge that line prices are compared with: its penalty is chosen by cross-validation."""
    ridge(of_sales(sold, cutoff), np.log(sold.sold_price))


def _own_columns(sold: Sales) -> None:
    """A plain ridge on the very columns that ours chooses."""
    tag = np.nan_to_num(np.log(np.maximum(sold.tag_each, 50.0)))
    facts = facts_of(sold, dates(sold), tag, np.isnan(sold.tag_each).astype(np.float64))
    x = design(chosen(facts, PRICE_BLOCKS, price_base(facts)), facts)
    rows = csr_matrix((x.value, x.column, x.start), shape=(len(x), x.width))
    plain_ridge(rows, np.log(sold.sold_price), 1.0)
