"""Does a quantity count cases or single units?  Where header or cells speak of cases, it is asked.

Common practice, no source: a pack that is sold whole is one unit, a case that is opened is as many as it holds.
"""

import re
from collections.abc import Mapping

import numpy as np

from models.intake.cells.quantities import MOST_UNITS, read_quantities, says_packs, says_pieces
from models.intake.cells.reading import ASIDE, Readings
from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell, folded, written_cell
from models.intake.lines.pack_proof import shows_units
from models.intake.many import distinct
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import IntArray
from models.values.questions import QUANTITY_IS, Choice, Question, is_recalled

PACK_SIZE = "pack_size"  # internal column: units in a case

_CASES = re.compile(
    r"\b(?:cases?|cartons?|ctns?|packs?|boxes|masters?|kart[oó]n\w*|colis|coll[io]|kolli|cajas|caixas|scatol[ae]|cartoni|doz(?:en)?"
    r"|dozijn|krabic\w*|kart\.|pallets)\b"
)
_UNITS = re.compile(r"\b(?:units?|each|pieces|items)\b")
_UNIT_CELLS = re.compile(r"\b(?:ea|each|units?|pcs?|pieces?)\b")
_MOST = 0.5  # of the cells that say anything


def in_units(table: Table, quantity: IntArray, given: Mapping[str, str], comma: bool, findings: Findings) -> IntArray:
    """Quantities in units, 0 where the row is set aside.

    Parameters
    ----------
    table : Table
        The file.
    quantity : ndarray of shape (n_rows,)
        As the file counts; 0 for rows that are set aside.
    given : mapping
        The seller's mapping; `quantity_is` answers the question.
    comma : bool
        The file writes a decimal comma.
    findings : Findings
        Asks where cases may be counted; told of rows whose case size cannot be read.
    """
    answer = given.get(QUANTITY_IS, "").strip()
    if answer == "units":
        return quantity
    if _is_size_column(table, answer) and is_recalled(given, QUANTITY_IS) and _speaks_of_units(table):
        header = table.headers.get("quantity", "quantity")
        why = f"the cells of '{header}' speak of single units in this file"
        findings.ask(_question(table, f"An earlier answer took '{header}' to count cases, but {why}. ", why))
        return quantity
    if answer.isdecimal() or _is_size_column(table, answer):
        return _opened(table, quantity, _sizes(table, answer, comma, findings), findings)
    if answer or _speaks_of_cases(table) or _stands_beside_packs(table, quantity, comma):
        findings.ask(_question(table, f"No column of case sizes is called '{answer}'. " if answer else ""))
    return quantity


def unread_sizes(table: Table, given: Mapping[str, str]) -> str:
    """The column of case sizes that `quantity_is` names, where the file has it under a header nobody knew; else "".

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Item,Boxes,In a box\\nMug,2,6\\n", "m.csv", MANIFEST, {})
    >>> unread_sizes(table, {"quantity_is": "in a box"}), unread_sizes(table, {"quantity_is": "12"})
    ('In a box', '')
    """
    answer = plain_words(given.get(QUANTITY_IS, ""))
    if PACK_SIZE in table.columns or not answer:
        return ""
    return next((header for header in table.unread if plain_words(header) == answer), "")


def counts_cases(table: Table, given: Mapping[str, str]) -> bool:
    """True where the file's quantities, and so its totals, are cases: by its words, or since the seller opens them.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> from models.intake.shape.table import read_table
    >>> counts_cases(read_table(b"Item,Cases\\nMug,2\\n", "m.csv", MANIFEST, {}), {"quantity_is": "units"})
    True
    """
    answer = given.get(QUANTITY_IS, "").strip()
    return answer.isdecimal() or _is_size_column(table, answer) or _speaks_of_cases(table)


def _is_size_column(table: Table, answer: str) -> bool:
    return PACK_SIZE in table.columns and plain_words(table.headers[PACK_SIZE]) == plain_words(answer)


def _speaks_of_cases(table: Table) -> bool:
    words = plain_words(table.headers.get("quantity", ""))
    if _CASES.search(words):
        return not _UNITS.search(words)
    filled = [cell for cell in table.cells("quantity") if cell != ""]
    packs = {cell for cell in set(filled) if says_packs(cell)}
    return bool(packs) and sum(cell in packs for cell in filled) > _MOST * len(filled)


def _stands_beside_packs(table: Table, quantity: IntArray, comma: bool) -> bool:
    """A size of packs stands beside, and neither words nor arithmetic tell that single units are counted."""
    if not {PACK_SIZE, "quantity"} <= set(table.columns):
        return False
    if _UNITS.search(plain_words(table.headers["quantity"])) or _speaks_of_units(table):
        return False
    sizes = np.array(_read_sizes(table, comma).values, dtype=np.int64)
    return bool(((sizes > 1) & (quantity > 0)).any()) and not shows_units(table, quantity, sizes)


def _speaks_of_units(table: Table) -> bool:
    """Most cells that hold more than a number say units."""
    told = [plain_words(str(cell)) for cell in table.cells("quantity") if re.search(r"[^\W\d_]", str(cell))]
    return len(told) * 2 > len(table) and sum(bool(_UNIT_CELLS.search(cell)) for cell in told) > _MOST * len(told)


def _question(table: Table, unclear: str, why: str = "") -> Question:
    header = table.headers.get("quantity", "quantity")
    choices = [Choice("units", "units as I sell them; a pack that I sell whole is one")]
    if PACK_SIZE in table.headers:
        sizes = table.headers[PACK_SIZE]
        choices.append(Choice(sizes, f"cases that I open; '{sizes}' says how many units are in each"))
    shown = dict.fromkeys(written_cell(cell) for cell in table.cells("quantity") if cell != "")
    words = f"{unclear}Does '{header}' count units, or cases that you open? If cases, how many units are in each?"
    return Question(QUANTITY_IS, words, tuple(choices), tuple(shown)[:3], number=True, why=why)


def _sizes(table: Table, answer: str, comma: bool, findings: Findings) -> IntArray:
    if answer.isdecimal():
        return np.full(len(table), int(answer), dtype=np.int64)
    readings = _read_sizes(table, comma)
    findings.name_doubts(PACK_SIZE, table.columns[PACK_SIZE], readings)
    return np.array(readings.values, dtype=np.int64)


def _read_sizes(table: Table, comma: bool) -> Readings[int]:
    return read_quantities([_size_alone(cell) for cell in table.columns[PACK_SIZE]], comma)


def _size_alone(cell: Cell) -> Cell:
    """The size in "12/case", "case of 12" or "12 per carton"."""
    if not isinstance(cell, str):
        return cell
    return re.sub(r"(?:/|\bper\b|\ba\b)\s*[a-z]+\.?$|^[a-z]+ of\b", "", folded(cell), flags=re.IGNORECASE).strip()


def _opened(table: Table, quantity: IntArray, sizes: IntArray, findings: Findings) -> IntArray:
    """Cells that say single units count them already."""
    single = {cell for cell in distinct(table.cells("quantity")) if says_pieces(cell)}
    alone = np.array([cell in single for cell in table.cells("quantity")], dtype=bool)
    units = np.where(alone, quantity, quantity * sizes)
    large = units > MOST_UNITS
    findings.name_where(large, "quantity", table.cells("quantity"), "the quantity is too large to be one", ASIDE)
    return np.where(large, 0, units)
