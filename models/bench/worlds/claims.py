"""What do tags claim?  Mostly what the product carries; some are blank; a share is absurd when the shape asks for it.

Absurd is a slip of the point (x10, /10, x100), a factor of 4 to 20, or a placeholder for "no price".
"""

import numpy as np

from models.values.arrays import FloatArray

_PLACEHOLDERS = np.array([0.0, 1.0, 99_999_900.0])  # 0, .01 and 999999 in minor units


def claimed_tags(rng: np.random.Generator, true_tag: FloatArray, wrong: float, none: float) -> FloatArray:
    """Tags as a file states them [minor units], NaN for blank; the same numbers are drawn whatever the shares."""
    rows = len(true_tag)
    tag = np.exp(true_tag + rng.normal(0, 0.03, rows))
    is_wrong, blank, how = rng.random(rows) < wrong, rng.random(rows) < none, rng.random(rows)
    factor = np.select(
        [how < 0.45, how < 0.6, how < 0.7, how < 0.8],
        [np.full(rows, 10.0), np.full(rows, 0.1), np.full(rows, 100.0), np.exp(rng.uniform(1.4, 3, rows))],
        np.nan,
    )
    absurd = np.where(np.isnan(factor), rng.choice(_PLACEHOLDERS, rows), tag * factor)
    found = np.round(np.where(is_wrong, absurd, tag))
    return np.where(blank, np.nan, found)
