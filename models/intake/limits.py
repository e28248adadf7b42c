"""How much may one file ask of us?  Past a limit the file is refused with `TooLarge`, never half read.

The limits are settings of the machine (`LOTWRIGHT_MAX_ROWS` and so on); the parent reads them once and tells its child.
"""

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import Field, dataclass, field, fields
from typing import Any

from models.values.errors import Rejected

_PREFIX = "LOTWRIGHT_"


def _limit(default: int, lowest: int, meaning: str) -> Any:
    return field(default=default, metadata={"lowest": lowest, "meaning": meaning})


@dataclass(frozen=True)
class Limits:
    """What one file may be; each field is a setting, told with its default in the README."""

    max_rows: int = _limit(1_200_000, 10, "Most rows of one sheet or file.")  # a spreadsheet holds 1,048,576
    max_columns: int = _limit(500, 5, "Most columns of one sheet or file.")
    # Counted over the sheet's bounding box, which is what a reader must allocate.
    max_cells: int = _limit(60_000_000, 100, "Most cells of one sheet, blank ones inside it counted.")
    max_cell_characters: int = _limit(
        32_767, 100, "Longest cell kept whole [characters]; a longer one is cut and named."
    )
    max_uncompressed_mib: int = _limit(1024, 1, "Most that a workbook or archive may unpack to [MiB].")
    max_read_mib: int = _limit(3072, 200, "Most memory for reading one file [MiB].")
    max_read_cpu_seconds: int = _limit(120, 1, "Longest processor time for reading one file [s].")
    max_read_seconds: int = _limit(180, 1, "Longest time for reading one file [s].")

    @property
    def uncompressed_bytes(self) -> int:
        """Most that a workbook or archive may unpack to [bytes]."""
        return self.max_uncompressed_mib << 20


_IN_FORCE: ContextVar[Limits | None] = ContextVar("limits", default=None)


def limits_in_force() -> Limits:
    """The limits that `held_to` set, else the defaults.

    Examples
    --------
    >>> with held_to(Limits(max_rows=20)):
    ...     limits_in_force().max_rows
    20
    """
    return _IN_FORCE.get() or Limits()


@contextmanager
def held_to(limits: Limits) -> Iterator[None]:
    """Read under these limits."""
    token = _IN_FORCE.set(limits)
    try:
        yield
    finally:
        _IN_FORCE.reset(token)


def limits_of(variables: Mapping[str, str]) -> Limits:
    """The limits that environment variables set.

    Raises
    ------
    Rejected
        If a variable is no whole number, or smaller than makes sense.

    Examples
    --------
    >>> limits_of({"LOTWRIGHT_MAX_ROWS": "5000"}).max_rows
    5000
    """
    named = {_PREFIX + one.name.upper(): one for one in fields(Limits)}
    return Limits(**{one.name: _number(name, variables[name], one) for name, one in named.items() if name in variables})


def _number(name: str, text: str, limit: Field[int]) -> int:
    lowest: int = limit.metadata["lowest"]
    number = int(text) if text.strip().isdecimal() else 0
    if number < lowest:
        raise Rejected(f"{name} must be a whole number, at least {lowest}.", {name: f"at least {lowest}"})
    return number


HEADER_SEARCH_ROWS = 100  # titles, addresses and logos end before
SAMPLE_ROWS = 300  # looked at to judge what a column holds
