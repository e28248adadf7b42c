"""How good is a forecast of a distribution?  Scores in closed form; standard errors by world."""

import numpy as np
from scipy.special import ndtr, ndtri

from models.values.arrays import FloatArray


def crps_normal(actual: FloatArray, mean: FloatArray, sd: FloatArray) -> FloatArray:
    """Continuous ranked probability score of normal forecasts (Gneiting & Raftery 2007).

    doi:10.1198/016214506000001437
    """
    z = (actual - mean) / sd
    density = np.exp(-0.5 * z**2) / np.sqrt(2 * np.pi)
    return np.asarray(sd * (z * (2 * ndtr(z) - 1) + 2 * density - 1 / np.sqrt(np.pi)), dtype=np.float64)


def crps_lognormal(actual: float, middle: float, sd: float) -> float:
    """The same of a log-normal forecast with log median `middle` (Baran & Lerch 2015, doi:10.1002/qj.2521)."""
    z = (np.log(actual) - middle) / sd
    mean = np.exp(middle + sd**2 / 2)
    return float(actual * (2 * ndtr(z) - 1) - 2 * mean * (ndtr(z - sd) + ndtr(sd / np.sqrt(2)) - 1))


def crps_ensemble(actual: float, draws: FloatArray) -> float:
    """The same of a forecast that is draws: E|X - y| - E|X - X'| / 2."""
    apart = np.abs(draws[:, None] - draws[None, :]).mean() / 2
    return float(np.abs(draws - actual).mean() - apart)


def pinball(actual: float, quantile: float, level: float) -> float:
    """Loss of a quantile forecast."""
    gap = actual - quantile
    return float(max(level * gap, (level - 1) * gap))


def holds(actual: FloatArray, middle: FloatArray, sd: FloatArray, level: float) -> FloatArray:
    """1 where the central range of a normal forecast holds what happened."""
    return np.asarray(np.abs(actual - middle) <= ndtri(0.5 + level / 2) * sd, dtype=np.float64)


def standard_error(values: FloatArray) -> float:
    """Of the mean of independent worlds; NaN for a single one."""
    return float(np.std(values, ddof=1) / np.sqrt(len(values))) if len(values) > 1 else float("nan")


def rms(values: FloatArray) -> float:
    """Root mean square."""
    return float(np.sqrt(np.mean(np.square(values))))


def wilson(hits: int, of: int, level: float = 0.95) -> tuple[float, float]:
    """Wilson's range of a share (Newcombe 1998, Statistics in Medicine 17:857)."""
    z2 = float(ndtri(0.5 + level / 2)) ** 2
    share = hits / of
    centre = (share + z2 / (2 * of)) / (1 + z2 / of)
    half = np.sqrt(z2 * (share * (1 - share) / of + z2 / (4 * of**2))) / (1 + z2 / of)
    return float(max(0.0, centre - half)), float(min(1.0, centre + half))
