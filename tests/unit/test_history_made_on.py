"""The day a file of listings was made: units sold before it are not taken off what it says is left."""

import datetime as dt

import numpy as np
import pytest

from models.intake.answers import history_of, packed_reading
from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history
from models.intake.sales.future_days import without_future_days
from models.values.packing import unpack
from models.values.questions import NO_COLUMN

LIVE = (
    "Listing ID,Title,Price,Quantity available,Date listed,{header}\n"
    "7,Tea cup,6,9,2026-01-10,{day}\n8,Bib,8,2,2026-01-12,{day}\n"
)
ORDERS = "Order,Listing ID,Title,Qty,Item price,Sold\nM-1,7,Tea cup,5,6,2026-02-11\nM-2,8,Bib,1,8,2026-03-11\n"


def live(header: str = "Export date", day: str = "2026-03-01", **mapping: str) -> ReadHistory:
    read = read_history(LIVE.format(header=header, day=day).encode(), "live.csv", mapping, "USD")
    return without_future_days(read, dt.date(2026, 7, 1))


def left(read: ReadHistory) -> dict[str, int]:
    orders = read_history(ORDERS.encode(), "orders.csv", {}, "USD")
    sales = histories_together([("live.csv", read), ("orders.csv", orders)]).sales
    waiting = ~sales.sold
    return dict(zip(sales.title[waiting].tolist(), sales.quantity[waiting].tolist(), strict=True))


@pytest.mark.parametrize("header", ["Export date", "Snapshot date", "Zork"])
def test_one_day_in_all_rows_is_the_day_the_file_was_made(header: str) -> None:
    read = live(header, sold_on=NO_COLUMN)
    assert left(read) == {"Tea cup": 9, "Bib": 1}
    assert any("its own word is 2026-03-01" in caution.what for caution in read.cautions)
    assert not any(header in caution.what for caution in read.cautions)


@pytest.mark.parametrize("day", ["", "2026-08-01", "45000", "03/04/2026"])  # none, to come, a number, either of two
def test_what_is_no_such_day_is_not_taken_for_it(day: str) -> None:
    read = live(day=day)
    assert left(read) == {"Tea cup": 4, "Bib": 1}
    assert any("does not say which day that was: it was taken to be 2026-01-12" in one.what for one in read.cautions)


def test_the_day_comes_through_the_child_that_reads() -> None:
    read = read_history(LIVE.format(header="Export date", day="2026-03-01").encode(), "live.csv", {}, "USD")
    assert history_of(unpack(packed_reading(read))).part.as_of == np.datetime64("2026-03-01")
