"""What does it add to bid more than was meant?  Read from the stored draws, in the contract's form."""

from typing import Any

from models.appraisal.judge import read_draws, read_shade
from models.appraisal.stored import Stored
from models.appraisal.written import money
from models.decide.cash_risk import NOT_BOUGHT, CashRisk, cash_risk
from models.values.settings import Settings

CHANCE_DIGITS = 6


def raised(stored: Stored, settings: Settings, low: float, high: float) -> dict[str, Any]:
    """Risk in cash at two hammer prices [minor units] and what the higher adds; `low` 0: the lot is not bought."""
    cash = read_draws(stored, settings, read_shade(stored, settings)).cash
    before = cash_risk(low, cash, settings) if low > 0 else NOT_BOUGHT
    after = cash_risk(high, cash, settings)
    return {
        "from": _told(before, settings.currency),
        "to": _told(after, settings.currency),
        "extra": {
            "cash_out": money(after.cash_out - before.cash_out, settings.currency),
            "chance_of_cash_loss": round(after.chance_of_cash_loss - before.chance_of_cash_loss, CHANCE_DIGITS),
            "expected_loss": money(after.expected_loss - before.expected_loss, settings.currency),
        },
    }


def _told(risk: CashRisk, currency: str) -> dict[str, Any]:
    return {
        "amount": money(risk.bid, currency),
        "cash_out": money(risk.cash_out, currency),
        "chance_of_cash_loss": round(risk.chance_of_cash_loss, CHANCE_DIGITS),
        "expected_loss": money(risk.expected_loss, currency),
    }
