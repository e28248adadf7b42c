"""Which words say that goods are not in the lot?  In a note or status, or in a heading above them.

Common practice, no source.
"""

import re
from enum import Enum

from models.intake.cells.word_lists import word_list

_OUT_OF = (
    r"(?:\s+(?:from|in|of|out of)\s+(?:the\s+|this\s+)?"
    r"(?:lot|load|pallet|sale|shipment|box|truck|manifest|list|order)\b.*)?"
)
_ALONE = "|".join(
    word_list(r"""
    (?:already |item )?sold(?: separately| out)?; short(?:ed| shipped)?; do not (?:ship|include|count); storniert;
    entfernt; entnommen; fehlt; fehlend; nicht (?:enthalten|dabei|vorhanden); ausgebucht; verkauft; annulée?; retirée?;
    manquante?; non inclus; vendue?; anulad[oa]; retirad[oa]; falta(?:nte)?; no incluid[oa]; vendid[oa]; cancelad[oa];
    annullat[oa]; rimoss[oa]; mancante; non inclus[oa]; vendut[oa]; geannuleerd; verwijderd; ontbreekt; niet inbegrepen;
    verkocht; anulowan[oaey]; usunięt[oaey]; sprzedan[oaey]
""")
)
_STRUCK = re.compile(
    rf"(?:(?:removed|pulled|missing|excluded|withdrawn|deleted|void(?:ed)?|not included|not shipped|not present|lost|"
    rf"gone|taken out|not received|absent){_OUT_OF}|(?:item |line )?cancel(?:l?ed|lation)\b.*|"
    rf"not in (?:the |this )?(?:lot|load|pallet|sale|box)\b.*|{_ALONE})[\s.!*]*",
    re.IGNORECASE,
)
_MAYBE = re.compile(
    r"\b(?:void(?:ed)?|cancel(?:l?ed)|removed|pulled|excluded|withdrawn|not included|"
    r"not in (?:the )?(?:lot|load|pallet)|short shipped|missing from|sold|"
    r"storniert|entfernt|nicht enthalten|annulé|retiré)\b",
    re.IGNORECASE,
)
_PLACES = r"(?:lots?|loads?|pallets?|sale|shipment|truck(?:load)?|delivery|auction|lieferung|palette|lote|lotto|partij)"
_GONE = "|".join(
    word_list(rf"""
    not (?:in|on|part of) (?:the |this )?{_PLACES}; not (?:included|shipped|delivered|received|present|loaded);
    (?:removed|deleted|taken off) from (?:the |this )?(?:manifest|list);
    (?:pulled|cancell?ed|deleted|sold|lost) from (?:the |this )?{_PLACES}; removed; removals; excluded; exclusions;
    excluding; withdrawn; withheld; held back; taken out; missing; short[ -]?shipped; short[ -]?shipments?; shorted;
    shortages?; sold separately; back[ -]?ordered; back[ -]?orders?; do not (?:ship|include|count); storniert[ea]?;
    entfernte?; entnommene?; fehlt; fehlende?; fehlmengen?;
    nicht (?:enthaltene?|dabei|vorhandene?|geliefert); manquante?s?; retirée?s?; non
    (?:inclus[oaie]?e?s?|livrée?s?); retirad[oa]s?; faltantes?; no incluid[oa]s?; rimoss[oaie]; mancant[ei];
    verwijderde?; ontbre(?:ekt|kende); niet (?:inbegrepen|meegeleverd)
""")
)
_LOOSE = "|".join(word_list(r"sold; void(?:ed)?; cancel(?:l?ed); deleted; pulled; lost; short; verkauft; annulée?s?"))
_THERE = "|".join(
    word_list(rf"""
    included; in (?:the |this )?{_PLACES}; shipped; delivered; received; present; remaining; kept; left; enthalten
""")
)
_NOUNS = "|".join(
    word_list(r"""
    items?; goods; units?; products?; articles?; skus?; lines?; stock; merchandise; artikel; ware[n]?; positionen;
    produits; art[ií]culos; productos; articoli; prodotti; artikelen; producten
""")
)
_FILL = "|".join(
    word_list(r"""
    the; these; those; this; following; that; which; were; was; are; is; been; have; has; list; of; and; all; any; from;
    in; on; out; to be; below; please note; note; \d+; die; folgende; der; aus; nicht in dieser; les; de; des; los;
    del; gli; i; le; dal; uit
""")
)
_WORDS_OF = rf"(?P<noun>{_NOUNS})|(?P<place>{_PLACES})|{_FILL}"
_GONE_HEADING = re.compile(
    rf"(?:\W*\b(?:(?P<gone>{_GONE})|(?P<loose>{_LOOSE})|{_WORDS_OF})\b)+(?P<end>\W*)", re.IGNORECASE
)
_THERE_HEADING = re.compile(rf"(?:\W*\b(?:(?P<there>{_THERE})|{_WORDS_OF})\b)+(?P<end>\W*)", re.IGNORECASE)
_LONGEST_HEADING = 80  # characters


class Gone(Enum):
    """How surely words say that goods are not in the lot."""

    NO = "no"
    MAYBE = "maybe"
    SURE = "sure"


def struck_in_note(text: str) -> Gone:
    """What a note, status or condition says of its line.

    Examples
    --------
    >>> struck_in_note("Removed from lot"), struck_in_note("tags removed"), struck_in_note("missing lid")
    (<Gone.SURE: 'sure'>, <Gone.MAYBE: 'maybe'>, <Gone.NO: 'no'>)
    """
    if _STRUCK.fullmatch(text):
        return Gone.SURE
    return Gone.MAYBE if _MAYBE.search(text) else Gone.NO


def gone_below(text: str) -> Gone:
    """Whether words that stand alone say so of all that follows: nothing else is in them.

    Examples
    --------
    >>> gone_below("Items removed from the load:"), gone_below("VOID"), gone_below("Missing link chain")
    (<Gone.SURE: 'sure'>, <Gone.MAYBE: 'maybe'>, <Gone.NO: 'no'>)
    """
    found = _GONE_HEADING.fullmatch(text) if len(text) <= _LONGEST_HEADING else None
    if found is None or not (found["gone"] or found["loose"]):
        return Gone.NO
    headed = found["noun"] or found["place"] or ":" in found["end"] or len((found["gone"] or "").split()) > 1
    return Gone.SURE if found["gone"] and headed else Gone.MAYBE


def there_below(text: str) -> bool:
    """True for words alone that head goods of the lot: the end of those that are not.

    Examples
    --------
    >>> there_below("Items in this lot"), there_below("Included:"), there_below("Shipped"), there_below("Lot of 12")
    (True, True, False, False)
    """
    found = _THERE_HEADING.fullmatch(text) if len(text) <= _LONGEST_HEADING else None
    return found is not None and bool(found["there"] and (found["noun"] or ":" in found["end"]))
