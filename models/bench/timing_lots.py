"""How long does a long manifest take and how much memory?  Each task runs alone, in a fresh process."""

import datetime as dt
import io
import time
from dataclasses import dataclass

import numpy as np
import pandas

from models.appraisal.appraise import appraise
from models.appraisal.question import Question
from models.appraisal.training import fit
from models.bench.baselines.inputs import Columns, of_lines, of_sales
from models.bench.shop import Shop, fitted, priced
from models.bench.stopwatch import peak_mb, seconds
from models.bench.worlds.rows import line_rows
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.intake.manifest import ReadManifest, read_manifest
from models.values.conditions import name_of
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream

Measures = dict[str, float]


@dataclass(frozen=True)
class Manifest:
    """A lot of so many lines, priced from a fit of 3,000 sales; `drawn` takes it through the whole appraisal."""

    lines: int
    drawn: bool


def run_manifest(asked: Manifest) -> Measures:
    """Seconds of reading, featurising and valuing; memory when that was done."""
    shape = Shape(seed=1, n_sales=3000)
    world = World(shape)
    history, cutoff = world.history(), DAY_ZERO + shape.days
    data = _csv(many_lines(world, asked.lines))
    if asked.drawn:
        return _appraised(history, cutoff, data)
    shop = fitted(history, cutoff)
    sold = history.take(history.sold)
    columns = Columns(of_sales(sold, cutoff))
    started = time.perf_counter()
    read = _read(data)
    reading = time.perf_counter() - started
    featurising = min(seconds(lambda: columns.of(of_lines(read.lines, 45))) for _ in range(3))
    valuing = min(seconds(lambda: _valued(shop, read.lines, cutoff)) for _ in range(3))
    return {"reading": reading, "featurising": featurising, "valuing": valuing, "memory": peak_mb()}


def _valued(shop: Shop, lines: Lines, cutoff: np.datetime64) -> float:
    lot = priced(shop, lines, cutoff + 45)
    return float(lot.resale.mean + lot.unit_price.mean.sum())


def _appraised(history: Sales, cutoff: np.datetime64, data: bytes) -> Measures:
    """The whole appraisal, every draw included."""
    as_of = dt.date.fromisoformat(str(cutoff))
    model = fit(history, as_of, "USD", lambda share, step: None)
    read = _read(data)
    question = Question(read.lines, read.problems, read.cautions, "lot", in_force([], model.learned), as_of, 1)
    taken = seconds(lambda: appraise(question, model, lambda share, step: None))
    return {"appraising": taken, "memory": peak_mb()}


def many_lines(world: World, count: int) -> Lines:
    """Lines of any of the world's products, each in its usual state."""
    rng = stream(1, "bench manifest")
    product = rng.integers(0, world.goods.n_products, count)
    tag = np.round(np.exp(world.goods.true_tag[product])).astype(np.float64)
    return line_rows(world.goods, product, world.goods.usual[product], rng.geometric(0.4, count), tag)


def _csv(lines: Lines) -> bytes:
    table = pandas.DataFrame({
        "description": lines.description, "brand": lines.brand, "category": lines.category,
        "condition": [name_of(int(code)) for code in lines.condition], "quantity": lines.quantity,
        "tag_each": [f"{tag / 100:.2f}" for tag in lines.tag_each],
    })  # fmt: skip
    buffer = io.BytesIO()
    table.to_csv(buffer, index=False)
    return buffer.getvalue()


def _read(data: bytes) -> ReadManifest:
    return read_manifest(data, "manifest.csv", {}, "USD")
