"""A column that just says "Shipping": what buyers paid on top, or what the seller paid?

Told by the columns beside it, by its sign, or by sums that come out; else the seller is asked, since the wrong one
turns the postage of every sale round.
"""

from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np

from models.intake.cells.amounts import Amounts, read_amounts
from models.intake.cells.price_words import any_of
from models.intake.cells.wordings import plain_words
from models.intake.fields.unread_money import money_unread
from models.intake.grid import written_cell
from models.intake.sales.history_table import Sort
from models.intake.sales.sale_inside import postage_inside
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray
from models.values.problems import Caution
from models.values.questions import SHIPPING_IS, Choice, Question, is_recalled

CHARGED, PAID = "charged", "paid"
_COLUMNS: Mapping[str, str] = {CHARGED: "shipping_charged", PAID: "shipping_paid"}
_WORDS: Mapping[str, str] = {CHARGED: "what buyers paid for postage", PAID: "what you paid for postage"}
_CHARGED_WORDS = any_of("""
    charged; collected; received; berechnet; berechnete; erhalten; erhaltene; eingenommen; factures?; facturees?;
    percus?; cobrad[oa]s?; recibid[oa]s?; addebitat[oaie]; ricevut[oaie]; berekende?; ontvangen
""")  # common practice, no source
_MOST, _FEW = 0.9, 2  # of the rows, and rows, whose sums must come out
_CLOSE = 1.0  # minor unit


def settled_postage(
    table: Table, amounts: dict[str, Amounts], sort: Sort, given: Mapping[str, str], currency: str, findings: Findings
) -> tuple[dict[str, Amounts], tuple[Caution, ...]]:
    """Amounts with a bare column of postage as what it is, and what was decided.

    Parameters
    ----------
    table : Table
        The file.
    amounts : dict
        Its money columns [minor units a row]; `shipping` is the bare one.
    sort : Sort
        A statement holds labels that were paid for; listings that have not sold teach nothing either way.
    given : mapping
        The seller's mapping; `shipping_is` answers the question.
    currency : str
        ISO 4217.
    findings : Findings
        Asks where nothing decides.
    """
    if "shipping" not in amounts:
        return amounts, ()
    rest = {name: read for name, read in amounts.items() if name != "shipping"}
    bare, header = amounts["shipping"], table.headers["shipping"]
    answer = given.get(SHIPPING_IS) or _plainly(table, bare, sort)
    reason = ""
    if SHIPPING_IS in given and is_recalled(given, SHIPPING_IS):
        shown, how = next(_sums(table, amounts, currency), ("", ""))
        if shown not in ("", answer):
            findings.ask(_asked_again(_question(table, header), header, f"{how} in this file", shown))
            return rest, ()
    if answer is None:
        answer, reason = next(_sums(table, amounts, currency), (None, ""))
    if answer is None:
        findings.ask(_question(table, header))
    if answer is None or answer not in _COLUMNS or _COLUMNS[answer] in rest:
        return rest, ()
    said = f"'{header}' was read as {_WORDS[answer]}: {reason}."
    cautions = (Caution(said, "If it is the other way round, say so."),) if reason else ()
    return rest | {_COLUMNS[answer]: bare}, cautions


def _plainly(table: Table, bare: Amounts, sort: Sort) -> str | None:
    """By the sort of file, the columns beside it, the price's header, or its sign; "" where it is all zero."""
    if sort is not Sort.SALES:
        return PAID if sort is Sort.STATEMENT else CHARGED
    says_charged = _CHARGED_WORDS.search(plain_words(table.headers["shipping"])) is not None
    if says_charged or "shipping_paid" in table.columns or postage_inside(table.headers.get("sold_price", "")):
        return CHARGED
    below, above = int((bare.minor < 0).sum()), int((bare.minor > 0).sum())
    if "shipping_charged" in table.columns or below > above:
        return PAID
    return None if above else ""


def _sums(table: Table, amounts: Mapping[str, Amounts], currency: str) -> Iterator[tuple[str, str]]:
    """Which way a total or a payout beside it comes out."""
    columns = money_unread(table)
    totals = read_amounts(columns, currency, table.comma_likely)
    rows = max(map(len, columns.values()), default=0)
    price, postage = amounts["sold_price"].minor[:rows], amounts["shipping"].minor[:rows]
    tax, fees = (np.nan_to_num(amounts[name].minor[:rows]) if name in amounts else 0.0 for name in ("tax", "fees"))
    if rows and np.mean(fees) < 0:
        fees = -fees
    units = _units(table, rows)
    for header, total in totals.items():
        for whole in (price, price * units):
            made = {
                (CHARGED, "price + postage"): whole + postage,
                (CHARGED, "price + postage + tax"): whole + postage + tax,
                (CHARGED, "price + postage - fees"): whole + postage - fees,
                (PAID, "price - postage"): whole - postage,
                (PAID, "price - postage - fees"): whole - postage - fees,
            }
            yield from ((way, f"{how} is '{header}'") for (way, how), sum_ in made.items() if _same(sum_, total.minor))


def _same(made: FloatArray, told: FloatArray) -> bool:
    both = np.isfinite(made) & np.isfinite(told)
    return int(both.sum()) >= _FEW and bool((np.abs(made - told)[both] <= _CLOSE).mean() >= _MOST)


def _units(table: Table, rows: int) -> IntArray:
    counted = "quantity" if "quantity" in table.columns else "sold_count"
    cells = [written_cell(cell) for cell in table.cells(counted)[:rows]]
    return np.array([int(cell) if cell.isdecimal() and len(cell) < 7 else 1 for cell in cells], dtype=np.int64)


def _asked_again(question: Question, header: str, why: str, shown: str) -> Question:
    words = f"An earlier answer took '{header}' the other way, but {why}. {question.words}"
    return replace(question, words=words, guess=shown, why=why)


def _question(table: Table, header: str) -> Question:
    cells = tuple(dict.fromkeys(written_cell(cell) for cell in table.columns["shipping"] if cell != ""))[:3]
    words = f"Is '{header}' what buyers paid for postage on top of the price, or what you paid to send the goods?"
    choices = (
        Choice(CHARGED, "what buyers paid on top of the price"),
        Choice(PAID, "what I paid to send the goods"),
        Choice("neither", "neither: do not use it"),
    )
    return Question(SHIPPING_IS, words, choices, cells)


def with_postage_column(table: Table, amounts: Mapping[str, Amounts]) -> Table:
    """The table with the bare column under the name it was settled to, for what is told of its cells."""
    if "shipping" not in table.columns:
        return table
    columns = {name: cells for name, cells in table.columns.items() if name != "shipping"}
    headers = {name: header for name, header in table.headers.items() if name != "shipping"}
    for name in _COLUMNS.values():
        if name in amounts and name not in columns:
            columns[name], headers[name] = table.columns["shipping"], table.headers["shipping"]
    return replace(table, columns=columns, headers=headers)
