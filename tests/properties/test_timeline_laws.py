"""Nothing is sold before it is paid for, whatever is said of the close and the arrival."""

import datetime as dt
from typing import Any

import numpy as np
from appraisal_world import AS_OF, demo_lines, demo_model
from hypothesis import given, settings
from hypothesis import strategies as st

from models.appraisal.appraise import appraise
from models.appraisal.judge import read_backlog
from models.appraisal.question import Evaluation, Question
from models.appraisal.stored import Stored
from models.appraisal.timeline import Worth, paid_on, timeline
from models.values.given import read_given
from models.values.in_force import in_force
from models.values.problems import Problems

WORTH = Worth(np.array([0, 1, 1]), np.array([500.0, 900.0, 100.0]), np.array([12.0, 12.0, 1.0]))
days = st.one_of(st.none(), st.integers(-30, 400))
LINES = demo_lines("manifest_new_brand.csv").take(np.arange(20))


def terms(closes: int | None, arrives: int | None) -> dict[str, Any]:
    told: dict[str, Any] = {}
    if closes is not None:
        told["closes_at"] = f"{AS_OF + dt.timedelta(days=closes)}T12:00:00Z"
    if arrives is not None:
        told["arrives_on"] = str(AS_OF + dt.timedelta(days=arrives))
    return {"lot": told}


def appraised(closes: int | None, arrives: int | None = None) -> Evaluation:
    held = in_force([read_given(terms(closes, arrives))], demo_model().learned)
    question = Question(LINES, Problems(20, 20, 0, ()), (), "a lot", held, AS_OF, 1)
    return appraise(question, demo_model(), lambda share, step: None)


@given(closes=days, arrives=days, waiting=st.integers(0, 500))
def test_the_goods_come_and_are_listed_no_earlier_than_the_payment(
    closes: int | None, arrives: int | None, waiting: int
) -> None:
    held = in_force([read_given(terms(closes, arrives) | {"backlog": {"waiting_units": waiting}})]).settings
    found = timeline(held, AS_OF, paid_on(held, AS_OF, "UTC"), WORTH, 10.0)
    assert 0 <= found.paid <= found.arrives
    assert (found.listed >= found.arrives).all()
    assert (found.window <= 7 * held.goals.horizon_weeks).all()
    if arrives is not None and arrives >= found.paid:
        assert found.arrives == arrives
    if closes is None and arrives is None:
        assert found.arrives == 10


@settings(max_examples=6, deadline=None)
@given(closes=st.integers(11, 300))
def test_closing_later_gains_no_more_than_the_wait_for_the_goods(closes: int) -> None:
    """Ten days less between payment and arrival; the season and the market move it a little too."""
    at = [float(appraised(day).document["cash_proceeds"]["mean"]) for day in (None, closes)]
    assert at[1] < 1.05 * at[0]


def test_the_backlog_is_joined_on_the_same_day() -> None:
    for closes, arrives, weeks in ((None, None, 10 / 7), (40, None, 40 / 7), (40, 3, 40 / 7), (40, 50, 50 / 7)):
        stored = Stored.from_bytes(appraised(closes, arrives).components)
        held = in_force([read_given(terms(closes, arrives) | {"backlog": {"hours_per_week": 1}})]).settings
        first = next(week.week for week in read_backlog(stored, held).weekly if week.hours_after.p50 > 0)
        assert first == int(np.ceil(weeks)), (closes, arrives)
