"""Which columns of money did nobody read?  None vanishes unsaid: each is named with what it seems to be."""

from collections.abc import Mapping

import numpy as np

from models.intake.cells.amounts import read_amounts
from models.intake.cells.money_words import other_money
from models.intake.cells.price_words import PriceSort, price_sort, says_line
from models.intake.columns.column_questions import examples
from models.intake.columns.glances import glance
from models.intake.columns.money_like import looks_like_money, may_be_money
from models.intake.grid import Cell
from models.intake.shape.table import Table
from models.values.arrays import BoolArray, FloatArray, IntArray
from models.values.problems import Caution

_CLOSE = 0.005  # share by which amounts differ that are the same but for rounding
_MOST = 0.95  # of the rows with both amounts
_SEEMS: Mapping[PriceSort, str] = {
    PriceSort.ORIGINAL: "a tag",
    PriceSort.TAG: "a tag",
    PriceSort.REDUCED: "a marked-down price",
    PriceSort.ASKING: "an asking price",
    PriceSort.COST: "a cost",
    PriceSort.ESTIMATE: "an estimate",
    PriceSort.VAGUE: "some price",
}
_MOST_NAMED = 12
_TAGS = ("tag_each", "tag_line")


def money_unread(table: Table) -> dict[str, list[Cell]]:
    """{header: first cells} of the columns that were taken for nothing and hold money.

    Parameters
    ----------
    table : Table
        The file.
    """
    return {header: cells for header, cells in table.unread.items() if looks_like_money(header, glance(cells))}


def numbers_unread(table: Table) -> dict[str, list[Cell]]:
    """{header: first cells} of the columns that were taken for nothing and hold numbers that may be money.

    Parameters
    ----------
    table : Table
        The file.
    """
    return {header: cells for header, cells in table.unread.items() if may_be_money(header, glance(cells))}


def tagless_cautions(table: Table, each: FloatArray, currency: str) -> tuple[Caution, ...]:
    """Where no line has a tag, one caution that names what may hold them and was neither read nor asked about.

    Parameters
    ----------
    table : Table
        The file.
    each : ndarray of shape (n_rows,)
        Tags of one unit [minor units], NaN for blank.
    currency : str
        ISO 4217.

    Examples
    --------
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> from models.intake.shape.table import read_table
    >>> table = read_table(b"Item,Qty,Zork\\nMug,2,30\\n", "m.csv", MANIFEST, {})
    >>> tagless_cautions(table, np.array([np.nan]), "USD")[0].what
    "No line has a tag, and columns that may hold it were not read: 'Zork' (30)."
    """
    if np.isfinite(each).any() or set(table.without) & set(_TAGS):
        return ()
    columns = numbers_unread(table)
    read = read_amounts(columns, currency, table.comma_likely)
    readable = [header for header in columns if np.isfinite(read[header].minor).any()]
    called = [header for header, cells in table.unread.items() if price_sort(header) and examples(header, cells)]
    asked = money_unread(table)
    named = [
        f"'{header}' ({', '.join(examples(header, table.unread[header]))})"
        for header in dict.fromkeys((*readable, *called))
        if header not in asked
    ]
    if not named:
        return ()
    more = f" and {len(named) - _MOST_NAMED} more" if len(named) > _MOST_NAMED else ""
    what = f"No line has a tag, and columns that may hold it were not read: {', '.join(named[:_MOST_NAMED])}{more}."
    return (Caution(what, "If one of them is the tag, say which, or give its amounts as plain numbers."),)


def unread_cautions(
    table: Table, read: Mapping[str, FloatArray], quantity: IntArray, currency: str, check: str
) -> tuple[Caution, ...]:
    """One caution that names every such column; none where there is none.

    Parameters
    ----------
    table : Table
        The file.
    read : mapping
        {header: ndarray of shape (n_rows,)} of the money that was read [minor units].
    quantity : ndarray of shape (n_rows,)
        Units; 0 for rows that are set aside.
    currency : str
        ISO 4217.
    check : str
        What the seller can do about it.
    """
    columns = money_unread(table)
    if not columns:
        return ()
    amounts = read_amounts(columns, currency, table.comma_likely)
    seems = [
        f"'{header}' ({_relation(amounts[header].minor, read, quantity) or seems_to_be(header)})" for header in columns
    ]
    more = f" and {len(seems) - _MOST_NAMED} more" if len(seems) > _MOST_NAMED else ""
    return (Caution(f"Amounts of money that were not read: {', '.join(seems[:_MOST_NAMED])}{more}.", check),)


def seems_to_be(header: str) -> str:
    """What a header's amounts seem to be.

    Examples
    --------
    >>> [seems_to_be(header) for header in ("Unit cost", "EK gesamt", "Sales tax", "Zork")]
    ['a cost', 'a cost of the whole line', 'a tax', 'not known what']
    """
    sort = price_sort(header)
    said = _SEEMS[sort] if sort else other_money(header)
    whole = " of the whole line" if says_line(header) else ""
    return said + whole if said else "a total" if whole else "not known what"


def _relation(minor: FloatArray, read: Mapping[str, FloatArray], quantity: IntArray) -> str:
    units = quantity[: len(minor)].astype(np.float64)
    counted: BoolArray = units > 0
    for header, known in read.items():
        known = np.where(counted, known[: len(minor)], np.nan)
        if same_amounts(minor, known):
            return f"the same as '{header}'"
        if (units > 1).any() and same_amounts(minor, known * units):
            return f"quantity x '{header}'"
        if (units > 1).any() and same_amounts(minor * units, known):
            return f"'{header}' / quantity"
    return ""


def same_amounts(one: FloatArray, other: FloatArray) -> bool:
    """True if two columns hold the same amounts but for rounding, where both hold any.

    Examples
    --------
    >>> same_amounts(np.array([500.0, np.nan]), np.array([500.4, 7.0]))
    True
    """
    both = np.isfinite(one) & np.isfinite(other)
    close = np.abs(one - other) <= np.maximum(1.0, _CLOSE * np.abs(one))
    return bool(both.any()) and bool(close[both].mean() >= _MOST)
