"""Two facts beside a ceiling: how long until bidding ends, and what became of the list's tags."""

import datetime as dt
from typing import Any

import pytest

from api.http.pages.tag_words import tags_words
from api.http.pages.time_left import time_left
from api.http.pages.words import chance

NOW = dt.datetime(2026, 7, 1, 11, 2, 30, tzinfo=dt.UTC)


@pytest.mark.parametrize(
    ("closes_at", "said"),
    [
        ("2026-07-01T12:01:00Z", "58 minutes left at 11:02"),
        ("2026-07-01T11:04:00Z", "1 minute left at 11:02"),
        ("2026-07-01T11:03:00Z", "0 minutes left at 11:02"),
        ("2026-07-01T14:30:00+01:00", "2 hours left at 11:02"),
        ("2026-07-04T11:00:00Z", "2 days left at 11:02"),
        ("2026-07-01T11:02:00Z", ""),
        (None, ""),
    ],
)
def test_time_left_is_rounded_down(closes_at: str | None, said: str) -> None:
    assert time_left(closes_at, NOW) == said


def test_time_left_is_told_at_the_shop_s_own_time() -> None:
    assert time_left("2026-07-01T12:01:00Z", NOW, "America/Chicago") == "58 minutes left at 06:02"


WITH_ALL = (
    "tags of $900 in the list, priced by tags of $700 (24 gave way to those on your own sales, 1 not believed, "
    "5 not needed)"
)


@pytest.mark.parametrize(
    ("told", "said"),
    [
        ({}, "tags of $900"),
        ({"tags_ignored": 2}, "tags of $900 in the list, priced by tags of $700 (2 not believed)"),
        ({"tags_ignored": 25, "tags": {"given": 60, "used": 30, "replaced": 24, "ignored": 1, "not_needed": 5}},
         WITH_ALL),
        ({"tags_ignored": 0, "tags": {"given": 60, "used": 60, "replaced": 0, "ignored": 0, "not_needed": 0}},
         "tags of $900"),
        ({"tag_total": "0.00"}, ""),
    ],
)  # fmt: skip
def test_tags_that_were_not_used_are_counted_by_what_became_of_them(told: dict[str, Any], said: str) -> None:
    assert tags_words({"tag_total": "900.00", "tag_total_used": "700.00"} | told, "USD") == said


@pytest.mark.parametrize(("share", "said"), [(0.0, "under 1%"), (0.3, "30%"), (1.0, "over 99%"), (None, "")])
def test_a_chance_is_never_nothing_or_all(share: float | None, said: str) -> None:
    assert chance(share) == said
