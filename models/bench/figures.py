"""What does the bench print?  Figures with their spread by world, in tables, held against a bar where one is set."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from models.bench.bars import BARS, Bar
from models.bench.scores import standard_error


@dataclass(frozen=True)
class Figure:
    """One measure; `values` has one entry a world."""

    values: tuple[float, ...]
    bar: str = ""  # key in BARS

    @classmethod
    def of(cls, values: Sequence[float], bar: str = "") -> "Figure":
        """Worlds in which the measure does not exist are left out."""
        return cls(tuple(float(value) for value in values if np.isfinite(value)), bar)

    @property
    def mean(self) -> float:
        """Mean over worlds."""
        return float(np.mean(self.values)) if self.values else float("nan")

    @property
    def error(self) -> float:
        """Standard error of it, NaN for a single world."""
        return standard_error(np.array(self.values))

    @property
    def against(self) -> Bar | None:
        """The bar it is held against."""
        return BARS[self.bar] if self.bar else None

    @property
    def verdict(self) -> str:
        """Met or missed, "" without a bar or without a value."""
        return self.against.verdict(self.mean, self.error) if self.against and self.values else ""

    @property
    def stretch(self) -> bool | None:
        """Whether the further goal is reached too, where there is one."""
        bar = self.against
        return bar.stretch_reached(self.mean) if bar and self.values else None


@dataclass(frozen=True)
class Row:
    """One line of a table."""

    labels: tuple[str, ...]
    figures: Mapping[str, Figure]


@dataclass(frozen=True)
class Table:
    """One workload's answer."""

    title: str
    labels: tuple[str, ...]
    rows: Sequence[Row]
    notes: Sequence[str] = field(default_factory=tuple)

    @property
    def columns(self) -> list[str]:
        """Names of all figures, in order of appearance."""
        return list(dict.fromkeys(name for row in self.rows for name in row.figures))


def as_document(table: Table) -> dict[str, Any]:
    """Everything of a table as plain JSON."""
    return {
        "title": table.title,
        "notes": list(table.notes),
        "rows": [
            {
                "labels": dict(zip(table.labels, row.labels, strict=True)),
                "figures": {name: _figure(figure) for name, figure in row.figures.items()},
            }
            for row in table.rows
        ],
    }


def _figure(figure: Figure) -> dict[str, Any]:
    told: dict[str, Any] = {
        "mean": _plain(figure.mean),
        "standard_error": _plain(figure.error),
        "worlds": len(figure.values),
        "values": [_plain(value) for value in figure.values],
    }
    bar = figure.against
    if bar is not None:
        told |= {"bar": {"low": bar.low, "high": bar.high, "says": bar.says, "source": bar.source}}
        told |= {"verdict": figure.verdict, "stretch": figure.stretch}
    return told


def _plain(value: float) -> float | None:
    return round(value, 6) if np.isfinite(value) else None
