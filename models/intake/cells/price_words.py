"""What sort of price does a header speak of?  Tag, marked-down tag, asking price, cost, estimate, or just "price".

Common practice, no source.
"""

import re
from enum import StrEnum

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words


class PriceSort(StrEnum):
    """What an amount of money in a manifest may stand for."""

    ORIGINAL = "original"  # says that it is the tag before any markdown
    TAG = "tag"
    REDUCED = "reduced"
    ASKING = "asking"
    COST = "cost"
    ESTIMATE = "estimate"  # of whoever offers the lot
    VAGUE = "vague"


def any_of(words: str) -> re.Pattern[str]:
    """A pattern of any of the words or phrases of a list, each whole.

    Examples
    --------
    >>> bool(any_of("tag; list price").search("unit list price")), bool(any_of("tag").search("tags"))
    (True, False)
    """
    return re.compile(rf"\b(?:{'|'.join(word_list(words))})\b")


_NO_PRICE = any_of("""
    percent; discount; off; currency; code; date; type; class; source; tax; vat; fee; fees; shipping; postage; freight;
    number; id; sku; link; url; image; brand; category; weight; note; notes; margin; profit; premium
""")
_ESTIMATED = any_of("""
    est; estimate; estimates; estimated; estimation; appraised; appraisal; geschatzt; geschatzter; schatzwert;
    schatzpreis; schatzung; estime; estimee; estimado; estimada; stimato; stima; geschat; geschatte
""")
_COUNTS = any_of("qty; units; pieces; count; menge; anzahl; stuckzahl; quantite; cantidad; quantita; aantal")
_OF_COUNTS = any_of("original; orig; current; opening; starting; reserve; reduced; est; estimated")  # too
# The first that finds its words decides.
_SORTS: tuple[tuple[PriceSort, re.Pattern[str]], ...] = (
    (
        PriceSort.REDUCED,
        any_of("""
            marked down; mark down; markdown; reduced; clearance; sale price; current;
            (?<!buy it )(?<!buy )now price; price now; discounted;
            promo; promotional; special price; angebotspreis; aktionspreis; reduziert; solde; oferta; scontato
        """),
    ),
    (
        PriceSort.COST,
        any_of("""
            cost; costs; wholesale; cogs; landed; purchase price; buy price; ek; ek preis; einstand; einstandspreis;
            einkaufspreis; einkauf; einkaufswert; prix achat; achat; precio compra; prezzo acquisto; acquisto; coste;
            costo; inkoop; inkoopprijs; cena zakupu
        """),
    ),
    (
        PriceSort.ASKING,
        any_of("""
            ask; asking; opening; start price; starting; reserve; buy now; buy it now; sofortkauf; bid; your price;
            our price; lot price
        """),
    ),
    (
        PriceSort.ORIGINAL,
        any_of(
            "original; orig; msrp; mrp; rrp; srp; uvp; pvp; suggested; list price; listenpreis; adviesprijs; "
            "prix conseille"
        ),
    ),
    (
        PriceSort.TAG,
        any_of("""
            retail; tag; tags; ticket; ticketed; shelf price; ladenpreis; prix(?: unitaire)? public; prezzo listino;
            prezzo(?: unitario)? pubblico; tag each
        """),
    ),
    (PriceSort.ESTIMATE, _ESTIMATED),  # but an estimate of the tag is a tag
    (
        PriceSort.VAGUE,
        any_of("""
            price; prices; value; values; amount; amounts; worth; preis; preise; verkaufspreis; vk; vkp; prix; pu;
            precio; precios; prezzo; prezzi; prijs; cena; ceny; wartosc; pris; wert; warenwert; gesamtwert; gesamtpreis;
            valeur; valor; valore; waarde; betrag; gesamtbetrag; montant; importe; importo; bedrag
        """),
    ),
)
_LINE = any_of("""
    extended; total; totals; line; gesamt; summe; totale; totaal; importe; row; tag line; gesamtwert; gesamtpreis;
    gesamtbetrag; warenwert; suma; razem; sum; qty x; x qty
""")
_EACH = any_of("""
    each; unit; units; single; piece; stuck; einzel; einzelpreis; einzelwert; stuckpreis; stuckwert; unitario;
    unitaire; stuks; stuksprijs; eenheidsprijs
""")


def price_sort(header: str) -> PriceSort | None:
    """What a header's amounts may be, None if it speaks of no price.

    Examples
    --------
    >>> [price_sort(header) for header in ("MSRP", "Unit Retail", "Marked-down tag", "Asking", "Unit cost", "Price")]
    [<PriceSort.ORIGINAL: 'original'>, <PriceSort.TAG: 'tag'>, <PriceSort.REDUCED: 'reduced'>, \
<PriceSort.ASKING: 'asking'>, <PriceSort.COST: 'cost'>, <PriceSort.VAGUE: 'vague'>]
    >>> price_sort("Discount %"), price_sort("Colour"), price_sort("Original qty")
    (None, None, None)
    """
    words = plain_words(header)
    if _NO_PRICE.search(words):
        return None
    if _COUNTS.search(words):
        words = _OF_COUNTS.sub("", words)
    return next((sort for sort, pattern in _SORTS if pattern.search(words)), None)


def says_estimate(header: str) -> bool:
    """True for a header of amounts that somebody estimated.

    Examples
    --------
    >>> says_estimate("Est. Retail"), says_estimate("Unit Retail")
    (True, False)
    """
    return bool(_ESTIMATED.search(plain_words(header)))


def says_line(header: str) -> bool:
    """True for a header of amounts of whole lines.

    Examples
    --------
    >>> says_line("Ext. Retail"), says_line("Unit Retail")
    (True, False)
    """
    return bool(_LINE.search(plain_words(header)))


def says_each(header: str) -> bool:
    """True for a header of amounts of one unit.

    Examples
    --------
    >>> says_each("Retail ea."), says_each("Retail")
    (True, False)
    """
    return bool(_EACH.search(plain_words(header)))
