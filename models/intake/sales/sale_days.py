"""When was it listed and sold?  Three date columns vote on day or month first together and must not run backwards."""

import numpy as np

from models.intake.cells.date_orders import date_orders, turned_by_a_spreadsheet
from models.intake.cells.dates import Order, read_dates
from models.intake.cells.reading import BLANK
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import DayArray

DAY_COLUMNS = ("listed_on", "first_listed_on", "sold_on", "ended_on")
_OF_ORDERS_TOO = frozenset(
    word_list(
        "posted; post; posting; created; creation; create; erstellt; creado; creato; aangemaakt; cree; started; start"
    )
)
_MOSTLY = 0.5  # of the rows with both days; common practice, no source
_BACKWARDS = (
    ("listed_on", "sold_on", "listed after it was sold"),
    ("first_listed_on", "sold_on", "first listed after it was sold"),
    ("first_listed_on", "listed_on", "first listed after it was listed"),
)
_ENDED_FIRST = "ended before it was listed"


def sale_days(table: Table, answer: str | None, findings: Findings) -> dict[str, DayArray]:
    """Days of the three date columns, NaT for blank.

    Parameters
    ----------
    table : Table
        The file.
    answer : str or None
        What the seller said of dates that could begin with the day or the month: "day_first" or "month_first".
    findings : Findings
        Told of dates that cannot be read or run backwards; asks where nothing decides the order.

    Returns
    -------
    dict
        {canonical: ndarray of shape (n_rows,)}.
    """
    columns = table.having(DAY_COLUMNS)
    orders, question = date_orders(columns, [pair[:2] for pair in _BACKWARDS], answer)
    if question is not None:
        findings.ask(question)
    days: dict[str, DayArray] = {}
    for name in DAY_COLUMNS:
        cells = table.cells(name)
        readings = read_dates(cells, orders.get(name, Order.DAY), turned_by_a_spreadsheet(cells))
        findings.name_doubts(name, cells, readings)
        days[name] = np.array(readings.values, dtype="datetime64[D]")
    _blank_sent(days, table, findings)
    _blank_backwards(days, table, findings)
    return days


def _blank_sent(days: dict[str, DayArray], table: Table, findings: Findings) -> None:
    """Goods are posted, and orders created, on the day they sell or later: such a column is none of listings."""
    words = set(plain_words(table.headers.get("listed_on", "")).split())
    if not words & _OF_ORDERS_TOO:
        return
    listed, sold = days["listed_on"], days["sold_on"]
    both = ~np.isnat(listed) & ~np.isnat(sold)
    if both.any() and float(np.mean(listed[both] >= sold[both])) > _MOSTLY:
        reason = f"'{table.headers['listed_on']}' is mostly on or after the day of sale: no day of listing"
        findings.name_where(~np.isnat(listed), "listed_on", table.cells("listed_on"), reason, BLANK)
        days["listed_on"] = np.full(len(listed), np.datetime64("NaT", "D"))


def _blank_backwards(days: dict[str, DayArray], table: Table, findings: Findings) -> None:
    """NaT compares as False, so blanks run nowhere."""
    over = days["ended_on"] < days["listed_on"]
    findings.name_where(over, "ended_on", table.cells("ended_on"), _ENDED_FIRST, BLANK)
    days["ended_on"] = np.where(over, np.datetime64("NaT", "D"), days["ended_on"])
    for early, late, reason in _BACKWARDS:
        backwards = days[early] > days[late]
        findings.name_where(backwards, early, table.cells(early), reason, BLANK)
        days[early] = np.where(backwards, np.datetime64("NaT", "D"), days[early])
