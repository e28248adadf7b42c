"""Is there time and space for this lot at all?  A gate, not a price."""

from dataclasses import dataclass

from models.values.settings import Goals


@dataclass(frozen=True)
class Room:
    """`holds` is False where the lot would wait too long or too many units would."""

    holds: bool
    weeks_to_clear: float | None  # with the lot; None: never
    limit: float  # [weeks]
    unsold_units: float  # waiting with the lot
    unsold_limit: float | None  # None: off


def room(weeks_to_clear: float | None, unsold_units: float, goals: Goals) -> Room:
    """Whether the backlog with this lot stays within the seller's limits.

    Parameters
    ----------
    weeks_to_clear : float or None
        Weeks until the backlog with the lot is cleared; None where it never is.
    unsold_units : float
        Units that wait when the lot has joined.
    goals : Goals
        max_weeks_to_clear [weeks] and max_unsold_units.

    Returns
    -------
    Room
        With the limits it was held against.

    Examples
    --------
    >>> room(55.0, 800.0, Goals(max_weeks_to_clear=104)).holds, room(None, 800.0, Goals()).holds
    (True, False)
    """
    in_time = weeks_to_clear is not None and weeks_to_clear <= goals.max_weeks_to_clear
    in_space = goals.max_unsold_units is None or unsold_units <= goals.max_unsold_units
    return Room(in_time and in_space, weeks_to_clear, goals.max_weeks_to_clear, unsold_units, goals.max_unsold_units)
