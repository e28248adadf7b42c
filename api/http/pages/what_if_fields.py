"""Which terms does the form of a what-if ask for, and what holds while a field is left empty?"""

from collections.abc import Mapping
from typing import Any, Final

from api.http.pages.setting_fields import Field, fields_of
from models.services.shop_settings import read_settings
from models.store.records import EvaluationRecord, ShopRecord
from models.store.unit_of_work import UnitOfWork
from models.values.in_force import Assumption

ASKED: Final = (
    "lot.current_bid", "buying.freight", "buying.premium", "buying.tax_rate", "buying.rivals", "goals.confidence",
    "goals.return_on_cash", "goals.hourly_pay", "backlog.hours_per_week",
)  # fmt: skip


def what_if_fields(work: UnitOfWork, held: ShopRecord, evaluation: EvaluationRecord) -> list[Field]:
    """The terms asked about most; what holds while one is left empty is what the evaluation was made with."""
    in_force = {one.key: one for one in read_settings(work, held.id).in_force}
    made_with = {one["key"]: _assumption(one) for one in evaluation.document.get("assumptions", ())}
    return fields_of(ASKED, {}, in_force | made_with, held.currency, held.time_zone)


def _assumption(told: Mapping[str, Any]) -> Assumption:
    return Assumption(told["key"], told["value"], told["source"], told.get("low"), told.get("high"))
