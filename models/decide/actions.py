"""Is an item worth single listings?  What they add to its cash, against the pay for the minutes that they add.

What the seller chose for a line goes before that, and before the list of what is never sold here.  Skipping a
line leaves all its units over: they bring the leftover value and take sorting minutes only.
"""

from enum import IntEnum

import numpy as np

from models.values.arrays import BoolArray, FloatArray, IntArray


class Action(IntEnum):
    """What to do with a line; `name.lower()` is the word for it."""

    LIST = 0
    SKIP = 1
    NEVER = 2
    BUNDLE = 3  # sold in packs, see `bundles`


NOT_CHOSEN = -1


def line_actions(
    cash_listed: FloatArray,
    cash_skipped: FloatArray,
    own_minutes: FloatArray,
    hourly_pay: float,
    never: BoolArray,
    chosen: IntArray,
) -> IntArray:
    """The better of listing and skipping, from expected and unshaded proceeds.

    Parameters
    ----------
    cash_listed, cash_skipped : ndarray of shape (n_lines,)
        Expected cash proceeds either way [minor units], of the whole line or of all lines that share its fate.
    own_minutes : ndarray of shape (n_lines,)
        Minutes that listing takes beyond skipping, of as many lines: listing and packing, not sorting.
    hourly_pay : float
        Pay for the seller's hours [minor units].
    never : ndarray of shape (n_lines,)
        Lines that are not to be sold here whatever they bring.
    chosen : ndarray of shape (n_lines,)
        `Action` codes that the seller chose, `NOT_CHOSEN` where they left it to us.

    Returns
    -------
    ndarray of shape (n_lines,)
        `Action` codes.

    Notes
    -----
    List if cash_listed - cash_skipped > pay of own_minutes: what is left after pay is then the highest it can be, line
    by line.

    Examples
    --------
    >>> chosen = line_actions(
    ...     np.array([2000.0, 290.0, 9000.0]), np.array([100.0, 20.0, 400.0]), np.array([18.0, 18.0, 18.0]),
    ...     hourly_pay=1500.0, never=np.array([False, False, True]), chosen=np.full(3, NOT_CHOSEN))
    >>> [Action(code).name.lower() for code in chosen]
    ['list', 'skip', 'never']
    """
    worth_it = cash_listed - cash_skipped > hourly_pay * own_minutes / 60
    ours = np.where(worth_it, int(Action.LIST), int(Action.SKIP))
    ours = np.where(never, int(Action.NEVER), ours).astype(np.int64)
    return np.where(chosen == NOT_CHOSEN, ours, chosen)
