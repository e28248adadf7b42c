"""Several goods in one title, "2 x Kettle, 1 x Trivet": at one price for all, nobody knows what each brought."""

import re
from dataclasses import replace

from models.intake.cells.reading import ASIDE
from models.intake.grid import Cell, is_blank, plain_text, written_cell
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table

_COUNTED = re.compile(
    r"(?P<before>\d{1,4})\s*[x×]\s*(?P<name>[^\W\d_].*)|(?P<named>.*[^\W\d_])\s*[x×]\s*(?P<after>\d{1,4})"
)
_MAY_LIST = re.compile(r"[,;|+\n]\s*(?:\d{1,4}\s*[x×]|[^,;|+\n]*[x×]\s*\d{1,4}$)")
_BETWEEN = re.compile(r"\s*[,;|+\n]\s*")
_SURELY_BETWEEN = re.compile(r"\s*[;|\n]\s*")  # no comma: it also stands inside a title


def with_lists_apart(table: Table, findings: Findings) -> Table:
    """The table with sales of several goods set aside, and the counts of single ones out of their titles.

    Parameters
    ----------
    table : Table
        The file; only where a title counts several goods are its others looked at as such lists.
    findings : Findings
        Told of every row that is set aside.

    Examples
    --------
    >>> listed_goods("2 x Kettle, 1 x Cork trivet"), listed_goods("Kettle, copper"), listed_goods("1 x Kettle")
    ([(2, 'Kettle'), (1, 'Cork trivet')], [], [(1, 'Kettle')])
    """
    titles = table.cells("title")
    if not any(_may_count(cell) and _MAY_LIST.search(str(cell)) and len(listed_goods(cell)) > 1 for cell in titles):
        return table
    counted = {row: goods for row, cell in enumerate(titles) if _may_count(cell) and (goods := listed_goods(cell))}
    prices, units, named = table.cells("sold_price"), table.cells("quantity"), list(titles)
    for row, cell in enumerate(titles):
        goods = counted.get(row, [])
        several = len(goods) if goods else len(_SURELY_BETWEEN.split(written_cell(cell)))
        if several > 1 and not is_blank(written_cell(prices[row])):
            reason = f"{several} goods at one price; what each brought is not told"
            findings.name(row, "title", cell, reason, ASIDE)
        elif len(goods) == 1 and str(goods[0][0]) in ("1", written_cell(units[row])):
            named[row] = goods[0][1]
        elif len(goods) == 1:
            findings.name(row, "title", cell, "the title counts units, and no column does", "read as one thing")
    return replace(table, columns={**table.columns, "title": named})


def listed_goods(cell: Cell) -> list[tuple[int, str]]:
    """How many of what, where a title counts all that it names; nothing where it does not, or names one thing twice."""
    parts = [_COUNTED.fullmatch(part) for part in _BETWEEN.split(written_cell(cell).strip())]
    goods = [
        (int(part["before"] or part["after"]), plain_text(part["name"] or part["named"])) for part in parts if part
    ]
    names = {name.casefold() for _, name in goods}
    return goods if len(goods) == len(parts) == len(names) else []


def _may_count(cell: Cell) -> bool:
    return isinstance(cell, str) and (cell[:1].isdigit() or cell[-1:].isdigit())
