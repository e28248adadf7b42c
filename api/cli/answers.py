"""What `evaluate` is asked and what it answers."""

import datetime as dt
from dataclasses import dataclass
from pathlib import Path
from typing import Any


@dataclass(frozen=True)
class Wish:
    """What the command line asked for."""

    manifests: tuple[Path, ...]
    sales: tuple[Path, ...]  # one history in as many files as it comes in
    settings: Path | None
    given_map: tuple[str, ...]
    as_of: dt.date
    seed: int
    work_log: Path | None = None


@dataclass(frozen=True)
class Answer:
    """What became of one manifest; `lines` is empty where `error` is set."""

    path: Path
    document: dict[str, Any]
    lines: tuple[dict[str, Any], ...] = ()
    error: str = ""
