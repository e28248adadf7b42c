"""How long until bidding ends?  With the time it is said at: a page may lie open for an hour."""

import datetime as dt
from zoneinfo import ZoneInfo

from api.http.pages.words import count

MINUTES_UP_TO = dt.timedelta(hours=2)
HOURS_UP_TO = dt.timedelta(days=2)


def time_left(closes_at: str | None, now: dt.datetime, zone: str = "UTC") -> str:
    """`58 minutes left at 11:02`; blank where nobody said when, or it is over."""
    left = dt.datetime.fromisoformat(closes_at) - now if closes_at else dt.timedelta(0)
    if left <= dt.timedelta(0):
        return ""
    return f"{_spelled(left)} left at {now.astimezone(ZoneInfo(zone)):%H:%M}"


def _spelled(left: dt.timedelta) -> str:
    """Rounded down: rather too early than too late."""
    if left < MINUTES_UP_TO:
        return count(left // dt.timedelta(minutes=1), "minute", "minutes")
    if left < HOURS_UP_TO:
        return count(left // dt.timedelta(hours=1), "hour", "hours")
    return count(left // dt.timedelta(days=1), "day", "days")
