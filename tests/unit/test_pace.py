"""What is listed in a usual week, beside what the seller says of their hours."""

from dataclasses import replace

import numpy as np
import pytest
from tempo_world import START, days, sales_of

from models.appraisal.pace_words import beside_stated, pace_cautions, pace_document
from models.estimate.fit.effort import fit_effort
from models.estimate.pace import Pace, measured_pace
from models.services.pace_words import minutes_words, pace_words
from models.values.in_force import in_force
from models.values.sales import Sales

UNTIL = START + np.timedelta64(400, "D")


def rows(listed: np.ndarray, **given: object) -> Sales:
    n = len(listed)
    return sales_of(listed, np.full(n, np.nan), listed_on=days(listed), **given)


def pace_of(sales: Sales) -> Pace | None:
    return measured_pace(sales, UNTIL, fit_effort(sales, np.arange(len(sales))))


def weekly(units: list[int], apart: float = 7.0) -> np.ndarray:
    """Listing days of so many units a week, newest week first."""
    return np.concatenate([np.full(n, 399.0 - apart * at) for at, n in enumerate(units)])


def test_pace_is_the_median_week_times_the_mean_minutes() -> None:
    """61 units a week at 13.77 minutes are 14 hours; a single week of 500 and empty weeks between change nothing."""
    listed = weekly([500] + [61] * 25, 14.0)
    pace = pace_of(rows(listed, listing_minutes=np.full(len(listed), 14 * 60 / 61)))
    assert pace is not None
    assert pace.hours_per_week == pytest.approx(14.0, rel=0.01)
    assert (pace.weeks, pace.left_out, pace.units_per_week) == (26, 25, 61.0)
    assert (pace.until, pace.since) == ("2025-02-04", str(UNTIL - 7 * 51 + 1))
    assert pace.minutes_learned
    assert not pace.sold_only


def test_units_of_a_row_all_count() -> None:
    pace = pace_of(rows(weekly([2] * 8), quantity=np.full(16, 5)))
    assert pace is not None
    assert pace.units_per_week == 10.0


def test_pace_without_timings_takes_the_twelve_minutes_of_the_settings() -> None:
    pace = pace_of(rows(weekly([10] * 4)))
    assert pace is not None
    assert pace.hours_per_week == pytest.approx(2.0)
    assert not pace.minutes_learned


def test_dates_that_cannot_tell_a_pace() -> None:
    assert pace_of(rows(weekly([10] * 3))) is None  # three weeks
    assert pace_of(rows(weekly([4] * 10))) is None  # a few units a week are not all of a seller's listing
    assert pace_of(rows(np.where(np.arange(100) < 60, np.nan, weekly([10] * 10)))) is None  # mostly undated
    assert pace_of(Sales.blank(0)) is None


def test_only_the_last_26_weeks_with_listings_are_looked_at() -> None:
    pace = pace_of(rows(weekly([20] * 26 + [200] * 10)))
    assert pace is not None
    assert (pace.units_per_week, pace.weeks) == (20.0, 26)


def held(stated: float | None):  # type: ignore[no-untyped-def]
    return in_force([] if stated is None else [{"backlog": {"hours_per_week": stated}}], {})


def usual(**changes: object) -> Pace:
    """61 units a week, about 14 hours; a busy week has 80."""
    plain = Pace(26, 3, "2025-08-01", "2026-02-10", 61.0, 80.0, 13.8, 0.05, True, False)
    return replace(plain, **changes)  # type: ignore[arg-type]


def test_what_is_far_above_comes_from_the_spread_of_the_weeks() -> None:
    assert usual().busy_hours == pytest.approx(14.03 * np.exp(np.hypot(np.log(80 / 61), 1.2816 * 0.05)), rel=1e-3)
    assert list(pace_cautions(usual(), held(25.0)))
    assert not list(pace_cautions(usual(), held(18.0)))
    assert not list(pace_cautions(usual(busy_units=140.0), held(25.0)))  # such weeks were there
    assert not list(pace_cautions(usual(minutes_sd=0.7), held(25.0)))  # the minutes may be twice as many
    assert not list(pace_cautions(usual(sold_only=True), held(25.0)))  # the file shows too few listings
    assert not list(pace_cautions(usual(), held(None)))
    assert not list(pace_cautions(None, held(25.0)))


def test_both_are_said_side_by_side() -> None:
    told = pace_words({"pace": beside_stated(pace_document(usual()), 25.0)})
    assert told.startswith(
        "You say 25 hours a week; your last 26 weeks with any listing were 61 units a week, about 14 hours at 13.8"
        " minutes a unit. 3 weeks without any are left out."
    )
    assert told.endswith("Hardly any of those weeks held more than 18.5 hours.")
    plain = pace_words({"pace": beside_stated(pace_document(usual(left_out=1, minutes_learned=False)), None)})
    assert plain.startswith("Your last 26 weeks")
    assert "1 week without any is left out." in plain
    assert "The minutes are assumed" in plain
    assert "sold listings only" in pace_words({"pace": pace_document(usual(sold_only=True))})
    assert pace_words({}) == ""


def test_what_the_minutes_rest_on_is_said() -> None:
    def said(timings: int, entries: int) -> str:
        return minutes_words({"effort": {"timings": timings, "work_log_entries": entries}})

    assert (
        said(1204, 1) == "Listing minutes rest on 1,204 timed rows of your sold history and 1 entry of your work log."
    )
    assert said(0, 3) == "Listing minutes rest on 3 entries of your work log."
    assert "not learned from you yet" in said(0, 0)
    assert minutes_words({}) == ""


def test_what_a_work_log_adds_to_timed_rows_is_said() -> None:
    def said(**told: float) -> str:
        return minutes_words({"effort": {"timings": 50, **told}})

    assert said(work_log_entries=12, work_log_share=0.086) == (
        "Listing minutes rest on 50 timed rows of your sold history and for 9% on 12 entries of your work log."
    )
    assert "for less than 1% on 1 entry" in said(work_log_entries=1, work_log_share=0.002)
    left = said(work_log_entries=0, work_log_left_out=12, work_log_times=2.55)
    assert "rest on 50 timed rows of your sold history. 12 entries of your work log are not counted" in left
    assert "they tell 2.5 times as many minutes an item as those rows" in left
