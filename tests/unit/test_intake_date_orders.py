"""Day or month first: the cells decide wherever any can, else it is asked; odd spellings; what spreadsheets spoil."""

import datetime as dt

import pytest

from models.intake.cells.date_orders import date_orders, order_votes, turned_by_a_spreadsheet
from models.intake.cells.dates import Order, read_dates
from models.intake.history import ReadHistory, read_history
from models.values.errors import NeedsColumns

FOURTH = dt.date(2026, 7, 4)
PAIRS = (("listed_on", "sold_on"),)


def read(*days: str, **mapping: str) -> ReadHistory:
    rows = "".join(f"Mug {i},5.00,{day}\n" for i, day in enumerate(days))
    return read_history(f"Title,Sold for,Date sold\n{rows}".encode(), "s.csv", mapping, "USD")


@pytest.mark.parametrize(
    "cell",
    [
        "4 Jul 2026 at 10:03 AM",
        "Saturday, July 4, 2026 at 10:03:21 AM Pacific Daylight Time",
        "Sat Jul 4 10:03:21 PDT 2026",
        "Jul 04, 2026 10:03:21 PDT",
        "10:03:21 Jul 04, 2026 PDT",
        "10:03 AM, 4 July 2026",
        "2026-07-04 10:03:21 -0700",
        "2026-07-04T10:03:21.123+02:00",
        "04.07.2026 um 10:15 Uhr",
        "4th of July 2026",
        "20260704T100321Z",
    ],
)
def test_month_names_with_times_and_zone_words(cell: str) -> None:
    (reading,) = read_dates([cell], Order.DAY)
    assert (reading.value, reading.doubt) == (FOURTH, "")


def test_one_cell_decides_for_all() -> None:
    for cells, order in ((["03/04/2026", "31/01/2026"], Order.DAY), (["03/04/2026", "01/31/2026"], Order.MONTH)):
        assert date_orders({"sold_on": cells}, (), None) == ({"sold_on": order}, None)


def test_another_column_of_the_file_decides() -> None:
    orders, question = date_orders({"listed_on": ["03/04/2026"], "sold_on": ["31/01/2026"]}, (), None)
    assert (orders["listed_on"], question) == (Order.DAY, None)


def test_nothing_is_sold_before_it_is_listed() -> None:
    columns = {"listed_on": ["03/04/2026", "05/06/2026"], "sold_on": ["02/05/2026", "07/08/2026"]}
    orders, question = date_orders(columns, PAIRS, None)
    assert (set(orders.values()), question) == ({Order.DAY}, None)


def test_a_column_that_is_sorted_one_way_only_decides() -> None:
    cells = [f"{month:02}/{day:02}/2026" for month, day in ((1, 9), (2, 3), (3, 11), (4, 6), (5, 10), (6, 4))]
    orders, question = date_orders({"sold_on": cells}, (), None)
    assert (orders["sold_on"], question) == (Order.MONTH, None)


def test_what_nothing_decides_is_asked_once() -> None:
    with pytest.raises(NeedsColumns) as caught:
        read("03/04/2026", "05/04/2026", "04/04/2026")
    (question,) = caught.value.questions
    assert (question.key, [choice.value for choice in question.choices]) == ("dates_are", ["day_first", "month_first"])
    assert "03/04/2026" in question.words
    assert read("03/04/2026", dates_are="day_first").sales.sold_on.astype(str).tolist() == ["2026-04-03"]
    assert read("03/04/2026", dates_are="month_first").sales.sold_on.astype(str).tolist() == ["2026-03-04"]


def test_dates_that_mean_one_day_either_way_are_not_asked_about() -> None:
    assert read("05/05/2026", "2026-07-04", "4 Jul 2026").problems.items == ()


def test_columns_of_both_orders_are_asked() -> None:
    """Two exports put together: which of the two an ambiguous cell is from, nothing tells."""
    assert date_orders({"sold_on": ["31/01/2026", "01/31/2026", "03/04/2026"]}, (), None)[1] is not None
    assert date_orders({"sold_on": ["31/01/2026", "01/31/2026"]}, (), None)[1] is None


def test_a_stray_cell_does_not_outvote_the_others() -> None:
    cells = [f"{day}/01/2026" for day in range(13, 32)] * 2 + [f"{day}/02/2026" for day in range(13, 29)]
    orders, question = date_orders({"sold_on": [*cells, "01/31/2026", "03/04/2026"]}, (), None)
    assert (orders["sold_on"], question) == (Order.DAY, None)
    assert "month first" in read_dates(["01/31/2026"], Order.DAY)[0].doubt


def test_points_are_day_first() -> None:
    assert order_votes(["03.04.2026"]) == (1, 0, 0)


def test_two_digit_years_that_come_first() -> None:
    cells = [f"26/07/{day:02}" for day in range(1, 9)]
    orders, question = date_orders({"sold_on": cells}, (), None)
    assert (orders["sold_on"], question) == (Order.YEAR, None)
    assert read_dates(["26/07/04"], Order.YEAR)[0].value == FOURTH


def test_days_that_a_spreadsheet_took_for_months_are_turned_back_and_named() -> None:
    typed = [dt.date(2026, month, 7) for month in range(1, 7)]
    texts = [f"{day}/03/2026" for day in range(13, 20)]
    assert turned_by_a_spreadsheet([*typed, *texts])
    assert not turned_by_a_spreadsheet([*typed, dt.date(2026, 3, 20), *texts])
    assert not turned_by_a_spreadsheet(typed)
    (reading, same) = read_dates([dt.date(2026, 3, 7), dt.date(2026, 7, 7)], Order.DAY, turned=True)
    assert (reading.value, reading.done, same.doubt) == (dt.date(2026, 7, 3), "turned back", "")


def test_cells_that_rule_an_answer_out_are_told_and_never_mixed_with_it() -> None:
    columns = {"sold_on": ["02/16/2025", "02/27/2025", "03/04/2025"], "listed_on": ["01/02/2025"]}
    orders, question = date_orders(columns, PAIRS, "day_first")
    assert question is not None
    assert (orders["sold_on"], question.guess) == (Order.MONTH, "month_first")
    assert question.why == "'02/16/2025' can only have the month first"
    assert date_orders(columns, PAIRS, "month_first") == ({"sold_on": Order.MONTH, "listed_on": Order.MONTH}, None)


def test_an_answer_holds_for_the_columns_that_need_it() -> None:
    columns = {"sold_on": ["02/16/2025"], "listed_on": ["31/01/2025"], "first_listed_on": ["03/04/2025"]}
    orders, question = date_orders(columns, PAIRS, "day_first")
    assert question is None
    assert list(orders.values()) == [Order.MONTH, Order.DAY, Order.DAY]


def test_an_answer_decides_where_a_column_has_proofs_of_both() -> None:
    for answer, order in (("day_first", Order.DAY), ("month_first", Order.MONTH)):
        assert date_orders({"sold_on": ["02/16/2025", "16/02/2025", "03/04/2025"]}, (), answer) == (
            {"sold_on": order},
            None,
        )
