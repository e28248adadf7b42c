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
    """Every field is an array, a number or a table; effects in ln minutes.

    The settings are priors: with other settings than the defaults, the posterior moves by `sensitivity` times the
    change of the three prior means.
    """

    timings: int  # rows with listing minutes that were used
    unit_minutes: float  # the history's mean listing minutes of a unit, NaN without timings
    ln_minutes: FloatArray  # (3,), first, further sealed, further used unit, under the default settings
    sensitivity: FloatArray  # (3, 3), d ln_minutes / d prior ln of KINDS
    condition_effect: FloatArray  # (6,), by condition code
    condition_sensitivity: FloatArray  # (6, 3)
    category: Levels
    category_sensitivity: FloatArray  # (n_categories, 3)
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
