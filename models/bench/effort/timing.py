"""How long do fitting and telling minutes take beside prices and time to sell?"""

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from models.bench.stopwatch import seconds
from models.bench.worlds.goods_table import joined, numbered
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.estimate.effort import line_minutes
from models.estimate.effort_draws import listing_spread
from models.estimate.fit.effort import fit_effort
from models.estimate.fit.prices import fit_prices
from models.estimate.fit.tempo import fit_tempo
from models.estimate.lot_prices import price_lot
from models.estimate.products import build_book, match
from models.estimate.tempo import pace_lot
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.settings import Effort, Settings
from models.values.streams import stream

LINES = 1000


@dataclass(frozen=True)
class EffortFit:
    """A history to fit, each method the best of so many rounds."""

    sales: int
    rounds: int


def run_effort_fit(asked: EffortFit) -> dict[str, float]:
    """Seconds of a fit and of a lot of a thousand lines, by what is learned; products are matched once for all."""
    shape = Shape(seed=1, n_sales=asked.sales)
    world, cutoff = World(shape), DAY_ZERO + shape.days
    sales, lines = _timed(world.history()), _many_lines(world)
    book, product = build_book(sales.title, sales.sku, sales.gtin)
    matched = match(book, lines.description, lines.sku, lines.gtin)
    ahead = np.full(LINES, 45.0)

    def prices() -> object:
        return price_lot(lines, matched, fit_prices(sales, book, product, cutoff, "USD"), ahead)

    def effort() -> object:
        model = fit_effort(sales, product)
        return listing_spread(lines, line_minutes(lines, matched, model, Effort(), lines.assorted), model)

    def tempo() -> object:
        model = fit_tempo(sales, product, book.n_products, cutoff)
        return pace_lot(lines, matched, model, Settings().selling_for, np.full(LINES, 2000.0))

    methods: dict[str, Callable[[], object]] = {"prices": prices, "effort": effort, "tempo": tempo}
    best = dict.fromkeys(methods, np.inf)
    for _ in range(asked.rounds):  # in turn: a machine that is busy for a while is so for all of them
        for name, method in methods.items():
            best[name] = min(best[name], seconds(method))
    return best


def _timed(sales: Sales) -> Sales:
    """The history with minutes on every row."""
    minutes = 12.0 * np.exp(stream(1, "bench timings").normal(0, 0.4, len(sales)))
    return replace(sales, listing_minutes=minutes)


def _many_lines(world: World) -> Lines:
    """Lines of as many lots as it takes."""
    lots = world.lots(LINES // 20)
    lines = lots[0].lines
    for lot in lots[1:]:
        lines = joined(lines, lot.lines)
    return numbered(lines.take(np.arange(LINES)))
