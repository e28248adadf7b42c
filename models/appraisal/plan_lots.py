"""What goes into a bid plan: each lot's stored draws, read under the terms of its own evaluation."""

import hashlib
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from models.appraisal.judge import HOUR_DIGITS, read_ceiling, read_draws, read_shade
from models.appraisal.stored import Stored
from models.decide.ceiling import Ceiling, LotDraws
from models.decide.figures import BidFigures, figures_at
from models.decide.plan import Candidate
from models.decide.plan_search import JointLimits
from models.values.settings import Goals, Settings


@dataclass(frozen=True)
class LotToPlan:
    """One evaluated lot; `settings` are those of its evaluation, `fixed` the hammer price that the seller fixed."""

    id: str
    name: str
    stored: Stored
    settings: Settings
    fixed: float | None = None  # [minor units]; None: not fixed


@dataclass(frozen=True)
class PlanTerms:
    """What all lots together may take, and the goals that their sum must meet."""

    cash: float  # [minor units]
    hours: float  # of listing
    goals: Goals
    currency: str

    @property
    def limits(self) -> JointLimits:
        """As the search takes them."""
        goals = self.goals
        return JointLimits(self.cash, self.hours, goals.confidence, goals.loss_limit, goals.loss_chance)


@dataclass(frozen=True)
class LotRead:
    """A lot at the most to bid for it; `amount` 0 and no candidate where that is nothing."""

    id: str
    name: str
    settings: Settings
    ceiling: Ceiling
    fixed: float | None  # the seller's own, where it is below the evaluation's [minor units]
    draws: LotDraws
    hours: float  # of listing, as its own page prints them
    twin: str  # the same for lots whose draws are the same to the last bit

    @property
    def amount(self) -> float:
        """Hammer price [whole minor units]."""
        reached = self.ceiling.amount if self.fixed is None else self.fixed
        stands = self.settings.lot.current_bid
        return 0.0 if stands is not None and stands > reached else reached

    @cached_property
    def figures(self) -> BidFigures:
        """What that amount leads to."""
        return figures_at(self.amount, self.draws, self.settings)

    @property
    def candidate(self) -> Candidate | None:
        """As the plan takes it."""
        if self.amount <= 0:
            return None
        return Candidate(self.figures.cash_out, self.hours, self.draws.cash, self.draws.after_pay)


def read_lot(lot: LotToPlan) -> LotRead:
    """The lot at its own ceiling, or lower where the seller fixed it lower."""
    total = lot.stored.components
    ceiling = read_ceiling(lot.stored, lot.settings)
    return LotRead(
        id=lot.id,
        name=lot.name,
        settings=lot.settings,
        ceiling=ceiling,
        fixed=lot.fixed if lot.fixed is not None and lot.fixed < ceiling.amount else None,
        draws=read_draws(lot.stored, lot.settings, read_shade(lot.stored, lot.settings)),
        hours=round(float(total.minutes_listing.mean()) / 60.0, HOUR_DIGITS),
        twin=hashlib.blake2b(np.ascontiguousarray(total.gross_sold).tobytes(), digest_size=16).hexdigest(),
    )
