"""What does each assumption do to the ceiling?  Every setting in force; where it is not the seller's own, both ends."""

from dataclasses import asdict
from typing import Any

from models.appraisal.held import reread
from models.appraisal.judge import read_ceiling
from models.appraisal.stored import Stored
from models.appraisal.written import money
from models.values.changed import with_setting
from models.values.in_force import Assumption, InForce, without_learned


def assumption_documents(stored: Stored, held: InForce) -> list[dict[str, Any]]:
    """The contract's assumptions, widest first; `held` names what both ceilings keep as evaluated."""
    settings = held.settings
    now = read_ceiling(stored, settings).amount
    told = [(_ends(one, stored, held, now), one) for one in held.assumptions]
    told.sort(key=lambda pair: -pair[0].width)
    return [asdict(one) | ends.document(settings.currency) for ends, one in told]


class _Ends:
    """Smallest and largest ceiling over a setting's range; without a range there is none to tell."""

    def __init__(self, ceilings: tuple[float, ...] = (), kept: tuple[str, ...] = ()) -> None:
        self.ceilings, self.kept = ceilings, kept

    @property
    def width(self) -> float:
        """What it may do to the ceiling; below every told one where nothing is told."""
        return max(self.ceilings) - min(self.ceilings) if self.ceilings else -1.0

    def document(self, currency: str) -> dict[str, Any]:
        """In the contract's form."""
        if not self.ceilings:
            return {"ceiling_low": None, "ceiling_high": None}
        told = {"ceiling_low": money(min(self.ceilings), currency), "ceiling_high": money(max(self.ceilings), currency)}
        return told | {"held": list(self.kept)}


def _ends(one: Assumption, stored: Stored, held: InForce, now: float) -> _Ends:
    if one.source == "yours" or one.low is None or one.high is None:
        return _Ends()
    settings = held.settings
    kept: dict[str, None] = {}
    ceilings = [now] if float(one.low) <= float(one.value) <= float(one.high) else []
    for end in (one.low, one.high):
        changed = without_learned(with_setting(settings, one.key, end), one.key, held)
        read = reread(stored, settings, changed)
        kept.update(dict.fromkeys(told for told in read.held if told.startswith(f"{one.key}:")))
        ceilings.append(read_ceiling(read.stored, changed).amount)
    return _Ends(tuple(ceilings), tuple(kept))
