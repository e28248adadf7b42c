"""ISO 8601-1:2019, week dates: 2005-01-01 is 2004-W53-6, 2008-12-29 is 2009-W01-1, 2010-01-03 is 2009-W53-7,
2024-12-30 is 2025-W01-1, 2026-12-31 is 2026-W53-4.  Calendar and ordinal dates, basic and extended; times and zones.
"""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.intake.cells.dates import Order, read_dates

DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2099, 12, 31))


def day_of(cell: str) -> dt.date | None:
    return read_dates([cell], Order.DAY)[0].value


@pytest.mark.parametrize(
    ("week", "day"),
    [
        ("2004-W53-6", "2005-01-01"),
        ("2009-W01-1", "2008-12-29"),
        ("2009-W53-7", "2010-01-03"),
        ("2025-W01-1", "2024-12-30"),
        ("2026-W53-4", "2026-12-31"),
    ],
)
def test_week_dates(week: str, day: str) -> None:
    assert day_of(week) == day_of(week.replace("-", "")) == dt.date.fromisoformat(day)


@pytest.mark.parametrize("cell", ["2025-W53-1", "2026-366", "2026-000", "2026-13-01", "2026-02-29", "2026-W00-1"])
def test_what_the_calendar_does_not_have_is_no_date(cell: str) -> None:
    assert day_of(cell) is None


@given(DAYS)
def test_every_form_of_a_day_is_that_day(day: dt.date) -> None:
    for form in ("%Y-%m-%d", "%Y%m%d", "%Y-%j", "%G-W%V-%u", "%Y-%m-%dT%H:%M:%SZ", "%Y-%m-%dT%H:%M:%S+05:30"):
        assert day_of(day.strftime(form)) == day
