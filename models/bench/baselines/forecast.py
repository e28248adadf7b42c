"""What does a baseline answer?  One log price a line; its mean price carries a smearing factor, so sums are fair."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from models.bench.baselines.inputs import Inputs
from models.values.arrays import FloatArray

Predict = Callable[[Inputs], FloatArray]


@dataclass(frozen=True)
class Baseline:
    """A fitted method."""

    predict: Predict  # expected ln price [ln minor units]
    smearing: float  # Duan 1983, doi:10.1080/01621459.1983.10478017: mean of exp(residual)

    def money(self, inputs: Inputs) -> FloatArray:
        """Expected price of one unit [minor units]."""
        return np.asarray(np.exp(self.predict(inputs)) * self.smearing, dtype=np.float64)


def smearing_factor(residual: FloatArray) -> float:
    """Mean of exp(residual)."""
    return float(np.mean(np.exp(residual)))
