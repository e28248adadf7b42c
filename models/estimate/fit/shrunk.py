"""How far may a group's own mean be believed?  As far as groups differ more than chance would make them."""

import numpy as np

from models.values.arrays import FloatArray


def between_variance(mean: FloatArray, variance: FloatArray) -> float:
    """Variance of the groups' true means.

    Parameters
    ----------
    mean : ndarray of shape (n_groups,)
        Observed means, any unit.
    variance : ndarray of shape (n_groups,)
        Sampling variance of each, above 0, that unit squared.

    Returns
    -------
    float
        At least 0; 0 with fewer than two groups.

    Raises
    ------
    ValueError
        If a variance is not above 0.

    Notes
    -----
    Moments: (Q - (k - 1)) / (sum w - sum w^2 / sum w), w = 1 / variance, Q = sum w (mean - weighted mean)^2.

    References
    ----------
    R. DerSimonian and N. Laird, Meta-analysis in clinical trials, Controlled Clinical Trials 7 (1986),
    doi:10.1016/0197-2456(86)90046-2

    Examples
    --------
    >>> between_variance(np.array([1.0, 3.0]), np.array([0.5, 0.5]))
    1.5
    """
    if np.any(variance <= 0):
        raise ValueError("sampling variances must be above 0")
    if len(mean) < 2:
        return 0.0
    weight = 1.0 / variance
    total = weight.sum()
    spread = (weight * (mean - (weight * mean).sum() / total) ** 2).sum()
    return max(0.0, float((spread - (len(mean) - 1)) / (total - (weight**2).sum() / total)))


def shrunk(mean: FloatArray, variance: FloatArray, towards: float) -> FloatArray:
    """Each group's mean drawn towards a common value.

    Parameters
    ----------
    mean : ndarray of shape (n_groups,)
        Observed means, any unit.
    variance : ndarray of shape (n_groups,)
        Sampling variance of each, above 0.
    towards : float
        What holds for a group of which nothing is known.

    Returns
    -------
    ndarray of shape (n_groups,)
        towards + B (mean - towards), B = between / (between + variance): empirical Bayes.

    Raises
    ------
    ValueError
        If a variance is not above 0.

    Examples
    --------
    >>> shrunk(np.array([1.0, 3.0]), np.array([0.5, 0.5]), 2.0).tolist()
    [1.25, 2.75]
    """
    between = between_variance(mean, variance)
    believed: FloatArray = towards + between / (between + variance) * (mean - towards)
    return believed
