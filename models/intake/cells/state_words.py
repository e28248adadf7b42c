"""Which short words say in what state an order or a listing is?  Common practice, no source."""

import re

from models.intake.cells.word_lists import word_list

_AFTER_STATE = re.compile(r"\s*[-–:,(/]\s*|\s+by\s+")
_ANSWERS = frozenset(word_list("yes; no; y; n; true; false; ja; nein; oui; non; si; sí; nee"))
_STATES = frozenset(
    word_list("""
    active; sold; unsold; shipped; delivered; paid; unpaid; completed; complete; cancelled; canceled; refunded;
    returned; pending; ended; open; closed; listed; draft; processing; awaiting payment; awaiting shipment; in
    transit; verkauft; versendet; bezahlt; storniert; geliefert; vendu; expédié; payé; annulé; vendido; enviado;
    for sale; not sold; expired; live; available; entwurf; aktiv; beendet; nicht verkauft; unverkauft; actif;
    en vente; invendu; activo; en venta; no vendido; attivo; in vendita; invenduto; actief; te koop; niet verkocht;
    terugbetaald; pagado; cancelado; venduto; spedito; pagato; annullato; verkocht; verzonden; betaald; geannuleerd;
    void; voided; partially refunded; partially paid; partially shipped; partially fulfilled; fulfilled; unfulfilled;
    unshipped; not shipped; dispatched; not paid; authorized; payment pending; payment failed; failed; declined;
    on hold; sold out; relisted; withdrawn; no bids; no sale; reserve not met; passed in; ended without sale;
    nicht bezahlt; unbezahlt; erstattet; teilweise erstattet; non payé; remboursé; reembolsado; rimborsato
""")
)
# Of something beside the sale, whose end says nothing of it: a label that was voided, an offer that has run out.
_NOT_OF_SALE = frozenset(
    word_list("""
    label; payout; payouts; offer; offers; bid; claim; claims; dispute; case; feedback; review; insurance; promotion;
    promoted; campaign; ad; ads; subscription; coupon; relist; sync; import; export; photo; photos; message; task;
    auszahlung; etikett; bewertung; angebot
""")
)


def is_state(text: str) -> bool:
    """True for the state of an order or a listing, whatever follows it; a yes or a no is an answer.

    Examples
    --------
    >>> [is_state(text) for text in ("partially_refunded", "Ended - unsold", "Ended by seller", "Sold mug", "Yes")]
    [True, True, True, False, False]
    """
    words = " ".join(text.replace("_", " ").casefold().split())
    return words in _STATES or _AFTER_STATE.split(words, maxsplit=1)[0] in _STATES


def is_answer_word(text: str) -> bool:
    """True for a yes or a no.

    Examples
    --------
    >>> is_answer_word("Yes"), is_answer_word("Sold")
    (True, False)
    """
    return text.strip().casefold() in _ANSWERS


def may_be_of_sale(words: str) -> bool:
    """False for a header that speaks of something beside the sale itself.

    Examples
    --------
    >>> may_be_of_sale("payment status"), may_be_of_sale("label status")
    (True, False)
    """
    return not _NOT_OF_SALE.intersection(words.split())
