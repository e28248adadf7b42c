"""A listing that ended without a sale was on sale until that day, and no longer."""

import numpy as np
from tempo_world import START, days, sales_of

from models.appraisal.known import known_sales
from models.estimate.fit.tempo_exposure import timed_listings
from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history

KNOWN_UNTIL = START + np.timedelta64(100, "D")


def read(text: str) -> ReadHistory:
    return read_history(text.encode(), "sold.csv", {}, "USD")


def test_time_on_sale_ends_with_the_listing() -> None:
    sales = sales_of([0, 0, 0, 0], [20, np.nan, np.nan, np.nan], ended_on=days([np.nan, 30, np.nan, 400]))
    timed = timed_listings(sales, np.arange(4), KNOWN_UNTIL)
    assert timed.on_sale.tolist() == [20, 30, 100, 100]
    assert timed.sold.tolist() == [True, False, False, False]


def test_an_earlier_day_does_not_know_of_the_end() -> None:
    sales = sales_of([0], [np.nan], ended_on=days([30]))
    assert np.isnat(known_sales(sales, START + np.timedelta64(29, "D")).ended_on).all()
    assert known_sales(sales, START + np.timedelta64(30, "D")).ended_on.tolist() == sales.ended_on.tolist()


def test_a_day_of_ending_is_read_of_what_has_not_sold() -> None:
    done = read(
        "Title,Status,Asking price,Listed on,End date\n"
        "Lamp,Ended,20,2025-01-01,2025-02-14\nCup,Active,21,2025-03-15,2025-06-01\nPan,Ended,22,2025-03-15,2025-03-01\n"
    )
    assert done.sales.ended_on.astype(str).tolist() == ["2025-02-14", "NaT", "NaT"]
    assert [(one.row, one.column) for one in done.problems.items] == [(4, "End date")]


def test_what_runs_again_has_not_ended() -> None:
    header = "Listing number,Title,Status,Asking price,Listed on,End date\n"
    ended = read(header + "L-1,Lamp,Ended,20,2025-01-01,2025-02-14\n")
    again = read(header + "L-1,Lamp,Active,20,2025-03-01,\n")
    both = histories_together([("a.csv", ended), ("b.csv", again)])
    assert np.isnat(both.sales.ended_on).all()
    assert both.sales.sold.tolist() == [False]


def test_what_sold_out_before_its_time_does_not_tell_how_far_its_file_knows() -> None:
    head = "Listing number,Title,Asking price,Start date,End date,Status\n"
    sold_out = head + "L-1,Cork mat,8.50,2026-02-02,2026-09-30,Sold\nL-2,Jug,5,2026-02-03,2026-02-20,Ended\n"
    part = read_history(sold_out.encode(), "ended.csv", {}, "USD").part
    assert part.sales.ended_on.astype(str).tolist() == ["2026-09-30", "2026-02-20"]
    assert str(part.as_of) == "2026-02-20"
