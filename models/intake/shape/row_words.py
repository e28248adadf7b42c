"""What do rows say that are not goods?  Totals, notes, headings of a part, rules of signs."""

import re
from functools import lru_cache

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell

_WHOSE = "|".join(
    word_list("""
    grand; sub; running; pallet; skid; box; carton; gaylord; bin; crate; palette; truck; lot; page; overall; manifest;
    order; column; report; final; net; file; sheet; load
""")
)
_COUNTED = "|".join(
    word_list("""
    units?; items?; pieces; pcs; qty; quantity; retail; msrp; value; lines?; lots?; cost; price; amount; skus?; ext;
    extended; rrp; pallets?
""")
)
_ABROAD = "|".join(
    word_list("""
    (?:gesamt|zwischen)?summen?(?: gesamt)?:?; gesamt:?; somme:?; sous[ -]total:?; total g[eé]n[eé]ral:?; suma:?;
    totale:?; totaal:?; sum:?; übertrag:?; (?:carried|brought) forward:?
""")
)
_TOTAL = re.compile(
    rf"(?:(?:{_WHOSE})[\s-]*)*totals?(?:\s+(?:{_COUNTED}))*\s*[:=]?\s*(?:\d[\d.,\s]*)?|{_ABROAD}", re.IGNORECASE
)
_NOTE = re.compile(
    "|".join(
        word_list(r"""
        \*; notes?\b; n\.?b\.?\b; please\b; all (?:sales|items|goods|prices)\b; this
        (?:list|manifest|file|report|lot)\b; the (?:list|manifest)\b; manifest\b; page \d; printed\b; generated\b;
        created (?:on|by)\b; prepared by\b; exported\b; end of\b; continued\b; contact\b; terms\b; disclaimer; see
        (?:also|the)\b; www\.; https?://; thank you; questions?\b; for questions; hinweis; bemerkung; alle angaben;
        \S+@\S+\.\S+$
    """)
    ),
    re.IGNORECASE,
)
_HEADING = re.compile(
    r"(?:section|sheet|part)\s*(?:#|no\.?|number)?\s*[\w-]*\d[\w-]*(?:\s*(?:of|/|-|:|–|,|\().*)?|.*:", re.IGNORECASE
)
_PART = re.compile(
    r"(?:pallets?|skid|gaylord|lot|box|truck|load|palette|plt|carton|crate|bin|cage)\s*(?:#|id|no\.?|nr\.?|number)?"
    r"\s*:?\s*(?:[\w-]*\d[\w-]*|[a-z])(?:\s*(?:of|von|/|-|:|–|—|,|\(|\|).*)?",
    re.IGNORECASE | re.DOTALL,
)
_RULE = re.compile(r"[-=_*.~#\s–—]+")


def says_total(cell: Cell) -> bool:
    """True for a cell that labels a total: "Total", "Grand total:", "Total units 182".

    Examples
    --------
    >>> says_total("Sub-total"), says_total("TOTAL UNITS: 182"), says_total("Total gym"), says_total(5)
    (True, True, False, False)
    """
    return isinstance(cell, str) and 0 < len(cell) < 60 and bool(_TOTAL.fullmatch(cell.strip()))


@lru_cache(maxsize=4096)
def is_odd(text: str) -> bool:
    """Worth a closer look although the row is filled.

    Examples
    --------
    >>> is_odd("Total"), is_odd("PALLET 3 OF 5"), is_odd("Blue mug")
    (True, True, False)
    """
    return says_total(text) or not any(map(str.isalpha, text)) or is_rule(text) or bool(_PART.fullmatch(text))


def is_rule(text: str) -> bool:
    """True for a line drawn with signs.

    Examples
    --------
    >>> is_rule("-----"), is_rule("A-1")
    (True, False)
    """
    return bool(_RULE.fullmatch(text))


def is_phrase(text: str) -> bool:
    """True for several words, as no number, code or brand's cell alone is.

    Examples
    --------
    >>> is_phrase("Thank you for bidding"), is_phrase("Acme"), is_phrase("sk 9"), is_phrase("$1 500")
    (True, False, False, False)
    """
    return sum(1 for word in text.split() if any(map(str.isalpha, word))) > 1


def reads_like_note(text: str) -> bool:
    """True for words to the reader instead of goods.

    Examples
    --------
    >>> reads_like_note("All sales final"), reads_like_note("Note book A5")
    (True, True)
    """
    return bool(_NOTE.match(text)) or (len(text) > 100 and text.rstrip().endswith((".", "!")))


def is_heading(text: str) -> bool:
    """True for the heading of a part: a pallet, a box, a section.

    Examples
    --------
    >>> is_heading("PALLET 3 OF 5 - 182 units"), is_heading("Kitchen:"), is_heading("Blue mug")
    (True, True, False)
    """
    return bool(_HEADING.fullmatch(text) or _PART.fullmatch(text))


def names_part(text: str) -> bool:
    """True for the heading of one pallet, box or lot, told by its number.

    Examples
    --------
    >>> names_part("Pallet A"), names_part("Box of 12 pens")
    (True, False)
    """
    return bool(_PART.fullmatch(text))
