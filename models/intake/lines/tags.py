"""What is the tag of one unit?  As given, else the line's divided by its quantity; contradictions are named.

Which of the two a column holds is what its header says and its cells do not contradict; else it is asked.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from models.intake.cells.amounts import Amounts
from models.intake.cells.price_words import PriceSort, price_sort, says_estimate
from models.intake.cells.reading import BLANK
from models.intake.lines.tag_columns import ROUNDING, TagColumns, Told
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray
from models.values.problems import Caution


@dataclass(frozen=True)
class Tags:
    """`each` [minor units], NaN for blank; `headers` {canonical: header} says what each tag column was read as."""

    each: FloatArray
    headers: dict[str, str]
    cautions: tuple[Caution, ...]


def tags_each(table: Table, amounts: Mapping[str, Amounts], quantity: IntArray, told: Told, findings: Findings) -> Tags:
    """Tag of one unit of each row.

    Parameters
    ----------
    table : Table
        The file.
    amounts : mapping
        Amounts [minor units] of `tag_each` and `tag_line`, where the file has them.
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    told : Told
        What is known beside the cells.
    findings : Findings
        Told of negative tags and of lines that contradict quantity x tag; asks where nothing decides.

    Returns
    -------
    Tags
        One entry a row.
    """
    columns = {name: _without_negatives(name, amounts[name].minor, table, findings) for name in amounts}
    read = TagColumns(table, columns, quantity, told, findings)
    cautions = read.settled()
    blank = np.full(len(table), np.nan)
    each, line = read.columns.get("tag_each", blank), read.columns.get("tag_line", blank)
    units = np.maximum(quantity, 1)
    off = (quantity > 0) & (np.abs(line - units * each) > ROUNDING * (units + 1))
    cells = table.cells(read.source.get("tag_line", "tag_line"))
    reason = "does not equal quantity x tag of one unit"
    findings.name_where(off, "tag_line", cells, reason, "the tag of one unit is kept")
    headers = {name: table.headers[source] for name, source in read.source.items() if source in table.headers}
    return Tags(np.where(np.isnan(each), line / units, each), headers, (*_vague(table, told.given), *cautions))


def _without_negatives(name: str, minor: FloatArray, table: Table, findings: Findings) -> FloatArray:
    negative = minor < 0
    findings.name_where(negative, name, table.columns[name], "a tag below zero", BLANK)
    return np.where(negative, np.nan, minor)


def _vague(table: Table, given: Mapping[str, str]) -> tuple[Caution, ...]:
    name = "tag_each" if "tag_each" in table.headers else "tag_line"
    header = table.headers.get(name)
    if header is None or name in given:
        return ()
    if says_estimate(header):
        what = f"The tags under '{header}' are estimates of whoever offers the lot."
        return (Caution(what, "Compare some of them with what a shop asks."),)
    if name == "tag_line" or price_sort(header) in (PriceSort.ORIGINAL, PriceSort.TAG):
        return ()
    what = f"The column '{header}' was taken for the tag of one unit."
    return (Caution(what, "If it is a cost or an asking price, say which column holds the tag."),)
