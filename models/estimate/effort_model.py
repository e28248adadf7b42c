"""What did the seller's timings teach about listing minutes?  A fitted table, as plain arrays."""

from dataclasses import dataclass, fields
from typing import Any

import numpy as np

from models.estimate.tempo_levels import Levels, from_flat
from models.values.arrays import Arrays, FloatArray

SEALED = 0  # condition code whose further units need no photos of their own
KINDS = ("minutes_first", "minutes_repeat", "minutes_used_unit")
FURTHER_SEALED, FURTHER_USED = 1, 2  # index in KINDS


@dataclass(frozen=True)
class EffortModel:
    """Every field is an array, a number or a table; effects in ln minutes, around the goods that were timed."""

    timings: int  # rows with listing minutes that were used
    unit_minutes: float  # the history's mean listing minutes of a unit, NaN without timings
    ln_minutes: FloatArray  # (3,), first, further sealed, further used unit; the default settings are their priors
    told: FloatArray  # (3,), timed rows that tell of each
    condition_effect: FloatArray  # (6,), by condition code
    category: Levels
    base_sd: float  # posterior sd of ln minutes shared by the whole lot

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
        plain: dict[str, Any] = {"category": from_flat(arrays, "category")}
        for field in fields(EffortModel):
            if field.name != "category":
                array = arrays[field.name]
                plain[field.name] = array if array.ndim else array.item()
        return EffortModel(**plain)
