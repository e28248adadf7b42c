"""What do a file's words say of its own sums and reach?  "182 units", "Total retail: $4,000", "covers about 80%"."""

import re
from decimal import Decimal

from models.intake.cells.number_texts import bare, decimal_of

_UNIT_WORDS = r"(?:units?|pcs|pieces|items?|ea|stück|stueck|stk|artikel|unidades|unités|pezzi|stuks)"
_CASE_WORDS = r"(?:cases?|cartons?|ctns?|boxes|master packs?|kartons?|cajas|colis|cartoni)"
_COUNT_WORDS = rf"(?:{_UNIT_WORDS}|(?:total )?(?:qty|quantity|unit count)|menge|anzahl)"
_NUMBER = r"(\d{1,3}(?:[.,' \u00a0]\d{3})+(?!\d)(?:[.,]\d{1,2})?|\d+(?:[.,]\d+)*)"
_UNITS = re.compile(rf"(?:^|(?<=[\s\-–—:|,(])){_NUMBER}\s*{_UNIT_WORDS}\b", re.IGNORECASE)
_UNITS_AFTER = re.compile(rf"\b{_COUNT_WORDS}\s*[:=]\s*{_NUMBER}(?![\d.,]*\s*[%$€£])", re.IGNORECASE)
_CASES = re.compile(rf"(?:^|(?<=[\s\-–—:|,(])){_NUMBER}\s*{_CASE_WORDS}\b", re.IGNORECASE)
_CASES_AFTER = re.compile(rf"\b(?:total\s+)?{_CASE_WORDS}\s*[:=]\s*{_NUMBER}", re.IGNORECASE)
_VAGUE = re.compile(
    r"(?:approx(?:imately|\.)?|about|around|circa|ca\.?|~|over|up to|roughly|min\.?|max\.?)\s*$", re.IGNORECASE
)
_VAGUE_AFTER = re.compile(r"\s*[,(]?\s*(?:approx|circa|ca\b|est\b|estimated|or so|\+/-|±)", re.IGNORECASE)
_TAG_WORDS = (
    r"(?:(?:total|ext(?:ended|\.)?|gesamt)\s+)?(?:retail(?: value)?|msrp|rrp|uvp|list value|tags?)"
    r"(?:\s+(?:value|total))?"
)
_TAGS = re.compile(rf"\b{_TAG_WORDS}\s*[:=]?\s*[A-Z]{{0,3}}\s*[$€£]?\s*{_NUMBER}(?!\s*%)", re.IGNORECASE)
_TAGS_BEFORE = re.compile(rf"[$€£]\s*{_NUMBER}\s*(?:[A-Z]{{3}}\s*)?{_TAG_WORDS}\b", re.IGNORECASE)
_LOOSE_END = re.compile(r"[\s\-–—:|,(;/]+$")
_GROUP_SIGNS = re.compile(r"(?<=\d)[.,' \u00a0](?=\d{3}(?!\d))")
_COVERS = re.compile(
    r"(?:list|manifest|file|sheet|spreadsheet|inventory)\b[^.\n%]{0,40}?\b(?:covers?|shows?|represents?|includes?|contains?|"
    r"accounts? for|lists?|is|reflects?)\b[^\n%\d]{0,30}(\d{1,3})(?:\s*(?:-|–|to)\s*(\d{1,3}))?\s*(?:%|percent)"
    r"|(\d{1,3})\s*(?:%|percent)\s*(?:is |are |was )?(?:manifested|listed|covered)",
    re.IGNORECASE,
)
_PARTLY = re.compile(r"\b(?:partial(?:ly)?|partly)[ -](?:manifest(?:ed)?|listed)\b|\bpartial list\b", re.IGNORECASE)


def said_units(text: str) -> float | None:
    """Units that a heading or title counts; None where it says none, or only roughly.

    Examples
    --------
    >>> said_units("PALLET 3 OF 5 - 182 units"), said_units("Total Units: 1,204"), said_units("about 90 units")
    (182.0, 1204.0, None)
    """
    return _count(text, _UNITS_AFTER.search(text) or _UNITS.search(text))


def said_cases(text: str) -> float | None:
    """Cases that a heading or title counts; None where it says none, or only roughly.

    Examples
    --------
    >>> said_cases("PALLET 1 - 40 cases"), said_cases("Total cases: 12"), said_cases("PALLET 1 - 40 units")
    (40.0, 12.0, None)
    """
    return _count(text, _CASES_AFTER.search(text) or _CASES.search(text))


def _count(text: str, found: re.Match[str] | None) -> float | None:
    if found is None or _VAGUE.search(text[: found.start(1)]) or _VAGUE_AFTER.match(text[found.end() :]):
        return None
    digits = _GROUP_SIGNS.sub("", found[1])
    return float(digits) if digits.isdecimal() else None


def said_tags(text: str, comma: bool, digits: int) -> float | None:
    """Tags of all units [minor units] that a heading or title tells; None where it does not, or only roughly.

    Parameters
    ----------
    text : str
        The row's words.
    comma : bool
        The file writes a decimal comma.
    digits : int
        Digits after the decimal sign of the currency.

    Examples
    --------
    >>> said_tags("Total Retail: $4,000.50", False, 2), said_tags("Retail goods", False, 2)
    (400050.0, None)
    """
    found = _TAGS.search(text) or _TAGS_BEFORE.search(text)
    if found is None or _VAGUE.search(text[: found.start(1)].rstrip(" $€£")):
        return None
    number = _number(found[1], comma)
    return None if number is None else float(number) * 10**digits


def without_counts(text: str) -> str:
    """A heading's name alone, without the counts behind it.

    Examples
    --------
    >>> without_counts("PALLET 3 OF 5 - 182 units"), without_counts("Lot 44: kitchen (12 pcs, Retail: $90)")
    ('PALLET 3 OF 5', 'Lot 44: kitchen')
    """
    starts = [
        found.start()
        for rule in (_UNITS, _UNITS_AFTER, _CASES, _CASES_AFTER, _TAGS, _TAGS_BEFORE)
        if (found := rule.search(text))
    ]
    head = text[: min(starts)] if starts else text
    name = _LOOSE_END.sub("", _VAGUE.sub("", head.rstrip())) or text
    return " ".join(name.split())


def said_share(text: str) -> str:
    """Which part of the load the list covers, as the words say it; "" for all of it or where they do not say.

    Examples
    --------
    >>> said_share("This list covers about 80% of the load"), said_share("The list covers 100% of it")
    ('80%', '')
    >>> said_share("20% off")
    ''
    """
    found = _COVERS.search(text)
    if found is None:
        return "a part" if _PARTLY.search(text) else ""
    low, high = found[1] or found[3], found[2]
    if int(high or low) >= 100 and not (high and int(low) < 100):
        return ""
    return f"{low} to {high}%" if high else f"{low}%"


def _number(text: str, comma: bool) -> Decimal | None:
    core, _ = bare(text.replace("\u00a0", " "))
    return decimal_of(core, comma)[0] if core else None
