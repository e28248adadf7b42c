"""Does a sold price stand for a unit, for its row, or for its whole order?  The seller says, or the file proves it.

Where totals are likely and nothing proves it, the seller is asked.
"""

from collections import defaultdict
from collections.abc import Mapping

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.price_words import says_each
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.grid import is_blank, written_cell
from models.intake.sales.price_proofs import ROW, UNIT, proofs
from models.intake.sales.price_recalled import asked_again, price_shown
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.problems import Caution
from models.values.questions import SOLD_PRICE_IS, Choice, Question

ORDER = "order"
_OF_ROWS = frozenset(
    word_list("""
    total; subtotal; sum; row; line; gross; amount; extended; turnover; revenue; gesamt; gesamtpreis; gesamtbetrag;
    summe; brutto; betrag; umsatz; zeile; montant; brut; ligne; importe; bruto; linea; totale; importo; lordo; riga;
    totaal; bedrag; regel; order; bestellung; commande; pedido; ordine; bestelling; paid; received; takings; bezahlt;
    betaald; paye; pagado; pagato; zaplacono
""")
)
_ORDERS = frozenset(
    word_list("order; bestellung; bestell; auftrag; commande; pedido; ordine; bestelling; invoice; rechnung")
)
_TOTALS = frozenset(
    word_list(
        "total; totals; amount; sum; gross; gesamt; summe; betrag; montant; importe; totale; totaal; bedrag; value"
    )
)
_OF_ITEM = frozenset(word_list("item; unit; each; line; row; artikel; stuck; position; article; articulo; articolo"))
_CLOSE = 0.005  # share by which a product may be off
_MOST, _FEW = 0.8, 3  # of the rows of several units, and how many of them, that a column beside the price decides by
_WORDS = {ROW: "for all units of its row together", UNIT: "for one unit", ORDER: "for the whole order"}


def price_basis(
    table: Table,
    quantity: IntArray,
    amounts: Mapping[str, Amounts],
    mapping: Mapping[str, str],
    currency: str,
    findings: Findings,
) -> tuple[str, tuple[Caution, ...]]:
    """What a sold price stands for: UNIT, ROW, or ORDER; and how it was told, where the file proves it.

    Parameters
    ----------
    table : Table
        The file.
    quantity : ndarray of shape (n_rows,)
        Units; where no row has several, unit and row are the same.
    amounts : mapping
        Money columns [minor units].
    mapping : mapping
        `sold_price_is` decides where it is given.
    currency : str
        ISO 4217.
    findings : Findings
        Asks where the header speaks of totals, or prices of several units are those of one times their number.
    """
    if shown := price_shown(mapping, quantity, amounts):
        question = _question(table, (quantity > 1) & ~findings.aside)
        findings.ask(asked_again(question, mapping[SOLD_PRICE_IS], shown))
    if SOLD_PRICE_IS in mapping or "sold_price" not in table.columns or "sold_price" not in amounts:
        return mapping.get(SOLD_PRICE_IS, UNIT), ()
    price = amounts["sold_price"].minor
    used = (quantity > 0) & (price > 0) & ~findings.aside
    if _says_order(table) and _repeated(table, price, used):
        return ORDER, (_proven(table, ORDER, "it is the same on every row of an order"),)
    several = (quantity > 1) & ~findings.aside
    if not several.any():
        return UNIT, ()
    told = proofs(table, amounts, quantity, used, currency)
    bases = {one.basis for one in told}
    sure = [one.since for one in told if one.sure and len(bases) == 1]
    if sure and ROW in bases:
        return ROW, (_proven(table, ROW, sure[0]),)
    if _says_rows(table) or _grows(quantity, amounts) or ROW in bases:
        if sure:
            return UNIT, (_proven(table, UNIT, sure[0]),)
        findings.ask(_question(table, several))
    return UNIT, ()


def _words(table: Table) -> set[str]:
    return set(plain_words(table.headers["sold_price"]).split())


def _says_rows(table: Table) -> bool:
    return bool(_OF_ROWS & _words(table)) and not says_each(table.headers["sold_price"])


def _says_order(table: Table) -> bool:
    words = _words(table)
    return bool(words & _ORDERS) and bool(words & _TOTALS) and not words & _OF_ITEM


def _repeated(table: Table, price: FloatArray, used: BoolArray) -> bool:
    """Orders of several rows, all with one amount throughout."""
    orders: dict[str, list[float]] = defaultdict(list)
    cells = table.cells("order_ref")
    for row in np.flatnonzero(used).tolist():
        text = written_cell(cells[row])
        if not is_blank(text):
            orders[text].append(float(price[row]))
    several = [prices for prices in orders.values() if len(prices) > 1]
    return bool(several) and all(len(set(prices)) == 1 for prices in several)


def _proven(table: Table, basis: str, since: str) -> Caution:
    what = f"'{table.headers['sold_price']}' was read as the price {_WORDS[basis]}: {since}."
    return Caution(what, "If it is not, say what the sold price is for.")


def _grows(quantity: IntArray, amounts: Mapping[str, Amounts]) -> bool:
    """Prices of rows of several units are above what a unit was asked for, most of them."""
    if "asking_price" not in amounts:
        return False
    price, asked = amounts["sold_price"].minor, amounts["asking_price"].minor
    rows = (quantity > 1) & (price > 0) & (asked > 0)
    if rows.sum() < _FEW:
        return False
    above = price[rows] > asked[rows] * (1 + _CLOSE)
    within = price[rows] <= asked[rows] * quantity[rows] * (1 + _CLOSE)
    return bool(np.mean(above & within) >= _MOST)


def _question(table: Table, several: BoolArray) -> Question:
    header = table.headers["sold_price"]
    cells = [written_cell(table.columns["sold_price"][row]) for row in np.flatnonzero(several)[:3].tolist()]
    choices = [Choice(ROW, "for all units of the row together"), Choice(UNIT, "for one unit")]
    words = f"Some rows are of several units. Is '{header}' the price of one unit, or of all units of the row together?"
    if "order_ref" in table.columns:
        choices.append(Choice(ORDER, "for the whole order: its total stands on each of its rows"))
        words = f"{words.removesuffix('?')}, or the total of the whole order?"
    return Question(SOLD_PRICE_IS, words, tuple(choices), tuple(cells))
