"""Which words say what a row of a sold history is: a refund, a fee, a label, a listing that runs or has ended?

Common practice, no source.
"""

import re
from enum import Enum

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, plain_text
from models.values.sale_parts import ENDED, LIVE


class Kind(Enum):
    """What a row's own word for it says."""

    REFUND = "refund"
    LABEL = "label"
    FEE = "fee"
    SALE = "sale"
    MOVED = "moved"  # money that changes its place: a payout is no sale


def _any(words: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{'|'.join(word_list(words))})\b", re.IGNORECASE)


# The first that finds its words decides: "refund of fees" is a credit of fees, "sale fee" is a fee.
_KINDS: tuple[tuple[Kind, re.Pattern[str]], ...] = (
    (Kind.LABEL, _any("(?:shipping|postage)[ -]*labels?; labels?; postage; shipping cost; porto; versandetikett")),
    (Kind.FEE, _any("fees?; commissions?; charges?; gebühr(?:en)?; frais; provision; comisi[oó]n; commissione")),
    (
        Kind.REFUND,
        _any("""
            refund(?:ed|s)?; returns?; returned; chargebacks?; reversals?; erstattung; rückerstattung; remboursement;
            reembolso; rimborso; gutschrift
        """),
    ),
    (
        Kind.SALE,
        _any("sales?; orders?; sold; payments?; purchase; verkauf; bestellung; vente; commande; venta; vendita"),
    ),
    (Kind.MOVED, _any("payouts?; transfers?; deposits?; withdrawals?; holds?; reserves?; auszahlung; virement")),
)
_LIVE = _any("""
    active; live; for sale; listed; available; in stock; open; running; still listed; published; draft; scheduled; on hold;
    aktiv; zum verkauf; zu verkaufen; eingestellt; verfügbar; online; entwurf; offen; actif; active; en vente; à vendre;
    en ligne; disponible; brouillon; activ[oa]; en venta; a la venta; por vender; publicad[oa]; borrador; attiv[oa];
    in vendita; pubblicat[oa]; disponibile; bozza; actief; te koop; in de verkoop; beschikbaar; geplaatst; concept
""")
_NOT_SOLD_WORDS = """
    (?:not|never)(?: yet)? sold; un-?sold; without (?:a )?sale; no sale; nicht verkauft; noch nicht verkauft; unverkauft;
    ohne verkauf; non vendue?s?; pas(?: encore)? vendue?s?; invendue?s?; (?:aún |todavía )?no vendid[oa]s?; sin vender;
    non(?: ancora)? vendut[oa]; invendut[oa]; (?:nog )?niet verkocht; onverkocht
"""
_OVER = _any(f"""
    ended; expired; relisted; inactive; out of stock; completed; closed; delisted; withdrawn; removed; unlisted; beendet;
    abgelaufen; inaktiv; zurückgezogen; terminée?; expirée?; inactif; retirée?; finalizad[oa]; caducad[oa]; inactiv[oa];
    retirad[oa]; terminat[oa]; scadut[oa]; inattiv[oa]; ritirat[oa]; beëindigd; verlopen; inactief; {_NOT_SOLD_WORDS}
""")
_DONE = _any("completed?; closed; out of stock; terminée?; finalizad[oa]; terminat[oa]")  # orders end so as well
_SOLD = _any("sold; sold out; verkauft; vendue?s?; vendid[oa]s?; vendut[oa]; verkocht")
_NOT_SOLD = _any(_NOT_SOLD_WORDS)
_NEVER_FOR_SALE = _any("draft; entwurf; brouillon; borrador; bozza; concept; scheduled")
_OF_ORDERS = _any("""
    shipped; dispatched; sent; posted; delivered; paid; complete; completed; fulfilled; processing; in transit; refunded;
    partially refunded; returned; return; finished; done; collected; picked up; awaiting shipment; ready to ship;
    versendet; verschickt; versandt; bezahlt; geliefert; zugestellt; abgeschlossen; erstattet; zurückgegeben; abgeholt;
    expédiée?; envoyée?; livrée?; payée?; remboursée?; retournée?; terminée?; enviad[oa]; entregad[oa]; pagad[oa];
    reembolsad[oa]; devuelt[oa]; completad[oa]; spedit[oa]; consegnat[oa]; pagat[oa]; rimborsat[oa]; res[oa];
    completat[oa]; verzonden; betaald; geleverd; bezorgd; terugbetaald; geretourneerd; afgerond; voltooid
""")
_YES = frozenset(word_list("yes; y; true; 1; x; ja; oui; si; sí"))
_NO = frozenset(word_list("no; n; false; 0; nein; non; nee; not yet; noch nicht; nog niet; pas encore"))
_KEPT = re.compile(
    r"^\W*(?:keep|kept|keeping|personal(?: use)?|kept for (?:myself|me|us)|donated?|donation|gift(?:ed)?|gave away|"
    r"given away|giveaway|trashed|thrown (?:away|out)|discarded|destroyed|lost|behalten|gespendet|verschenkt|"
    r"entsorgt)\W*$"
    r"|^\W*(?:keep|kept|donated?|donation|gespendet)\s*[-:–\])]|[\[(]\s*(?:keep|kept|donated?|gifted)\s*[\])]\s*$",
    re.IGNORECASE,
)
_UNPAID = _any("""
    (?:awaiting|pending|waiting for|no|open) payment; payment (?:pending|due|overdue|outstanding|declined); unpaid;
    not (?:yet )?paid; (?:noch )?nicht bezahlt; unbezahlt; zahlung (?:ausstehend|offen); impayée?; non payée?;
    en attente de paiement; no pagad[oa]; pendiente de pago; non pagat[oa]; in attesa di pagamento; niet betaald;
    onbetaald; wacht op betaling
""")
_SEVERAL = re.compile(
    r"\b(?:lot|bundle|joblot)s?\s*(?:of|x)\s*\d+\b|\b\d+\s*(?:x|×)\s*lots?\b|\b(?:job|wholesale|bulk|reseller)\s*lot\b",
    re.IGNORECASE,
)  # a set or a pack is how one thing is sold; a lot was put together here


def row_kind(cell: Cell) -> Kind | None:
    """What a transaction's type says; None where it says nothing known.

    Examples
    --------
    >>> [row_kind(cell) for cell in ("Refund", "Final value fee", "Shipping label", "Auction")]
    [<Kind.REFUND: 'refund'>, <Kind.FEE: 'fee'>, <Kind.LABEL: 'label'>, None]
    """
    text = plain_text(cell)
    return next((kind for kind, words in _KINDS if words.search(text)), None)


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


def says_kept(cell: Cell) -> bool:
    """True if goods left the shop without a sale: kept, donated, given away.

    Examples
    --------
    >>> says_kept("DONATED"), says_kept("KEEP - blue mug"), says_kept("Donation box, metal"), says_kept("Keepsake mug")
    (True, True, False, False)
    """
    return bool(_KEPT.search(plain_text(cell)))


def says_unpaid(cell: Cell) -> bool:
    """True if nobody has paid.

    Examples
    --------
    >>> says_unpaid("Awaiting payment"), says_unpaid("Paid")
    (True, False)
    """
    return bool(_UNPAID.search(plain_text(cell)))


def says_several(title: str) -> bool:
    """True for the title of several things sold as one.

    Examples
    --------
    >>> says_several("LOT OF 5 mugs"), says_several("Job lot shirts"), says_several("Set of 5 mugs")
    (True, True, False)
    """
    return bool(_SEVERAL.search(title))
