"""What may a column of amounts be beside a price?  A tax, postage, a fee; and which headers mean a whole line's amount.

Common practice, no source.
"""

import re

from models.intake.cells.price_words import any_of, says_each
from models.intake.cells.wordings import plain_words

_OTHER_MONEY: tuple[tuple[str, re.Pattern[str]], ...] = (
    ("a tax", any_of("tax; taxes; vat; gst; mwst; ust; tva; iva; btw; duty; customs; zoll")),
    ("postage", any_of("shipping; postage; freight; delivery; versand; versandkosten; porto; fracht; port; envio")),
    ("a fee", any_of("fee; fees; commission; premium; deposit; gebuhr; gebuhren; provision; frais; pfand; aufgeld")),
    ("a discount", any_of("discounts?; rebates?; rabatte?; remise; descuento; sconto; korting")),
    (
        "a payout",
        any_of(
            "net(?! sales?| price| revenue| turnover); neto; netto; payout; earnings; proceeds; auszahlung; reversement"
        ),
    ),
    ("a margin", any_of("margin; profit; gewinn; marge; margen; margine; winst")),
    ("a refund", any_of("refunds?; refunded; returns; erstattung; remboursement; reembolso; rimborso")),
    ("takings", any_of("sales; revenue; turnover; takings; umsatz")),
)
_AMOUNTS = any_of("montant; importo; betrag; bedrag; wartosc; importe")  # of invoices: mostly of the line
_TOTALS = any_of("total; totals; sum; extended; subtotal; gesamt; summe; totale; totaal; suma; razem")


def may_say_line(header: str) -> bool:
    """True for a header that other languages use for the amount of a line, though it does not say so.

    Examples
    --------
    >>> may_say_line("Montant TTC"), may_say_line("Montant unitaire"), may_say_line("Amount")
    (True, False, False)
    """
    return bool(_AMOUNTS.search(plain_words(header))) and not says_each(header)


def other_money(header: str) -> str:
    """What a header's amounts are that can be no tag, "" where it does not say so.

    Examples
    --------
    >>> other_money("Shipping"), other_money("Sales tax"), other_money("Retail")
    ('postage', 'a tax', '')
    """
    words = plain_words(header)
    return next((what for what, pattern in _OTHER_MONEY if pattern.search(words)), "")


def only_says_total(header: str) -> bool:
    """True for a header that speaks of a total and of nothing else.

    Examples
    --------
    >>> only_says_total("Total"), only_says_total("Total weight")
    (True, False)
    """
    return not _TOTALS.sub("", plain_words(header)).strip()
