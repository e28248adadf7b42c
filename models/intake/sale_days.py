"""When was it listed and sold?  Three date columns vote on day or month first together and must not run backwards."""

from collections.abc import Mapping, Sequence

import numpy as np

from models.intake.dates import Order, order_of, order_votes, read_dates
from models.intake.findings import Findings
from models.intake.grid import Cell
from models.intake.reading import BLANK, values_of
from models.intake.table import Table
from models.values.arrays import DayArray
from models.values.problems import Caution

DAY_COLUMNS = ("listed_on", "first_listed_on", "sold_on")


def sale_days(table: Table, currency: str, findings: Findings) -> tuple[dict[str, DayArray], tuple[Caution, ...]]:
    """Days of the three date columns, NaT for blank.

    Parameters
    ----------
    table : Table
        The file.
    currency : str
        Hints at the order of day and month where no date shows it.
    findings : Findings
        Told of dates that cannot be read or run backwards.

    Returns
    -------
    tuple
        {canonical: ndarray of shape (n_rows,)}, and a caution for each column whose order is only assumed.
    """
    columns = table.having(DAY_COLUMNS)
    orders = _orders(columns, currency)
    days: dict[str, DayArray] = {}
    for name in DAY_COLUMNS:
        readings = read_dates(table.cells(name), orders[name][0] if name in orders else Order.DAY)
        findings.name_doubts(name, table.cells(name), readings)
        days[name] = np.array(values_of(readings), dtype="datetime64[D]")
    _blank_backwards(days, table, findings)
    assumed = [name for name, (_, is_assumed) in orders.items() if is_assumed]
    return days, tuple(_assumed(table.headers[name], orders[name][0]) for name in assumed)


def _orders(columns: Mapping[str, Sequence[Cell]], currency: str) -> dict[str, tuple[Order, bool]]:
    polls = {name: order_votes(cells) for name, cells in columns.items()}
    whole = (sum(poll[0] for poll in polls.values()), sum(poll[1] for poll in polls.values()))
    return {name: order_of(poll, whole, currency) for name, poll in polls.items()}


def _blank_backwards(days: dict[str, DayArray], table: Table, findings: Findings) -> None:
    """NaT compares as False, so blanks run nowhere."""
    for early, late, reason in (
        ("listed_on", "sold_on", "listed after it was sold"),
        ("first_listed_on", "sold_on", "first listed after it was sold"),
        ("first_listed_on", "listed_on", "first listed after it was listed"),
    ):
        backwards = days[early] > days[late]
        findings.name_where(backwards, early, table.cells(early), reason, BLANK)
        days[early] = np.where(backwards, np.datetime64("NaT", "D"), days[early])


def _assumed(header: str, order: Order) -> Caution:
    return Caution(
        f"No date in '{header}' shows whether the day or the month comes first; the {order.value} was taken to.",
        "Give these dates as 2026-07-31 if that is wrong.",
    )
