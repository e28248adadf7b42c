"""The six states a unit can be in, best first.  A code is the index in `CONDITIONS`; `UNKNOWN` is -1."""

from enum import StrEnum


class Condition(StrEnum):
    """A unit's state; every file's own wording is mapped to one of these by the intake."""

    SEALED = "sealed"
    OPENED = "opened"
    WORKS = "works"
    WORN = "worn"
    UNTESTED = "untested"
    SALVAGE = "salvage"


CONDITIONS: tuple[Condition, ...] = tuple(Condition)
UNKNOWN = -1


def code_of(condition: Condition | None) -> int:
    """Index in `CONDITIONS`; `UNKNOWN` for None.

    Examples
    --------
    >>> code_of(Condition.WORN), code_of(None)
    (3, -1)
    """
    return UNKNOWN if condition is None else CONDITIONS.index(condition)


def name_of(code: int) -> str | None:
    """The condition's word, None for `UNKNOWN`.

    Examples
    --------
    >>> name_of(0), name_of(-1)
    ('sealed', None)
    """
    return None if code == UNKNOWN else CONDITIONS[code].value
