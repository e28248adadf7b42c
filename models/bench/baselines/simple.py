"""What a seller does without any program: a fixed share of the tag, or the median of such goods."""

from collections.abc import Sequence

import numpy as np

from models.bench.baselines.forecast import Baseline, smearing_factor
from models.bench.baselines.inputs import Inputs
from models.values.arrays import FloatArray

BRAND, SUB = 0, 2


def share_of_tag(inputs: Inputs, outcome: FloatArray) -> Baseline:
    """The history's median share of the tag; without a tag, the median price."""
    known = ~np.isnan(inputs.tag)
    share = float(np.median((outcome - inputs.tag)[known])) if known.any() else 0.0
    middle = float(np.median(outcome))

    def predict(asked: Inputs) -> FloatArray:
        return np.where(np.isnan(asked.tag), middle, asked.tag + share)

    return Baseline(predict, smearing_factor(outcome - predict(inputs)))


def medians(inputs: Inputs, outcome: FloatArray) -> Baseline:
    """Median of brand and sub-category, else of the sub-category, else of everything."""
    table: dict[tuple[str, ...], list[float]] = {}
    for row, value in zip(inputs.kinds, outcome.tolist(), strict=True):
        for key in _keys(row):
            table.setdefault(key, []).append(value)
    middle = {key: float(np.median(values)) for key, values in table.items()}

    def predict(asked: Inputs) -> FloatArray:
        return np.array([next(middle[key] for key in _keys(row) if key in middle) for row in asked.kinds])

    return Baseline(predict, smearing_factor(outcome - predict(inputs)))


def _keys(row: Sequence[str]) -> tuple[tuple[str, ...], ...]:
    return ((row[BRAND], row[SUB]), (row[SUB],), ())
