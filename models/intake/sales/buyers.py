"""Which columns are about buyers?  Their names and addresses are not read, not kept, and only counted."""

from collections.abc import Sequence

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.columns.glances import glance, is_personal
from models.intake.columns.header_words import about_people
from models.intake.grid import Cell
from models.values.problems import Caution

# Parts of words that are written in one: "Lieferadresse".
_PARTS = word_list("adress; address; anschrift; empfanger; kaufer; kunden; buyer; customer; recipient; telefon")

_MONEY = frozenset(
    word_list("""
    shipping; postage; delivery; price; amount; fee; fees; paid; cost; costs; charge; charged; tax; total; refund;
    porto; versand; port; frais; prix; montant; envio; gastos; precio; importe; spedizione; spese; prezzo; importo;
    preis; betrag
""")
) - frozenset({"delivery", "shipping"})  # beside a buyer's address these are no money
_MOST = 0.5  # of the cells
_MONEY_PARTS = word_list("kosten; gebuhr; preis; betrag; prijs")


def about_buyers(header: Cell, cells: Sequence[Cell]) -> bool:
    """True for a column of buyers' names, addresses or other personal data, by its header or its cells.

    Examples
    --------
    >>> about_buyers("Lieferadresse", []), about_buyers("Contact", ["a@b.example"]), about_buyers("Title", ["Mug"])
    (True, True, False)
    >>> about_buyers("Versandkosten vom Käufer", ["4,95"]), about_buyers("Shipping paid by buyer", ["4.95"])
    (False, False)
    """
    words = plain_words(header)
    if _is_money(words) and glance(cells).number > _MOST and not is_personal(cells):
        return False  # what a buyer paid is money, not the buyer
    return about_people(words) or any(part in words for part in _PARTS) or is_personal(cells)


def _is_money(words: str) -> bool:
    return bool(_MONEY.intersection(words.split())) or any(part in words for part in _MONEY_PARTS)


def buyers_caution(columns: int) -> tuple[Caution, ...]:
    """How many columns were dropped at the door, if any.

    Examples
    --------
    >>> buyers_caution(1)[0].what
    "Columns of buyers' names, addresses or other personal data: 1. They were not read and are not kept."
    """
    if not columns:
        return ()
    what = (
        f"Columns of buyers' names, addresses or other personal data: {columns}. They were not read and are not kept."
    )
    return (Caution(what, "Leave such columns out of the exports you upload; nothing here needs them."),)
