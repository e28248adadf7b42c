"""Months, states and figures among sales: headings and summaries are no goods, and what they say is heard."""

import io

import numpy as np
import openpyxl
import pytest

from models.intake.history import ReadHistory, read_history


def read(text: str) -> ReadHistory:
    return read_history(text.encode(), "sold.csv", {}, "USD")


def aside(done: ReadHistory) -> dict[int, str]:
    assert done.problems.rows == done.problems.kept + done.problems.set_aside
    return {item.row: item.reason for item in done.problems.items if item.done == "set aside"}


SALES = (
    "Brass mug,20.00,2026-03-15",
    "Wool mat,30.00,2026-03-16",
    "Oak jug,40.00,2026-04-02",
    "Tin pot,7.00,2026-04-03",
)


@pytest.mark.parametrize("words", ["Mar-26", "March 2026", "Week 11", "2026-03-15", "15 March 2026", "Jan - Mar"])
def test_a_stretch_of_time_alone_is_a_heading(words: str) -> None:
    done = read("\n".join(["Item,Sold price,Sold on", f"{words},,", *SALES]))
    assert done.sales.title.tolist() == ["Brass mug", "Wool mat", "Oak jug", "Tin pot"]
    assert aside(done) == {2: "a stretch of time alone: a heading, no goods"}


def test_goods_called_like_a_month_are_goods_where_anything_else_is_told_of_them() -> None:
    done = read("\n".join(["Item,Sold price,Sold on", *SALES, "March,9.00,2026-04-04", "Marching drum,,", "46204,,"]))
    assert done.sales.title.tolist()[4:] == ["March", "Marching drum", "46204"]


@pytest.mark.parametrize("heading", ["Unsold,,", "Still listed items,,", "\nUNSOLD,,", "Unsold:,,"])
def test_what_stands_below_unsold_has_not_sold(heading: str) -> None:
    rows = [*SALES, *heading.split("\n"), "Blue vase,12.00,", "Red vase,14.00,", "Late vase,9.00,2026-04-05", "Sold,,"]
    done = read("\n".join(["Item,Sold price,Sold on", *rows, "Odd vase,5.00,"]))
    unsold = np.isnan(done.sales.sold_price)
    assert done.sales.title[unsold].tolist() == ["Blue vase", "Red vase"]
    assert done.sales.asking_price[unsold].tolist() == [1200, 1400]
    assert any("has not sold: '" in caution.what and "(2 rows)" in caution.what for caution in done.cautions)


def test_a_month_ends_what_a_state_said() -> None:
    done = read("\n".join(["Item,Sold price,Sold on", SALES[0], "Unsold,,", "Blue vase,12.00,", "May,,", "Jug,5.00,"]))
    assert done.sales.sold_price[done.sales.title == "Jug"].tolist() == [500]


def test_means_and_extremes_below_the_sales_are_no_sales() -> None:
    figures = ["Avg. sale,24.25,", "Best month,50.00,", "Net profit,61.00,", "Best friends mug,24.25,"]
    done = read("\n".join(["Item,Sold price,Sold on", *SALES, *figures]))
    assert done.sales.title.tolist()[4:] == ["Best friends mug"]
    assert set(aside(done).values()) == {"a figure about sales, not a sale"}


def test_a_count_of_the_rows_below_them_is_a_note() -> None:
    rows = ["No,Order,Item,Sold price,Sold on", *(f"{n},O-{n},{row}" for n, row in enumerate(SALES))]
    done = read("\n".join([*rows, "4,record(s) downloaded,,,"]))
    assert len(done.sales) == done.problems.rows == 4
    assert any("'4  record(s) downloaded' (row 6)" in caution.what for caution in done.cautions)
    done = read("\n".join([*rows, "9,record(s) downloaded,,,"]))
    assert aside(done) == {6: "no title"}


def test_a_sheet_a_month_is_read_whole_under_headers_that_nobody_knows() -> None:
    months = {"May": [["Kettle", 30], ["Lamp", 12]], "June": [["Teapot", 18.5]]}
    book = openpyxl.Workbook()
    for name, rows in months.items():
        sheet = book.create_sheet(name)
        for row in [["Thing", "Got $"], *rows]:
            sheet.append(row)
    book.remove(book.worksheets[0])
    file = io.BytesIO()
    book.save(file)
    read = read_history(file.getvalue(), "s.xlsx", {"title": "Thing", "sold_price": "Got $"}, "USD")
    assert read.sales.title.tolist() == ["Kettle", "Lamp", "Teapot"]
