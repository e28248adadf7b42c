"""A fitted model of the demo shop and questions about small lots; fitted once a test run."""

import datetime as dt
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

from models.appraisal.appraise import appraise
from models.appraisal.model import Model
from models.appraisal.question import Evaluation, Question
from models.appraisal.training import fit
from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.problems import Problems
from models.values.sales import Sales

DEMO = Path(__file__).parents[1] / "demo_data"
AS_OF = dt.date(2026, 7, 1)


@cache
def demo_sales() -> Sales:
    file = DEMO / "sold_history.csv"
    return read_history(file.read_bytes(), file.name, {}, "USD").sales


@cache
def demo_model() -> Model:
    return fit(demo_sales(), AS_OF, "USD", lambda share, step: None)


@cache
def demo_lines(name: str) -> Lines:
    return read_manifest((DEMO / name).read_bytes(), name, {}, "USD").lines


def answer(lines: Lines, settings: dict[str, Any], model: Model | None = None, seed: int = 1) -> Evaluation:
    used = model or demo_model()
    held = in_force([read_given(settings)], used.learned)
    problems = Problems(len(lines), len(lines), 0, ())
    question = Question(lines, problems, (), "a lot", held, AS_OF, seed)
    return appraise(question, used, lambda share, step: None)


def lines_like(**columns: list[Any]) -> Lines:
    """Lines from their columns; what is not given is blank."""
    n = len(columns["description"])
    blank: dict[str, Any] = {
        "no": np.arange(1, n + 1),
        "row": np.arange(2, n + 2),
        "condition": np.zeros(n, dtype=np.int8),
        "quantity": np.ones(n, dtype=np.int64),
        "tag_each": np.full(n, np.nan),
        "weight_kg": np.full(n, np.nan),
        "assorted": np.zeros(n, dtype=np.bool_),
    }
    texts = ("description", "brand", "category", "sku", "gtin", "pallet")
    blank |= {name: np.array([""] * n, dtype=object) for name in texts}
    kinds = {"condition": np.int8, "quantity": np.int64, "tag_each": np.float64}
    given = {name: np.array(values, dtype=kinds.get(name, object)) for name, values in columns.items()}
    return Lines(**blank | given)
