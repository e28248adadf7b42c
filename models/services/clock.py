"""What day is it?  The only reader of the process's clock; leases and time stamps use the database's clock."""

import datetime as dt
import time
from zoneinfo import ZoneInfo


def local_date(time_zone: str) -> dt.date:
    """Today in a shop's time zone."""
    return dt.datetime.now(ZoneInfo(time_zone)).date()


def utc_now() -> dt.datetime:
    """This moment, for telling what is over."""
    return dt.datetime.now(dt.UTC)


def machine_date() -> dt.date:
    """Today where this machine is: for the command line, which knows no shop."""
    return dt.datetime.now().astimezone().date()


def steady_seconds() -> float:
    """Seconds that only grow, for pacing and durations."""
    return time.monotonic()
