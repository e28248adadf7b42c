"""How is a day written in a sentence?"""

import datetime as dt


def day_in_words(day: dt.date) -> str:
    """Day, short month, year.

    Examples
    --------
    >>> day_in_words(dt.date(2026, 7, 1))
    '1 Jul 2026'
    """
    return f"{day.day} {day:%b %Y}"
