"""Which words say what a row of a sold history is: a refund, a fee, a label, a listing that runs or has ended?

Common practice, no source.
"""

import re
from enum import Enum

from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, plain_text


class Kind(Enum):
    """What a row's own word for it says."""

    REFUND = "refund"
    LABEL = "label"
    FEE = "fee"
    SALE = "sale"
    MOVED = "moved"  # money that changes its place: a payout is no sale


def any_words(words: str) -> re.Pattern[str]:
    """A pattern that finds any word of a list, whole.

    Examples
    --------
    >>> bool(any_words("refund; returns?").search("Return"))
    True
    """
    return re.compile(rf"\b(?:{'|'.join(word_list(words))})\b", re.IGNORECASE)


# The first that finds its words decides: "refund of fees" is a credit of fees, "sale fee" is a fee.
_KINDS: tuple[tuple[Kind, re.Pattern[str]], ...] = (
    (
        Kind.LABEL,
        any_words("""
            (?:shipping|postage)[ -]*labels?; labels?; postage; shipping cost; porto; versandetikett(?:en)?;
            versandgebühr(?:en)?; versandmarken?; versandkosten
        """),
    ),
    (
        Kind.FEE,
        any_words(
            r"fees?; commissions?; charges?; \w*gebühr(?:en)?; frais; \w*provision(?:en)?; comisi[oó]n; commissione"
        ),
    ),
    (
        Kind.REFUND,
        any_words("""
            refund(?:ed|s)?; returns?; returned; chargebacks?; reversals?; erstattung; rückerstattung; remboursement;
            reembolso; rimborso; gutschrift
        """),
    ),
    (
        Kind.SALE,
        any_words("sales?; orders?; sold; payments?; purchase; verkauf; bestellung; vente; commande; venta; vendita"),
    ),
    (Kind.MOVED, any_words("payouts?; transfers?; deposits?; withdrawals?; holds?; reserves?; auszahlung; virement")),
)
_KEPT = re.compile(
    r"^\W*(?:keep|kept|keeping|personal(?: use)?|kept for (?:myself|me|us)|donated?|donation|gift(?:ed)?|gave away|"
    r"given away|giveaway|trashed|thrown (?:away|out)|discarded|destroyed|lost|behalten|gespendet|verschenkt|"
    r"entsorgt)\W*$"
    r"|^\W*(?:keep|kept|donated?|donation|gespendet)\s*[-:–\])]|[\[(]\s*(?:keep|kept|donated?|gifted)\s*[\])]\s*$",
    re.IGNORECASE,
)
_UNPAID = any_words("""
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
    >>> [row_kind(cell) for cell in ("Refund", "Final value fee", "Shipping label", "Verkaufsprovision", "Auction")]
    [<Kind.REFUND: 'refund'>, <Kind.FEE: 'fee'>, <Kind.LABEL: 'label'>, <Kind.FEE: 'fee'>, None]
    """
    text = plain_text(cell)
    return next((kind for kind, words in _KINDS if words.search(text)), None)


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
