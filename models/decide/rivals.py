"""How much too high is the winner's own estimate?  With k rivals, winning is itself bad news about the goods.

Every unit price that is decided on is multiplied by exp(-a sqrt(common_share) s_d), s_d being the spread of what rivals
may see otherwise.
"""

import math

import numpy as np
from scipy.special import log_ndtr

from models.values.arrays import FloatArray

_GRID: FloatArray = np.linspace(-14.0, 14.0, 5601)  # trapezoids are exact to 1e-12 on so smooth a function


def largest_of(count: float) -> float:
    """Mean of the largest of `count` standard normals.

    Parameters
    ----------
    count : float
        At least 1; need not be whole.

    Returns
    -------
    float
        In standard deviations.

    Raises
    ------
    ValueError
        If `count` is below 1.

    Notes
    -----
    n int x phi Phi^(n-1) dx over the integral without x, which is 1.

    References
    ----------
    Harter 1961, Expected values of normal order statistics. doi:10.1093/biomet/48.1-2.151

    Examples
    --------
    >>> round(largest_of(2), 8), round(largest_of(9), 8)
    (0.56418958, 1.48501316)
    """
    if not count >= 1:
        raise ValueError(f"count must be at least 1, not {count}")
    return _mean_under(-0.5 * _GRID**2 + (count - 1) * log_ndtr(_GRID))


def tied_at_top(rivals: float) -> float:
    """Mean of the two best of k + 1 standard normals given that they are equal: who wins a rising price pays that.

    Parameters
    ----------
    rivals : float
        k, at least 0; need not be whole.

    Returns
    -------
    float
        In standard deviations; 0 up to one rival.

    Raises
    ------
    ValueError
        If `rivals` is negative.

    Notes
    -----
    int x phi^2 Phi^(k-1) dx / int phi^2 Phi^(k-1) dx.  Below one rival it would turn negative, a reason to bid more
    than the goods are worth: not followed.

    Examples
    --------
    >>> [round(tied_at_top(k), 3) for k in (0, 1, 2, 3, 4, 5, 8)]
    [0.0, 0.0, 0.326, 0.536, 0.688, 0.806, 1.052]
    """
    if not rivals >= 0:
        raise ValueError(f"rivals must be at least 0, not {rivals}")
    return max(0.0, _mean_under(-(_GRID**2) + (rivals - 1) * log_ndtr(_GRID))) if rivals > 1 else 0.0


def _mean_under(log_weight: FloatArray) -> float:
    weight = np.exp(log_weight - log_weight.max())
    return float((_GRID * weight).sum() / weight.sum())


def shade_factor(rivals: float, common_share: float, judgement_sd: float, bidding: str) -> float:
    """What every unit price is multiplied by before deciding.

    Parameters
    ----------
    rivals : float
        Number of other serious bidders, at least 0.
    common_share : float
        Share of the judgement's variance that rivals share with the seller, 0..1.
    judgement_sd : float
        Spread of the log of the lot's worth that another shop may see otherwise, at least 0.
    bidding : str
        "rising" or "sealed".

    Returns
    -------
    float
        In (0, 1].

    Raises
    ------
    ValueError
        If `bidding` is another word, or `rivals`, `common_share` or `judgement_sd` is out of range.

    Examples
    --------
    >>> round(shade_factor(3, 0.5, 0.25, "rising"), 4), round(shade_factor(3, 0.5, 0.25, "sealed"), 4)
    (0.9097, 0.8336)
    >>> shade_factor(0, 0.5, 0.25, "sealed")
    1.0
    """
    if not (0 <= common_share <= 1 and judgement_sd >= 0 and rivals >= 0):
        raise ValueError("rivals and judgement_sd must be at least 0, common_share within 0..1")
    if bidding not in ("rising", "sealed"):
        raise ValueError(f"bidding must be 'rising' or 'sealed', not '{bidding}'")
    if rivals == 0:
        return 1.0
    excess = largest_of(rivals + 1) if bidding == "sealed" else tied_at_top(rivals)
    return math.exp(-excess * math.sqrt(common_share) * judgement_sd)
