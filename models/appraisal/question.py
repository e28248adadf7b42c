"""What is asked of an appraisal, and what it answers."""

import datetime as dt
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from models.values.in_force import InForce
from models.values.lines import Lines
from models.values.problems import Caution, Problems

Progress = Callable[[float, str], None]


@dataclass(frozen=True)
class Question:
    """One lot under one set of settings on one day; `zone` is the shop's time zone.

    `looked_up` and `chosen` are what the seller typed in, by line number.
    """

    lines: Lines
    problems: Problems
    cautions: tuple[Caution, ...]
    name: str
    held: InForce
    as_of: dt.date
    seed: int
    zone: str = "UTC"
    looked_up: Mapping[int, tuple[float, ...]] = field(default_factory=dict)  # sold prices of one unit [minor units]
    chosen: Mapping[int, str] = field(default_factory=dict)  # list | bundle | skip | never


@dataclass(frozen=True)
class Evaluation:
    """`document` is the answer in the contract's form, without the ids that a store gives."""

    document: dict[str, Any]
    lines: tuple[dict[str, Any], ...]  # one a line, in the manifest's order
    components: bytes  # sums per draw, for reading the decision again under other terms
