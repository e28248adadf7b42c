"""What do rows say that are not goods?  Notes, headings of a part, rules of signs."""

import re
from collections.abc import Sequence
from functools import lru_cache

from models.intake.cells.word_lists import word_list
from models.intake.many import in_small_letters
from models.intake.shape.total_words import TOTALS, TOTALS_ABROAD, may_name_sum, sums_needed

_NOTE = re.compile(
    "|".join(
        word_list(r"""
        n\.?b\.?\b; all (?:sales|items|goods|prices)\b; this (?:list|manifest|file|report|lot)\b;
        (?:page|seite|pagina|página)\s*:?\s*\d; generated\b; (?:created|printed|exported) (?:on|by|at|from)\b;
        prepared by\b; end of (?:the )?(?:list|file|report|manifest|page|data|sheet|table)\b; disclaimer; see
        (?:also|the)\b; www\.; https?://; thank you for\b; for questions; alle angaben; \S+@\S+\.\S+$
    """)
    ),
    re.IGNORECASE,
)
# Words that begin notes, and names of goods too: "Note pad", "Contact lens case", "Printed scarf".
_LOOSE = re.compile(
    "|".join(
        word_list(r"""
        \*; notes?\b; please\b; thank you\b; the (?:list|manifest)\b; manifest\b; printed\b; exported\b; end of\b;
        continued\b; contact\b; terms\b; questions?\b; hinweise?\b; bemerkung(?:en)?\b; remarques?\b; nota\b
    """)
    ),
    re.IGNORECASE,
)
_SENTENCE = re.compile(
    r":|[.!?]\W*$|\b(?:is|are|was|were|will|may|must|has|have|covers?|shows?|apply|applies|us|by|on|at|and conditions|"
    r"next page|over|overleaf|continued)\b|\b\d{1,2}[./-]\d{1,2}[./-]\d{2,4}\b",
    re.IGNORECASE,
)
_SHORT_NOTE = 3  # words of a note that goods might be called by after all
_LONG_NOTE = 6  # words: goods in one cell alone, named by more, are rare; common practice, no source
_HEADING = re.compile(
    r"(?:section|sheet|part)\s*(?:#|no\.?|number)?\s*[\w-]*\d[\w-]*(?:\s*(?:of|/|-|:|–|,|\().*)?|.*:", re.IGNORECASE
)
_PARTS = "pallets?|skid|gaylord|lot|box|truck|load|palette|plt|carton|crate|bin|cage"
_PART = re.compile(
    rf"(?:{_PARTS})\s*(?:#|id|no\.?|nr\.?|number)?"
    r"\s*:?\s*(?:[\w-]*\d[\w-]*|[a-z])(?:\s*(?:of|von|/|-|:|–|—|,|\(|\|).*)?",
    re.IGNORECASE | re.DOTALL,
)
_CHARGE = re.compile(  # common practice, no source
    r"(?:(?:est(?:imated|\.)\s+)?(?:shipping|freight|delivery|handling|transport|postage)(?:\s*(?:and|&|/)\s*handling)?"
    r"(?:\s+(?:(?:cost|charge|fee|estimate|quote|surcharge)s?|est\.?))?|"
    r"(?:(?:pallet|skid|crate|container|bottle|loading|unloading|storage|admin|processing|documentation|lift\s?gate|fuel|"
    r"customs|import|disposal|recycling|service|lot|auction|payment|card)\s+)"
    r"(?:deposit|cost|charge|fee|surcharge|duty|levy)(?:s|ies)?|(?:refundable )?deposit|pfand|"
    r"palettenpfand|kaution|consigne|buyer'?s? premium|(?:sales )?tax|vat|mwst|mehrwertsteuer|tva|iva|"
    r"versand(?:kosten)?|fracht(?:kosten)?|porto|frais de port|livraison|aufgeld|gastos de env[ií]o|"
    r"spese di spedizione)\s*(?:\(?\d[\d.,]*\s*%\)?)?\s*:?",
    re.IGNORECASE,
)
_RULED = "-=_*~ \u2013\u2014"  # a heading may stand between such signs
_RULE = re.compile(r"[-=_*.~#\s–—]+")
_ODD = re.compile("|".join(f"(?:{one.pattern})" for one in (TOTALS, _CHARGE, _RULE, _PART)), re.IGNORECASE | re.DOTALL)
# Of a line in small letters that begins with a letter and can name no sum: all totals but some abroad are called so.
# Without the grammar's own folding it is found much faster.
_ODD_LINE = re.compile(
    rf"\n\s*(?:{TOTALS_ABROAD}|(?:{_CHARGE.pattern})|(?:{_PART.pattern}))\s*$", re.MULTILINE | re.DOTALL
)


@lru_cache(maxsize=1 << 16)
def is_odd(text: str) -> bool:
    """Worth a closer look although the row is filled.

    Examples
    --------
    >>> is_odd("Total"), is_odd("PALLET 3 OF 5"), is_odd("Blue mug")
    (True, True, False)
    """
    return bool(_ODD.fullmatch(text.strip())) or sums_needed(text) > 0 or not any(map(str.isalpha, text))


def is_charge(text: str) -> bool:
    """True for a cost of the lot or of a sale that stands among its goods.

    Examples
    --------
    >>> is_charge("Freight:"), is_charge("Buyer's premium (15%)"), is_charge("Shipping scale")
    (True, True, False)
    """
    return bool(_CHARGE.fullmatch(text.strip()))


def odd_ones(texts: Sequence[str]) -> set[str]:
    """Those of many texts that are odd; most are not, which is told of a hundred at once.

    Examples
    --------
    >>> odd_ones(["Blue mug", "Total", "12"]) == {"Total", "12"}
    True
    """
    found: set[str] = set()
    for some, small in in_small_letters(texts):
        begun = "".join([text[:1] for text in some])
        if len(begun) < len(some) or not begun.isalpha() or may_name_sum(small) or _ODD_LINE.search(small):
            found.update(filter(is_odd, some))
    return found


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


def is_surely_note(text: str) -> bool:
    """True for words that no goods are called by.

    Examples
    --------
    >>> is_surely_note("All sales final"), is_surely_note("Note: keep dry")
    (True, False)
    """
    if _is_plainly_note(text):
        return True
    return reads_like_note(text) and len(text.split()) > _SHORT_NOTE


def reads_like_note(text: str) -> bool:
    """True for words to the reader instead of goods.

    Examples
    --------
    >>> reads_like_note("All sales final"), reads_like_note("Note: keep dry"), reads_like_note("Note pad A5")
    (True, True, False)
    """
    if _is_plainly_note(text):
        return True
    return bool(_LOOSE.match(text)) and bool(_SENTENCE.search(text) or len(text.split()) >= _LONG_NOTE)


def _is_plainly_note(text: str) -> bool:
    return bool(_NOTE.match(text)) or (len(text) > 100 and text.rstrip().endswith((".", "!")))


def may_be_note(text: str) -> bool:
    """True for words that begin as notes do, though goods may be called so.

    Examples
    --------
    >>> may_be_note("Manifest journal"), may_be_note("Blue mug")
    (True, False)
    """
    return bool(_LOOSE.match(text))


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
    >>> names_part("Pallet A"), names_part("--- Pallet 4 ---"), names_part("Box of 12 pens")
    (True, True, False)
    """
    return bool(_PART.fullmatch(text.strip(_RULED)))
