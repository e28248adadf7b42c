"""How long do fitting and asking for the pace take against the price model?  Alone, in a fresh process, in turn."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from models.bench.stopwatch import seconds
from models.bench.timing_lots import many_lines
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.estimate.fit.prices import fit_prices
from models.estimate.fit.tempo import fit_tempo
from models.estimate.lot_prices import price_lot
from models.estimate.products import build_book, match
from models.estimate.tempo import days_to_sell, in_season, pace_lot, share_sold
from models.values.arrays import FloatArray
from models.values.settings import Selling

AHEAD = 45.0  # days that prices are asked for
WINDOW = 180.0


@dataclass(frozen=True)
class PaceTiming:
    """A history to fit, and how many lines are then asked about."""

    sales: int
    lines: int
    rounds: int


def run_pace_timing(asked: PaceTiming) -> dict[str, float]:
    """Seconds of both fits and of both answers, from the same rows, the products known; the best of several."""
    shape = Shape(seed=1, n_sales=asked.sales)
    world = World(shape)
    history, until = world.history(), DAY_ZERO + shape.days
    book, product = build_book(history.title, history.sku, history.gtin)
    prices = fit_prices(history, book, product, until, "USD")
    tempo = fit_tempo(history, product, book.n_products, until)
    lines = many_lines(world, asked.lines)
    found = match(book, lines.description, lines.sku, lines.gtin)
    each = np.full(asked.lines, 2000.0)

    def paced() -> tuple[FloatArray, FloatArray]:
        lot = in_season(pace_lot(lines, found, tempo, lambda _: Selling(), each), until, WINDOW)
        return share_sold(lot, np.full(asked.lines, WINDOW)), days_to_sell(lot, WINDOW)

    methods: dict[str, Callable[[], object]] = {
        "price fit": lambda: fit_prices(history, book, product, until, "USD"),
        "pace fit": lambda: fit_tempo(history, product, book.n_products, until),
        "price lot": lambda: price_lot(lines, found, prices, np.full(asked.lines, AHEAD)),
        "pace lot": paced,
    }
    best = dict.fromkeys(methods, np.inf)
    for _ in range(asked.rounds):
        for name, method in methods.items():
            best[name] = min(best[name], seconds(method))
    return best
