"""Invented histories of known truth for tests of the backtest, and the walk over them."""

import datetime as dt
from functools import cache
from typing import Any

import numpy as np

from models.appraisal.backtest.dated import Dated, dated
from models.appraisal.backtest.walk import Asked, backtest
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import World
from models.values.sales import Sales

FAR = dt.date(2100, 1, 1)


def quiet(share: float, step: str) -> None:
    """Nobody looks on."""


@cache
def shop(seed: int = 1, n_sales: int = 500, **shape: Any) -> Sales:
    """A shop's history; in truth prices drift and lots differ as the shape says."""
    return World(Shape(seed, n_sales, **shape)).history()


def history(sales: Sales) -> Dated:
    return dated(sales, FAR)


def walked(sales: Sales, cut_offs: int = 8) -> dict[str, Any]:
    return backtest(sales, Asked(FAR, "USD", most_cut_offs=cut_offs), quiet)


def middle_day(sales: Sales, share: float = 0.5) -> np.datetime64:
    """The day by which that share had sold."""
    sold_on = np.sort(sales.sold_on[sales.sold])
    return sold_on[int(len(sold_on) * share)]
