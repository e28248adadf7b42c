"""What is the tag of one unit?  As given, else the line's divided by its quantity; contradictions are named."""

from collections.abc import Mapping

import numpy as np

from models.intake.amounts import Amounts
from models.intake.findings import Findings
from models.intake.reading import BLANK
from models.intake.table import Table
from models.intake.word_lists import word_list
from models.intake.wordings import plain_words
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.problems import Caution

_ROUNDING = 0.5  # minor units that a tag of one unit may be off by rounding
_VAGUE = frozenset(
    word_list("""
    price; unit price; price each; item price; preis; prix; precio; prezzo; einzelpreis; stuckpreis; prix unitaire;
    precio unitario; prezzo unitario
""")
)


def tags_each(
    amounts: Mapping[str, Amounts], table: Table, quantity: IntArray, findings: Findings
) -> tuple[FloatArray, tuple[Caution, ...]]:
    """Tag of one unit of each row.

    Parameters
    ----------
    amounts : mapping
        Amounts [minor units] of `tag_each` and `tag_line`, where the file has them.
    table : Table
        The file.
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    findings : Findings
        Told of negative tags and of lines that contradict quantity x tag.

    Returns
    -------
    tuple
        ndarray of shape (n_rows,) [minor units], NaN for blank, and cautions on the columns themselves.
    """
    each = _without_negatives("tag_each", amounts, table, findings)
    line = _without_negatives("tag_line", amounts, table, findings)
    units = np.maximum(quantity, 1)
    off = (quantity > 0) & (np.abs(line - units * each) > _ROUNDING * (units + 1))
    findings.name_where(
        off,
        "tag_line",
        table.cells("tag_line"),
        "does not equal quantity x tag of one unit",
        "the tag of one unit is kept",
    )
    cautions = (*_vague(table), *_line_for_each(line, each, units, off))
    return np.where(np.isnan(each), line / units, each), cautions


def _without_negatives(name: str, amounts: Mapping[str, Amounts], table: Table, findings: Findings) -> FloatArray:
    if name not in amounts:
        return np.full(len(table), np.nan)
    minor = amounts[name].minor
    negative = minor < 0
    findings.name_where(negative, name, table.columns[name], "a tag below zero", BLANK)
    return np.where(negative, np.nan, minor)


def _vague(table: Table) -> tuple[Caution, ...]:
    header = table.headers.get("tag_each", "")
    if plain_words(header) not in _VAGUE:
        return ()
    what = f"The column '{header}' was taken for the tag of one unit."
    return (Caution(what, "If it is a cost or an asking price, say which column holds the tag."),)


def _line_for_each(line: FloatArray, each: FloatArray, units: IntArray, off: BoolArray) -> tuple[Caution, ...]:
    """Both columns repeat the same amount although several units stand there: one of them is not what it is called."""
    several = (units > 1) & ~np.isnan(line) & ~np.isnan(each)
    if several.sum() < 3 or (several & off & (line == each)).sum() <= 0.5 * several.sum():
        return ()
    what = "The tag of one unit and the tag of the whole line are the same although lines have several units."
    return (Caution(what, "Find out whether the tag is for one unit or for the line; it was read as for one unit."),)
