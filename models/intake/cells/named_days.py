"""What day does "July 4th, 2026 at 10:03 PM" say?  Month names of several languages, with a time and words around them.

Common practice, no source.
"""

import datetime as dt
import re

_CLOCK = r"\(?\d{1,2}[:.h]\d{2}"
TIME = rf"(?:(?:[T ,]|\bat\b|\bum\b)+{_CLOCK}.*)?"
_TIME_FIRST = re.compile(
    rf"{_CLOCK}(?::\d{{2}})?(?:\.\d+)?\s*(?:[ap]\.?m\.?)?[ ,]+(?P<day>[^:]*\d{{4}})(?:\s+[A-Za-z]{{2,5}})?",
    re.IGNORECASE,
)
_YEAR_LAST = re.compile(
    rf"(?P<day>[^\W\d_]{{3,9}}\.? \d{{1,2}}),? {_CLOCK}(?::\d{{2}})?(?: [A-Z]{{2,5}}| [+-]\d{{4}})? (?P<year>\d{{4}})"
)
_DAY_NAME = re.compile(r"^[^\W\d_]{2,10}\.?,?\s+(?=\d|[^\W\d_]{3})")
_DAY_MONTH = re.compile(
    r"(\d{1,2})(?:st|nd|rd|th|\.|er)?[-/. ]+(?:de |of )?([^\W\d_]+)\.?[-/., ]+(?:de )?(\d{4}|\d{2})" + TIME
)
_MONTH_DAY = re.compile(r"([^\W\d_]+)\.?[-/. ]+(\d{1,2})(?:st|nd|rd|th)?[-/., ]+(\d{4}|\d{2})" + TIME)
_MONTHS = {
    name: month
    for month, names in enumerate(
        (
            "jan january januar janvier janv enero ene gennaio gen januari jänner",
            "feb february februar février fevrier févr febrero febbraio februari",
            "mar march märz maerz mrz mär mars marzo maart mrt",
            "apr april avril avr abril abr aprile",
            "may mai mayo maggio mag mei",
            "jun june juni juin junio giugno giu",
            "jul july juli juillet juil julio luglio lug",
            "aug august août aout agosto ago augustus",
            "sep sept september septembre septiembre settembre set",
            "oct october oktober okt octobre octubre ottobre ott",
            "nov november novembre noviembre",
            "dec december dezember dez décembre decembre déc diciembre dic dicembre",
        ),
        start=1,
    )
    for name in names.split()
}


def named_day(text: str) -> dt.date:
    """The day that a text with a month's name says, without its time and zone.

    Raises
    ------
    ValueError
        If it says none.
    KeyError
        If what stands where a month should is none.

    Examples
    --------
    >>> str(named_day("Sat Jul 4 10:03:21 PDT 2026")), str(named_day("4. Juli 2026")), str(named_day("Jul-04-26"))
    ('2026-07-04', '2026-07-04', '2026-07-04')
    """
    text = _day_alone(text)
    for words in (text, _DAY_NAME.sub("", text, count=1)):
        if found := _DAY_MONTH.fullmatch(words):
            return dt.date(year_of(found[3]), _MONTHS[found[2].lower()], int(found[1]))
        if (found := _MONTH_DAY.fullmatch(words)) and found[1].lower() in _MONTHS:
            return dt.date(year_of(found[3]), _MONTHS[found[1].lower()], int(found[2]))
    raise ValueError


def _day_alone(text: str) -> str:
    """Month names without a time that stands before them or before their year."""
    bare = _DAY_NAME.sub("", text, count=1)
    if found := _YEAR_LAST.fullmatch(bare):
        return f"{found['day']} {found['year']}"
    found = _TIME_FIRST.fullmatch(text)
    return found["day"] if found else text


def year_of(digits: str) -> int:
    """A year of four digits, or of two: 80 and above are of the last century.

    Examples
    --------
    >>> year_of("2026"), year_of("26"), year_of("99")
    (2026, 2026, 1999)
    """
    year = int(digits)
    return year if len(digits) == 4 else year + (2000 if year < 80 else 1900)
