"""What does it change to bid more than was meant?  Read from the stored draws, in the contract's form."""

from dataclasses import dataclass
from typing import Any

from models.appraisal.judge import read_draws, read_shade
from models.appraisal.stored import Stored
from models.appraisal.written import money
from models.decide.cash_risk import NOT_BOUGHT, CashRisk, cash_risk
from models.decide.ceiling import LotDraws
from models.decide.figures import figures_at
from models.values.settings import Settings

DIGITS = 6  # of a chance or a return


def raised(stored: Stored, settings: Settings, low: float, high: float) -> dict[str, Any]:
    """Risk, profit and return at two hammer prices [minor units] and what the higher changes.

    `low` 0: the lot is not bought.
    """
    draws = read_draws(stored, settings, read_shade(stored, settings))
    before, after = (_at(bid, draws, settings) for bid in (low, high))
    currency = settings.currency
    return {
        "from": before.told(currency),
        "to": after.told(currency),
        "extra": {
            "cash_out": money(after.risk.cash_out - before.risk.cash_out, currency),
            "chance_of_cash_loss": round(after.risk.chance_of_cash_loss - before.risk.chance_of_cash_loss, DIGITS),
            "expected_loss": money(after.risk.expected_loss - before.risk.expected_loss, currency),
            "expected_profit": money(after.profit - before.profit, currency),
        },
    }


@dataclass(frozen=True)
class _At:
    """One bid; `profit` after pay [whole minor units], `back` None where nothing is paid."""

    risk: CashRisk
    profit: float
    back: float | None

    def told(self, currency: str) -> dict[str, Any]:
        return {
            "amount": money(self.risk.bid, currency),
            "cash_out": money(self.risk.cash_out, currency),
            "chance_of_cash_loss": round(self.risk.chance_of_cash_loss, DIGITS),
            "expected_loss": money(self.risk.expected_loss, currency),
            "expected_profit": money(self.profit, currency),
            "return_on_cash": None if self.back is None else round(self.back, DIGITS),
        }


def _at(bid: float, draws: LotDraws, settings: Settings) -> _At:
    if bid <= 0:
        return _At(NOT_BOUGHT, 0.0, None)
    figures = figures_at(bid, draws, settings)
    return _At(cash_risk(bid, draws.cash, settings), figures.expected_profit, figures.return_on_cash)
