"""What is kept of an evaluation, so that its decision can be read again under other terms without drawing again."""

import datetime as dt
from dataclasses import dataclass, fields

import numpy as np

from models.decide.cash_curve import WeeklyTable
from models.decide.components import Components
from models.values.arrays import Arrays, FloatArray
from models.values.packing import pack, unpack

_PARTS, _WEEKS = "components.", "weeks."


@dataclass(frozen=True)
class Stored:
    """The draws' sums with everything else that a decision reads; days count from as_of."""

    components: Components
    judgement_sd: float  # of the log of the lot's worth, what another shop may see otherwise
    listed_units: float  # units of the lines that get a listing
    unit_minutes: float  # mean minutes to list a unit of what waits, as learned; NaN without timings
    pace_declared: bool  # the history could not tell the pace, so the settings' days to sell hold
    as_of: dt.date
    paid: float  # days until payment
    ends: float  # days until the horizon ends
    weeks: WeeklyTable | None = None  # cash by week; None: it does not hold under these settings
    row_factor: FloatArray | None = None  # (n_rows,), what rows are multiplied by on reading; None: as they were drawn

    def to_bytes(self) -> bytes:
        """As plain arrays: no pickle; only what was drawn is ever kept."""
        numbers = [self.judgement_sd, self.listed_units, self.unit_minutes, self.paid, self.ends]
        parts = {_PARTS + name: array for name, array in self.components.arrays().items()}
        marks = {"as_of": np.array(self.as_of.toordinal()), "pace_declared": np.array(self.pace_declared)}
        return pack(parts | marks | {"numbers": np.array(numbers)} | self._weekly())

    def _weekly(self) -> Arrays:
        if self.weeks is None:
            return {}
        return {_WEEKS + field.name: np.asarray(getattr(self.weeks, field.name)) for field in fields(WeeklyTable)}

    @staticmethod
    def from_bytes(data: bytes) -> "Stored":
        """What `to_bytes` gave.

        Raises
        ------
        ValueError
            If the bytes hold anything but plain arrays.
        KeyError
            If they were kept by another version of this class.
        """
        arrays = unpack(data)
        parts = {name.removeprefix(_PARTS): array for name, array in arrays.items() if name.startswith(_PARTS)}
        judgement_sd, listed_units, unit_minutes, paid, ends = arrays["numbers"].tolist()
        return Stored(
            components=Components.from_arrays(parts),
            judgement_sd=judgement_sd,
            listed_units=listed_units,
            unit_minutes=unit_minutes,
            pace_declared=bool(arrays["pace_declared"]),
            as_of=dt.date.fromordinal(int(arrays["as_of"])),
            paid=paid,
            ends=ends,
            weeks=_weekly_table(arrays),
        )


def _weekly_table(arrays: Arrays) -> WeeklyTable | None:
    if _WEEKS + "shade" not in arrays:
        return None
    return WeeklyTable(float(arrays[_WEEKS + "shade"]), arrays[_WEEKS + "cash"], arrays[_WEEKS + "reached"])
