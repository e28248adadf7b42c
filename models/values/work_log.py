"""What is a work log?  Totals as a seller remembers them, "40 items in 5 hours": columns, one entry each."""

from dataclasses import dataclass, fields

import numpy as np

from models.values.arrays import BoolArray, DayArray, FloatArray, IntArray, TextArray

KINDS = ("sealed", "used")  # of the items, where the seller says so
MOST_ITEMS, MOST_HOURS = 100_000, 1_000.0  # of one entry; more is a slip
MOST_MINUTES_EACH = 1440.0  # a day's work on one item is a slip


@dataclass(frozen=True)
class WorkLog:
    """All arrays of shape (n_entries,)."""

    on: DayArray  # the day, or the last one, of the work
    items: FloatArray  # units listed
    hours: FloatArray  # spent on listing them [hours]
    kind: TextArray  # "sealed", "used", "" for any
    category: TextArray  # a path "A > B", "" for any

    def __len__(self) -> int:
        return len(self.on)

    def take(self, index: IntArray | BoolArray) -> "WorkLog":
        """The entries at `index`, in its order."""
        return WorkLog(**{field.name: getattr(self, field.name)[index] for field in fields(self)})

    @classmethod
    def of(cls, entries: list[tuple[np.datetime64, float, float, str, str]]) -> "WorkLog":
        """From (day, items, hours, kind, category) of each entry.

        Examples
        --------
        >>> log = WorkLog.of([(np.datetime64("2026-03-02"), 40, 5, "", "")])
        >>> len(log), float(log.hours[0] * 60 / log.items[0])
        (1, 7.5)
        """
        columns = list(zip(*entries, strict=True)) or [(), (), (), (), ()]
        return cls(
            np.array(columns[0], dtype="datetime64[D]"), np.array(columns[1], dtype=np.float64),
            np.array(columns[2], dtype=np.float64), np.array([*columns[3]], dtype=object),
            np.array([*columns[4]], dtype=object),
        )  # fmt: skip


def entry_faults(items: float, hours: float, kind: str) -> dict[str, str]:
    """What of an entry cannot be meant, by field, each with its reason.

    Parameters
    ----------
    items : float
        Units listed.
    hours : float
        Spent on them [hours].
    kind : str
        "sealed", "used" or "".

    Returns
    -------
    dict
        {} for a usable entry.

    Examples
    --------
    >>> entry_faults(40, 5, ""), entry_faults(1, 30, "odd")
    ({}, {'hours': 'are a whole day or more an item', 'kind': 'must be sealed or used, or left out'})
    """
    faults = {}
    if not (1 <= items <= MOST_ITEMS and items == int(items)):
        faults["items"] = f"must be a whole number from 1 to {MOST_ITEMS:,}"
    if not 0 < hours <= MOST_HOURS:
        faults["hours"] = f"must be above 0 and at most {MOST_HOURS:,.0f}"
    if not faults and hours * 60 >= MOST_MINUTES_EACH * items:
        faults["hours"] = "are a whole day or more an item"
    if kind not in ("", *KINDS):
        faults["kind"] = f"must be {' or '.join(KINDS)}, or left out"
    return faults
