"""Which words of a status say that a listing runs, has ended, has sold or has not?  Common practice, no source."""

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, plain_text
from models.intake.sales.sale_words import any_words, row_kind, says_kept, says_unpaid
from models.values.sale_parts import ENDED, LIVE

_LIVE = any_words("""
    active; live; for sale; listed; available; in stock; open; running; still listed; published; draft; scheduled;
    on hold; aktiv; zum verkauf; zu verkaufen; eingestellt; verfügbar; online; entwurf; offen; actif; active; en vente;
    à vendre; en ligne; disponible; brouillon; activ[oa]; en venta; a la venta; por vender; publicad[oa]; borrador;
    attiv[oa]; in vendita; pubblicat[oa]; disponibile; bozza; actief; te koop; in de verkoop; beschikbaar; geplaatst;
    concept
""")
_NOT_SOLD_WORDS = """
    (?:not|never)(?: yet)? sold; un-?sold; without (?:a )?sale; no sale; nicht verkauft; noch nicht verkauft;
    no bids; no offers; (?:reserve|minimum) not met; passed in; bought in; keine gebote;
    unverkauft; ohne verkauf; non vendue?s?; pas(?: encore)? vendue?s?; invendue?s?; (?:aún |todavía )?no vendid[oa]s?;
    sin vender; non(?: ancora)? vendut[oa]; invendut[oa]; (?:nog )?niet verkocht; onverkocht
"""
_OVER = any_words(f"""
    ended; expired; relisted; inactive; out of stock; completed; closed; delisted; withdrawn; removed; unlisted;
    beendet; abgelaufen; inaktiv; zurückgezogen; terminée?; expirée?; inactif; retirée?; finalizad[oa]; caducad[oa];
    inactiv[oa]; retirad[oa]; terminat[oa]; scadut[oa]; inattiv[oa]; ritirat[oa]; beëindigd; verlopen; inactief;
    {_NOT_SOLD_WORDS}
""")
_DONE = any_words("completed?; closed; out of stock; terminée?; finalizad[oa]; terminat[oa]")  # orders end so as well
_SOLD = any_words("sold; sold out; verkauft; vendue?s?; vendid[oa]s?; vendut[oa]; verkocht")
_NOT_SOLD = any_words(_NOT_SOLD_WORDS)
_NEVER_FOR_SALE = any_words("draft; entwurf; brouillon; borrador; bozza; concept; scheduled")
_OF_ORDERS = any_words("""
    unshipped; partially shipped; unfulfilled; partially fulfilled; authorized; shipped; dispatched; sent;
    posted; delivered; paid; complete; completed; fulfilled; processing; in transit;
    refunded; partially refunded; returned; return; finished; done; collected; picked up; awaiting shipment;
    ready to ship; versendet; verschickt; versandt; bezahlt; geliefert; zugestellt; abgeschlossen; erstattet;
    zurückgegeben; abgeholt; expédiée?; envoyée?; livrée?; payée?; remboursée?; retournée?; terminée?; enviad[oa];
    entregad[oa]; pagad[oa]; reembolsad[oa]; devuelt[oa]; completad[oa]; spedit[oa]; consegnat[oa]; pagat[oa];
    rimborsat[oa]; res[oa]; completat[oa]; verzonden; betaald; geleverd; bezorgd; terugbetaald; geretourneerd;
    afgerond; voltooid
""")
_PAID = frozenset(word_list("paid; is paid; bezahlt; paye; payee; pagado; pagato; betaald"))
_YES = frozenset(word_list("yes; y; true; 1; x; ja; oui; si; sí"))
_NO = frozenset(word_list("no; n; false; 0; nein; non; nee; not yet; noch nicht; nog niet; pas encore"))


def listing_state(cell: Cell) -> int | None:
    """LIVE or ENDED as a listing's status says, None where it says neither.

    Examples
    --------
    >>> listing_state("Active") == LIVE, listing_state("Ended - unsold") == ENDED, listing_state("Shipped")
    (True, True, None)
    """
    text = plain_text(cell)
    if _OVER.search(text):
        return ENDED
    return LIVE if _LIVE.search(text) else None


def says_not_sold(cell: Cell) -> bool:
    """True for a status that no sale can have: not sold, or never for sale.

    Examples
    --------
    >>> says_not_sold("niet verkocht"), says_not_sold("Draft"), says_not_sold("Active"), says_not_sold("Sold")
    (True, True, False, False)
    """
    text = plain_text(cell)
    return bool(_NOT_SOLD.search(text) or _NEVER_FOR_SALE.fullmatch(text))


def says_runs(cell: Cell) -> bool:
    """True for the status of a listing that is for sale.

    Examples
    --------
    >>> says_runs("Active"), says_runs("Ended"), says_runs("Sold")
    (True, False, False)
    """
    return listing_state(cell) == LIVE and not says_sold(cell)


def says_ended(cell: Cell) -> bool:
    """True for the status of a listing that is no longer for sale.

    Examples
    --------
    >>> says_ended("Ended - unsold"), says_ended("Active")
    (True, False)
    """
    return listing_state(cell) == ENDED


def says_unsold_state(cell: Cell) -> bool:
    """True for the status of a listing that has found no buyer; orders are completed and closed as well.

    Examples
    --------
    >>> [says_unsold_state(cell) for cell in ("te koop", "Ended", "Ended - sold", "Completed", "Shipped")]
    [True, True, False, False, False]
    """
    text = plain_text(cell)
    return listing_state(text) is not None and not says_sold(text) and not _DONE.fullmatch(text)


def answers(cell: Cell) -> bool | None:
    """What a yes or a no says, None for other words.

    Examples
    --------
    >>> answers("Yes"), answers("nein"), answers("Sold")
    (True, False, None)
    """
    text = plain_text(cell).casefold()
    return True if text in _YES else False if text in _NO else None


def asks_paid(header: str) -> bool:
    """True for a header that asks whether a sale was paid.

    Examples
    --------
    >>> asks_paid("Paid?"), asks_paid("Paid on")
    (True, False)
    """
    return plain_words(header) in _PAID


def is_known_state(cell: Cell) -> bool:
    """True for a status whose words are known.

    Examples
    --------
    >>> is_known_state("Shipped"), is_known_state("Zork")
    (True, False)
    """
    text = plain_text(cell)
    if (
        not text
        or answers(text) is not None
        or says_sold(text)
        or listing_state(text) is not None
        or _OF_ORDERS.search(text)
    ):
        return True
    return says_unpaid(text) or says_kept(text) or row_kind(text) is not None


def says_sold(cell: Cell) -> bool:
    """True for the status of a listing that found its buyer.

    Examples
    --------
    >>> says_sold("Sold out"), says_sold("Not sold")
    (True, False)
    """
    text = plain_text(cell)
    return bool(_SOLD.search(text)) and not _NOT_SOLD.search(text)
