"""The decision part of an answer under other settings, read from stored draws in the contract's form."""

from typing import Any

from models.appraisal.decision_document import decision_document
from models.appraisal.held import reread
from models.appraisal.judge import judge
from models.appraisal.stored import Stored
from models.values.settings import Settings

WEEKS_LEFT_OUT = "cash_curve and payback_weeks: not told under these settings; evaluate the lot again to see them."


def read_again(stored: Stored, was: Settings, now: Settings) -> dict[str, Any]:
    """What an evaluation under `now` would say, as far as the draws made under `was` tell; `held` says how far."""
    read = reread(stored, was, now)
    told = decision_document(read.stored, judge(read.stored, now), now)
    left_out = [WEEKS_LEFT_OUT] if stored.weeks is not None and "cash_curve" not in told else []
    return told | {"held": [*read.held, *left_out]}
