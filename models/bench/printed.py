"""How does a table look on a page?  Pipe tables that a document can take as they are."""

from collections import Counter
from collections.abc import Iterator

import numpy as np

from models.bench.bars import BARS, MISSED, Bar
from models.bench.figures import Figure, Row, Table


def table_lines(table: Table) -> Iterator[str]:
    """Title, notes, one line a row, then what the bars of this table came to."""
    yield f"## {table.title}"
    yield from table.notes
    yield ""
    yield "| " + " | ".join([*table.labels, "worlds", *table.columns]) + " |"
    yield "|" + "---|" * (len(table.labels) + 1 + len(table.columns))
    for row in table.rows:
        cells = [_cell(row.figures.get(name)) for name in table.columns]
        yield "| " + " | ".join([*row.labels, _worlds(row), *cells]) + " |"
    yield ""
    yield from bar_lines([table])
    yield ""


def bar_lines(tables: list[Table]) -> Iterator[str]:
    """One line a bar: how many figures met it, and which missed."""
    counts: dict[str, Counter[str]] = {}
    missed: dict[str, list[str]] = {}
    for table in tables:
        for row in table.rows:
            for name, figure in row.figures.items():
                if figure.verdict:
                    counts.setdefault(figure.bar, Counter())[figure.verdict] += 1
                    counts[figure.bar]["stretch"] += bool(figure.stretch)
                if figure.verdict == MISSED:
                    missed.setdefault(figure.bar, []).append(f"{' '.join(row.labels)}, {name}: {_cell(figure)}")
    for key, count in counts.items():
        yield _bar_line(BARS[key], count, missed.get(key, []))


def _bar_line(bar: Bar, count: Counter[str], missed: list[str]) -> str:
    verdicts = ", ".join(f"{name} {count[name]}" for name in ("met", "met within 2 se", "missed") if count[name])
    stretch = "" if bar.stretch == (None, None) else f"; stretch ({_wanted(*bar.stretch)}) {count['stretch']}"
    tail = "" if not missed else ". Missed: " + "; ".join(missed)
    return f"- {bar.says}: {_wanted(bar.low, bar.high)} ({bar.source}): {verdicts}{stretch}{tail}"


def _wanted(low: float | None, high: float | None) -> str:
    if low is None:
        return f"at most {high:g}"
    return f"at least {low:g}" if high is None else f"{low:g} to {high:g}"


def _worlds(row: Row) -> str:
    return str(max((len(figure.values) for figure in row.figures.values()), default=0))


def _cell(figure: Figure | None) -> str:
    if figure is None or not figure.values:
        return ""
    error = f" ({_short(figure.error)})" if np.isfinite(figure.error) else ""
    return f"{_short(figure.mean)}{error}" + (f" {figure.verdict}" if figure.verdict else "")


def _short(value: float) -> str:
    """Three figures behind the point below 10, fewer above."""
    return f"{value:.3f}" if abs(value) < 10 else f"{value:,.1f}" if abs(value) < 1000 else f"{value:,.0f}"
