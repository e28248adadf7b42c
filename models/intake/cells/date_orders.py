"""Does 03/04/2026 begin with the day or the month?  The cells of a file decide; where they cannot, it is asked.

A wrong guess is silent: it moves half of all sales by months and turns days to sell into noise.
"""

from collections.abc import Callable, Mapping, Sequence
from itertools import pairwise

from models.intake.cells.dates import Order, ambiguous_parts, read_dates
from models.intake.grid import Cell, written_cell
from models.values.questions import DATES_ARE, Choice, Question

Columns = Mapping[str, Sequence[Cell]]  # {canonical: cells}

_STRAY = 20  # so many times more cells of one order: the others are slips, named one by one
_ENOUGH = 5  # cells that tell a pattern from chance
_ANSWERS = {"day_first": Order.DAY, "month_first": Order.MONTH}
_CHOICES = (
    Choice("day_first", "the day first, as in 31/01/2026"),
    Choice("month_first", "the month first, as in 01/31/2026"),
)


def date_orders(
    columns: Columns, backwards: Sequence[tuple[str, str]], answer: str | None
) -> tuple[dict[str, Order], Question | None]:
    """The order of each column.

    Parameters
    ----------
    columns : mapping
        The date columns of one file.
    backwards : sequence of pairs
        Columns of which the first is never later than the second.
    answer : str or None
        "day_first" or "month_first", as the seller said it.

    Returns
    -------
    tuple
        {canonical: Order}, and a question where no cell decides, or cells contradict what the seller said.

    Notes
    -----
    In this order: the column's own cells that can only be one; what the seller said; the file's cells; which order
    lets no row be sold before it was listed; which order alone leaves a column sorted.  What the seller said is asked
    again where cells of a column rule it out and none of another column bear it out.

    Examples
    --------
    >>> date_orders({"sold_on": ["31/01/2026", "03/04/2026"]}, (), None)
    ({'sold_on': <Order.DAY: 'day'>}, None)
    >>> date_orders({"sold_on": ["03/04/2026"]}, (), None)[1].key
    'dates_are'
    """
    if answer is not None:
        return _as_answered(columns, answer)
    polls = {name: order_votes(cells) for name, cells in columns.items()}
    day, month, _ = (sum(poll[place] for poll in polls.values()) for place in range(3))
    whole = _decided(day, month) or _without_backwards(columns, backwards) or _sorted_only(columns)
    orders: dict[str, Order] = {}
    asked: list[str] = []
    for name, cells in columns.items():
        day, month, either = polls[name]
        order = _two_digit_years(cells) or _decided(day, month) or (whole if not day and not month else None)
        if order is None and either:
            asked.append(name)
        orders[name] = order or (Order.DAY if day >= month else Order.MONTH)
    return orders, _question(columns, asked) if asked else None


def _as_answered(columns: Columns, answer: str) -> tuple[dict[str, Order], Question | None]:
    said = _ANSWERS[answer]
    shown = {name: _two_digit_years(cells) or _decided(*_proofs(cells)) for name, cells in columns.items()}
    orders = {name: shown[name] or said for name in columns}
    against = [name for name in columns if shown[name] not in (None, said, Order.YEAR)]
    return orders, _ruled_out(columns[against[0]], said) if against and said not in shown.values() else None


def _proofs(cells: Sequence[Cell]) -> tuple[int, int]:
    """Dates that can only be day first, and only month first, whatever sign stands between."""
    parts = [found[:2] for cell in set(cells) if (found := ambiguous_parts(cell))]
    return sum(one > 12 >= other for one, other in parts), sum(other > 12 >= one for one, other in parts)


def _ruled_out(cells: Sequence[Cell], said: Order) -> Question:
    other = Order.MONTH if said is Order.DAY else Order.DAY
    place = 0 if other is Order.DAY else 1
    proofs = [written_cell(cell) for cell in cells if (found := ambiguous_parts(cell)) and int(found[place]) > 12]
    why = f"'{proofs[0]}' can only have the {other.value} first"
    words = f"{why}, so the dates of this file cannot have the {said.value} first. Which comes first?"
    guess = next(choice.value for choice in _CHOICES if _ANSWERS[choice.value] is other)
    return Question(DATES_ARE, words, _CHOICES, tuple(dict.fromkeys(proofs))[:3], guess=guess, confidence=1.0, why=why)


def order_votes(cells: Sequence[Cell]) -> tuple[int, int, int]:
    """Dates of a column that can only be day first, only month first, and those that could be both.

    Examples
    --------
    >>> order_votes(["31/01/2026", "02/28/2026", "03/04/2026", "05/05/2026", "2026-01-01"])
    (1, 1, 1)
    """
    day_first = month_first = either = 0
    for cell in set(cells):
        if found := ambiguous_parts(cell):
            first, second, sign, _ = found
            day_first += (first > 12 >= second) or sign == "."
            month_first += second > 12 >= first and sign != "."
            either += first <= 12 and second <= 12 and first != second and sign != "."
    return day_first, month_first, either


def turned_by_a_spreadsheet(cells: Sequence[Cell]) -> bool:
    """True where typed dates and texts can only come from a spreadsheet that took day for month.

    It types what it can read, 03/04 as the wrong day, and leaves 31/01 as text: then all texts are of one order and no
    typed date has a day above 12.

    Examples
    --------
    >>> import datetime as dt
    >>> typed = [dt.date(2026, month, 7) for month in range(1, 7)]
    >>> turned_by_a_spreadsheet([*typed, *(f"{day}/03/2026" for day in range(13, 20))])
    True
    """
    typed = [cell for cell in set(cells) if not isinstance(cell, str | int | float)]
    day_first, month_first, either = order_votes([cell for cell in cells if isinstance(cell, str)])
    one_order = max(day_first, month_first) >= _ENOUGH and not either and not min(day_first, month_first)
    return one_order and len(typed) >= _ENOUGH and all(cell.day <= 12 for cell in typed)


def _decided(day_first: int, month_first: int) -> Order | None:
    few, many = sorted((day_first, month_first))
    if not many or few * _STRAY > many:
        return None
    return Order.DAY if day_first > month_first else Order.MONTH


def _without_backwards(columns: Columns, backwards: Sequence[tuple[str, str]]) -> Order | None:
    pairs = [(columns[early], columns[late]) for early, late in backwards if early in columns and late in columns]
    return _only(lambda order: not any(_runs_backwards(early, late, order) for early, late in pairs))


def _runs_backwards(early: Sequence[Cell], late: Sequence[Cell], order: Order) -> bool:
    days = zip(read_dates(early, order).values, read_dates(late, order).values, strict=True)
    return any(one is not None and other is not None and one > other for one, other in days)


def _sorted_only(columns: Columns) -> Order | None:
    return _only(lambda order: any(_is_sorted(cells, order) for cells in columns.values()))


def _is_sorted(cells: Sequence[Cell], order: Order) -> bool:
    days = [day for day in read_dates(cells, order).values if day is not None]
    rising, falling = (all(one <= other for one, other in pairwise(run)) for run in (days, days[::-1]))
    return len(set(days)) >= _ENOUGH and (rising or falling)


def _only(holds: Callable[[Order], bool]) -> Order | None:
    fitting = [order for order in (Order.DAY, Order.MONTH) if holds(order)]
    return fitting[0] if len(fitting) == 1 else None


def _two_digit_years(cells: Sequence[Cell]) -> Order | None:
    """26/04/03: first numbers that are hardly two years and never a month, last numbers that vary as days do."""
    parts = {found for cell in set(cells) if (found := ambiguous_parts(cell))}
    firsts, lasts = {found[0] for found in parts}, {found[3] for found in parts}
    if len(lasts) < _ENOUGH or len(firsts) > len(lasts) / 2 or any(len(last) > 2 for last in lasts):
        return None
    return Order.YEAR if min(firsts) > 12 and max(firsts) - min(firsts) < _ENOUGH else None


def _question(columns: Columns, asked: Sequence[str]) -> Question:
    shown = [written_cell(cell) for cell in columns[asked[0]] if cell != ""]
    unclear = [cell for cell in shown if (found := ambiguous_parts(cell)) and found[0] <= 12 and found[1] <= 12]
    words = f"Does the day or the month come first in dates such as {unclear[0]}?"
    return Question(DATES_ARE, words, _CHOICES, tuple(dict.fromkeys(unclear))[:3])
