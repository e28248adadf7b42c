"""Is this a day anybody reckons from?  A slip of the keyboard would otherwise be answered with strange amounts."""

import datetime as dt

from models.values.errors import Rejected

EARLIEST = dt.date(2000, 1, 1)
DAYS_AHEAD = 731  # two years, one of them a leap year


def reckoned_day(as_of: dt.date | None, today: dt.date) -> dt.date | None:
    """The day asked for, None where none was; Rejected if it is out of all reason."""
    latest = today + dt.timedelta(days=DAYS_AHEAD)
    if as_of is None or EARLIEST <= as_of <= latest:
        return as_of
    raise Rejected(
        f"The day to reckon from must lie between {EARLIEST} and {latest}, not {as_of}.", {"as_of": "too far"}
    )
