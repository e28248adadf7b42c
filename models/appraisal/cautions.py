"""What must the seller check before bidding?  The lot's own cautions first, then what is always said."""

from collections.abc import Iterator
from typing import Any

import numpy as np

from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.values.cautions import STANDING_CAUTIONS
from models.values.conditions import UNKNOWN
from models.values.fields import Unit
from models.values.problems import Caution
from models.values.settings import REGISTRY


def lot_cautions(question: Question, lot: Prepared) -> list[dict[str, Any]]:
    """All cautions in the contract's form; `line` only where one line is meant."""
    of_lines = sorted(lot.prices.cautions, key=lambda one: (one.line is not None, one.line or 0))
    told = (
        *question.cautions,
        *_of_settings(question),
        *of_lines,
        *lot.tempo.cautions,
        *_of_lot(lot),
        *STANDING_CAUTIONS,
    )
    return [_told(caution) for caution in told]


def _told(caution: Caution) -> dict[str, Any]:
    line = {} if caution.line is None else {"line": caution.line}
    return line | {"what": caution.what, "check": caution.check}


def _of_settings(question: Question) -> Iterator[Caution]:
    held = question.held
    currency = held.settings.currency
    silent = [
        key
        for key, declared in REGISTRY.items()
        if declared.unit is Unit.MONEY and declared.default is not None and held.origins[key] == "assumed"
    ]
    if currency != "USD" and silent:
        yield Caution(
            f"The currency is {currency}: no usual amounts are known in it, so these count as 0: {', '.join(silent)}.",
            "Give your own freight, fees, packing, postage and hourly pay; the ceiling is too high without them.",
        )


def _of_lot(lot: Prepared) -> Iterator[Caution]:
    unknown = int((lot.lines.condition == UNKNOWN).sum())
    if unknown:
        yield Caution(
            f"{unknown} of {len(lot.lines)} lines name no condition that we know; they count as untested goods.",
            "Look at the photos, or ask the seller what condition these lines are in.",
        )
    late = int((lot.times.window <= 0).sum())
    if late:
        yield Caution(
            f"{late} of {len(lot.lines)} lines would be listed after the horizon ends: they count as left over.",
            "Check your listing hours and what already waits.",
        )
    own = int(np.sum(lot.prices.basis == "own_item"))
    yield Caution(
        f"{own} of {len(lot.lines)} lines are items you have sold before; the others rest on goods like them.",
        "Look up sold prices of the dearest lines you have never sold.",
    )
