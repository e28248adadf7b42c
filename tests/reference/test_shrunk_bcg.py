"""G. A. Colditz and others, JAMA 271 (1994) 698-702: thirteen trials of a vaccine, as the data set `dat.bcg` has them.

Figures of DerSimonian and Laird's estimate on log risk ratios as the R package metafor prints them for `method="DL"`.
"""

import numpy as np
import pytest

from models.estimate.fit.shrunk import between_variance, shrunk

# ill and well of those treated, ill and well of the others
TRIALS = np.array([
    (4, 119, 11, 128), (6, 300, 29, 274), (3, 228, 11, 209), (62, 13536, 248, 12619), (33, 5036, 47, 5761),
    (180, 1361, 372, 1079), (8, 2537, 10, 619), (505, 87886, 499, 87892), (29, 7470, 45, 7232), (17, 1699, 65, 1600),
    (186, 50448, 141, 27197), (5, 2493, 3, 2338), (27, 16886, 29, 17825),
], float).T  # fmt: skip


def test_between_variance_and_what_follows_from_it_are_as_published() -> None:
    ill, well, other_ill, other_well = TRIALS
    ratio = np.log(ill / (ill + well)) - np.log(other_ill / (other_ill + other_well))
    variance = 1 / ill - 1 / (ill + well) + 1 / other_ill - 1 / (other_ill + other_well)
    between = between_variance(ratio, variance)
    weight = 1 / (between + variance)
    pooled = float((weight * ratio).sum() / weight.sum())
    assert between == pytest.approx(0.3088, abs=5e-5)
    assert pooled == pytest.approx(-0.7141, abs=5e-5)
    assert weight.sum() ** -0.5 == pytest.approx(0.1787, abs=5e-5)
    drawn = shrunk(ratio, variance, pooled)
    assert np.all(np.abs(drawn - pooled) < np.abs(ratio - pooled))
    assert np.all(np.sign(drawn - pooled) == np.sign(ratio - pooled))
