"""What did the seller's timings and totals teach about listing minutes?  A fitted table, as plain arrays."""

from dataclasses import MISSING, dataclass, fields
from typing import Any

import numpy as np

from models.estimate.tempo_levels import Levels, from_flat, no_levels
from models.values.arrays import Arrays, FloatArray

SEALED = 0  # condition code whose further units need no photos of their own
KINDS = ("minutes_first", "minutes_repeat", "minutes_used_unit")
FURTHER_SEALED, FURTHER_USED = 1, 2  # index in KINDS
N_CONDITIONS = 6
_TABLES = ("top", "sub")


@dataclass(frozen=True)
class EffortModel:
    """Every field is an array, a number or a table; effects in ln minutes; `ln_minutes` are those of the
    history's mean goods.

    `root` has one row a coefficient: base, two kinds of further units, conditions, `top`, `sub`; root root' is what
    they are known to.
    """

    timings: int  # rows with listing minutes that were used
    entries: int  # totals of the work log that were used
    items: float  # units in them
    unit_minutes: float  # mean listing minutes of a unit of the history, NaN where neither was given
    ln_minutes: FloatArray  # (3,), mean of a first, further sealed, further used unit; the settings are their priors
    condition_effect: FloatArray  # (6,), by condition code
    usual_effect: float  # of the history's mean goods, which `ln_minutes` holds already
    top: Levels
    sub: Levels
    root: FloatArray  # (n_coefficients, n_coefficients)
    usual: FloatArray  # (n_coefficients,), mean columns of the history's rows; 0 for base and kinds of units
    top_sd: float  # between categories, for one never seen
    sub_sd: float
    usual_sd: float  # how well the mean minutes of the history's goods are known [ln minutes]
    noise_sd: float  # of one listing: sd of a log-normal with the same mean over median
    lot_sd: float  # what the goods of one purchase, or a week's work, share beside all that
    log_left: int = 0  # entries of the work log that are not counted, too far from the timed rows
    log_times: float = float("nan")  # minutes of the work log over those that the timed rows expect, NaN without both
    log_share: float = float("nan")  # of what is known of the mean minutes, what the log adds, NaN without both

    @property
    def evidence(self) -> dict[str, float]:
        """What the minutes were learned from; shares and times only where timed rows and a work log meet."""
        told: dict[str, float] = {"timings": self.timings, "work_log_entries": self.entries}
        if self.entries and np.isfinite(self.log_share):
            told["work_log_share"] = round(self.log_share, 3)
        if self.log_left:
            told |= {"work_log_left_out": self.log_left, "work_log_times": round(self.log_times, 2)}
        return told

    @property
    def usual_conditions(self) -> FloatArray:
        """Share of each condition in the history, shape (6,); 0 where it names none."""
        return self.usual[len(KINDS) : len(KINDS) + N_CONDITIONS]

    def arrays(self) -> Arrays:
        """Named plain arrays, for storage."""
        made: Arrays = {}
        for field in fields(self):
            value = getattr(self, field.name)
            made.update(value.flat(field.name) if isinstance(value, Levels) else {field.name: np.asarray(value)})
        return made

    @staticmethod
    def from_arrays(arrays: Arrays) -> "EffortModel":
        """The model that `arrays` was made from.

        Raises
        ------
        KeyError
            If an array is missing.
        """
        if "root" not in arrays:
            return _of_former(arrays)
        plain: dict[str, Any] = {name: from_flat(arrays, name) for name in _TABLES}
        for field in fields(EffortModel):
            if field.name not in _TABLES and (field.name in arrays or field.default is MISSING):
                array = arrays[field.name]
                plain[field.name] = array if array.ndim else array.item()
        return EffortModel(**plain)


def _of_former(arrays: Arrays) -> EffortModel:
    """A model that was kept before 2026-11-26: one level of category, one spread for all."""
    top = from_flat(arrays, "category")
    count = N_CONDITIONS + len(KINDS) + len(top.name)
    root = np.zeros((count, count))
    root[0, 0] = arrays["base_sd"].item()
    return EffortModel(
        timings=arrays["timings"].item(), entries=0, items=0.0, unit_minutes=arrays["unit_minutes"].item(),
        ln_minutes=arrays["ln_minutes"], condition_effect=arrays["condition_effect"], usual_effect=0.0, top=top,
        sub=no_levels(),
        root=root, usual=np.zeros(count), top_sd=0.0, sub_sd=0.0, usual_sd=root[0, 0], noise_sd=0.0, lot_sd=0.0,
    )  # fmt: skip
