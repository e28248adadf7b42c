"""Reading as a task: mutated files by the hundred, long files against bare readers, a history of a million rows."""

import csv
import io
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from itertools import islice

from python_calamine import CalamineWorkbook

from models.bench.files.mutations import WAYS, spoilt
from models.bench.files.sheets import HISTORY, MANIFEST, long_rows
from models.bench.files.verdicts import faults_of
from models.bench.files.writing import delimited_file, workbook_file
from models.bench.stopwatch import peak_mb, seconds
from models.intake.history import read_history
from models.intake.manifest import read_manifest

Measures = dict[str, float]
SLOW = 5.0  # seconds for a file of thirty rows: it hangs
_PIECE = 20_000  # rows that are in memory at once while a long file is written


@dataclass(frozen=True)
class Mutated:
    """So many mutated files, from the seed `first` on."""

    first: int
    files: int


@dataclass(frozen=True)
class LongManifest:
    """A manifest of so many lines; `different`: no two of one thing."""

    lines: int
    different: bool


@dataclass(frozen=True)
class LongHistory:
    """A sold history of so many rows."""

    rows: int


def run_mutated(asked: Mutated) -> Counter[str]:
    """Files read, crashed, slow and wrong, by the way they were spoilt: "cells read", "cells wrong", ..."""
    counts: Counter[str] = Counter(
        {f"{way} {what}": 0 for way in WAYS for what in ("read", "crashed", "slow", "wrong")}
    )
    for seed in range(asked.first, asked.first + asked.files):
        case = spoilt(seed)
        started = time.perf_counter()
        try:
            wrong = bool(faults_of(case))
        except Exception:
            counts[f"{case.way} crashed"] += 1
            continue
        counts[f"{case.way} read"] += 1
        counts[f"{case.way} wrong"] += wrong
        counts[f"{case.way} slow"] += time.perf_counter() - started > SLOW
    return counts


def run_long_manifest(asked: LongManifest) -> Measures:
    """Seconds of ours and of the bare readers, best of three, one after the other in turn."""
    text = delimited_file(long_rows(MANIFEST, asked.lines, asked.different))
    book = workbook_file(long_rows(MANIFEST, asked.lines, asked.different))
    works: dict[str, Callable[[], object]] = {
        "bare csv": lambda: list(csv.reader(io.StringIO(text.decode(), newline=""))),
        "csv": lambda: _lines(text, "m.csv", asked.lines),
        "bare xlsx": lambda: CalamineWorkbook.from_filelike(io.BytesIO(book)).get_sheet_by_index(0).to_python(),
        "xlsx": lambda: _lines(book, "m.xlsx", asked.lines),
    }
    rounds = [{name: seconds(work) for name, work in works.items()} for _ in range(3)]
    return {name: min(one[name] for one in rounds) for name in works}


def _lines(data: bytes, name: str, lines: int) -> None:
    read = read_manifest(data, name, {}, "USD")
    if len(read.lines) != lines:
        raise AssertionError(f"{len(read.lines)} lines instead of {lines}")


def run_long_history(asked: LongHistory) -> Measures:
    """Seconds, and memory when that was done; the file is written piece by piece, so that memory is the reading's."""
    with tempfile.TemporaryFile() as file:
        rows = long_rows(HISTORY, asked.rows, different=False)
        for piece in iter(lambda: list(islice(rows, _PIECE)), []):
            file.write(delimited_file(piece))
        file.seek(0)
        data = file.read()
    before = peak_mb()
    started = time.perf_counter()
    read = read_history(data, "sold.csv", {}, "USD")
    taken = time.perf_counter() - started
    if read.problems.rows != asked.rows:
        raise AssertionError(f"{read.problems.rows} rows instead of {asked.rows}")
    return {"seconds": taken, "memory": peak_mb(), "before": before, "file": len(data) / 1e6}


def mutated_tasks(files: int, pieces: int) -> Iterator[Mutated]:
    """The same files, in pieces."""
    step = -(-files // pieces)
    return (Mutated(first, min(step, files - first)) for first in range(0, files, step))
