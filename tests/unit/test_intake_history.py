"""A sold history becomes sales: what sold, what is still listed, what is set aside; amounts a unit."""

import datetime as dt

import numpy as np
import pytest
from intake_files import delimited, xlsx

from models.intake.history import ReadHistory, read_history
from models.values.errors import NeedsColumns, Unreadable
from models.values.sales import SALES_COLUMNS, Sales

HEADER = ["title", "sold_price", "sold_on", "listed_on", "quantity"]


def read(*rows: list[object], header: list[str] | None = None, currency: str = "USD", **mapping: str) -> ReadHistory:
    return read_history(delimited([header or HEADER, *rows]), "sales.csv", mapping, currency)


def told(done: ReadHistory) -> list[tuple[int, str, str]]:
    return [(item.row, item.column, item.done) for item in done.problems.items]


def test_every_canonical_column_is_read() -> None:
    words = ["S-1", "036000291452", "Lot 7", "Hollow", "pallet", "Market A", "L1", "O1"]
    days = ["2026-01-02", "2026-01-01", "2026-02-03"]
    row = ["Mug", "Orrin", "Home > Kitchen", "New", 20, 8, 2, *days, 9, 4, 2, 6, 5, 1, 10, *words]
    done = read(row, header=list(SALES_COLUMNS))
    sale = {name: getattr(done.sales, name).tolist()[0] for name in Sales.__dataclass_fields__}
    assert sale == {
        "row": 2, "title": "Mug", "brand": "Orrin", "category": "Home > Kitchen", "condition": 0, "quantity": 2,
        "tag_each": 2000.0, "sold_price": 800.0, "asking_price": 900.0, "cost": 200.0, "fees": 100.0,
        "shipping_charged": 300.0, "shipping_paid": 250.0, "refunded": 50.0, "listing_minutes": 5.0,
        "listed_on": dt.date(2026, 1, 2), "first_listed_on": dt.date(2026, 1, 1), "sold_on": dt.date(2026, 2, 3),
        "ended_on": None,
        "sourced": 1, "sku": "S-1", "gtin": "036000291452", "lot": "Lot 7", "source": "Hollow", "place": "Market A",
        "listing_ref": "L1", "order_ref": "O1",
    }  # fmt: skip
    assert set(done.mapping) == set(SALES_COLUMNS)
    assert done.sales.listed_on.dtype == np.dtype("datetime64[D]")
    assert told(done) == []


def test_a_price_of_the_row_is_divided() -> None:
    row = ["Mug", 8, "2026-02-03", "", 2]
    assert read(row).sales.sold_price.tolist() == [800]
    done = read(row, sold_price_is="row")
    assert done.sales.sold_price.tolist() == [400]
    assert done.mapping["sold_price_is"] == "row"
    assert read(row, sold_price_is="unit").sales.sold_price.tolist() == [800]


def test_what_is_sold_what_is_listed_and_what_is_neither() -> None:
    done = read(
        ["sold", 8, "2026-02-03", "", 1],
        ["listed", "", "", "2026-01-02", 1],
        ["listed too", "-", "n/a", "2026-01-02", 1],
        ["said to be unsold", "Unsold", "Active", "2026-01-02", 1],
        ["sold, day unknown", 8, "", "", 1],
        ["sold, day unreadable", 8, "soon", "", 1],
        ["nothing", 0, "2026-02-03", "", 1],
        ["kept for myself", "0.00", "", "", 1],
        ["negative", "-8.00", "2026-02-03", "", 1],
        ["unreadable", "eight", "2026-02-03", "", 1],
        ["unreadable, no day", "eight", "", "", 1],
        ["no price", "", "2026-02-03", "", 1],
        ["", 8, "2026-02-03", "", 1],
        ["no units", 8, "2026-02-03", "", 0],
    )
    assert done.sales.title.tolist() == [
        "sold", "listed", "listed too", "said to be unsold", "sold, day unknown", "sold, day unreadable",
    ]  # fmt: skip
    assert done.sales.sold.tolist() == [True, False, False, False, True, True]
    assert (done.problems.rows, done.problems.kept, done.problems.set_aside) == (14, 6, 8)
    assert told(done) == [
        (6, "sold_on", "counted as a sale without a day"),
        (7, "sold_on", "left blank"),
        *((row, "sold_price", "set aside") for row in range(8, 14)),
        (14, "title", "set aside"),
        (15, "quantity", "set aside"),
    ]


def test_cancelled_rows_are_no_sales_and_refunded_ones_are() -> None:
    header = [*HEADER, "Order status", "refunded"]
    done = read(
        ["Mug", 8, "2026-02-03", "", 1, "Cancelled by buyer", ""],
        ["Jug", 8, "2026-02-03", "", 1, "Refunded", 8],
        ["Pot", "cancelled", "2026-02-03", "", 1, "", ""],
        ["[CANCELLED] Pan", 8, "2026-02-03", "", 1, "", ""],
        ["Cancelled stamps, 40", 8, "2026-02-03", "", 1, "Completed", ""],
        header=header,
    )
    assert done.sales.title.tolist() == ["Jug", "Cancelled stamps, 40"]
    assert done.sales.refunded.tolist()[0] == 800
    assert {item.reason for item in done.problems.items} == {"the sale was cancelled"}


def test_a_cancelled_column_of_yes_and_no() -> None:
    done = read(["Mug", 8, "yes"], ["Jug", 8, "no"], header=["title", "sold_price", "Cancelled?"])
    assert done.sales.title.tolist() == ["Jug"]


def test_outflows_count_as_positive() -> None:
    done = read(["Mug", 8, "-1.20"], ["Jug", 8, "-0.80"], ["Pot", 8, "0.30"], header=["title", "sold_price", "fees"])
    assert done.sales.fees.tolist() == [120, 80, -30]
    done = read(["Mug", 8, "1.20"], ["Jug", 8, "-5"], header=["title", "sold_price", "shipping_paid"])
    assert np.isnan(done.sales.shipping_paid[1])
    assert told(done) == [(3, "shipping_paid", "left blank")]


def test_days_that_run_backwards_are_blank_and_named() -> None:
    header = ["title", "sold_price", "sold_on", "listed_on", "first_listed_on"]
    done = read(
        ["Mug", 8, "2026-02-03", "2026-03-01", "2026-01-01"],
        ["Jug", 8, "2026-02-03", "2026-01-01", "2026-01-15"],
        ["Pot", 8, "2026-02-03", "2026-01-01", "2026-05-05"],
        header=header,
    )
    assert np.isnat(done.sales.listed_on).tolist() == [True, False, False]
    assert np.isnat(done.sales.first_listed_on).tolist() == [False, True, True]
    assert told(done) == [
        (2, "listed_on", "left blank"),
        (3, "first_listed_on", "left blank"),
        (4, "first_listed_on", "left blank"),
    ]


def test_the_order_of_day_and_month() -> None:
    told_by_other = read(["Mug", 8, "05/03/2026", "31/01/2026", 1], currency="USD")
    assert told_by_other.sales.sold_on[0] == np.datetime64("2026-03-05")
    assert told_by_other.cautions == ()
    with pytest.raises(NeedsColumns) as asked:
        read(["Mug", 8, "05/03/2026", "", 1], currency="USD")
    assert asked.value.missing == ("dates_are",)
    told = read(["Mug", 8, "05/03/2026", "", 1], dates_are="month_first")
    assert told.sales.sold_on[0] == np.datetime64("2026-05-03")


def test_a_foreign_history() -> None:
    text = (
        "Artikelbezeichnung;Verkaufspreis;Menge;Eingestellt am;Verkauft am;Zustand;Gebühren\r\n"
        "Blaue Tasse;1.234,50 €;1;03.04.2026;05.05.2026;Neu;12,30\r\n"
        "Lampe, groß;12,00;2;3.4.26;06.05.26;Gebraucht;1,20\r\n"
        "Kanne;;1;01.02.2026;;OVP;\r\n"
        "Summe;1.246,50;;;;;13,50\r\n"
    )
    done = read_history(text.encode("cp1252"), "verkauf.csv", {}, "EUR")
    assert done.sales.sold_price.tolist()[:2] == [123450, 1200]
    assert done.sales.fees.tolist()[:2] == [1230, 60]
    assert done.sales.listed_on.astype(str).tolist() == ["2026-04-03", "2026-04-03", "2026-02-01"]
    assert done.sales.condition.tolist() == [0, 3, 0]
    assert (done.problems.rows, done.cautions) == (3, ())


def test_a_workbook_with_real_dates() -> None:
    rows = [
        HEADER,
        ["Mug", 8.25, dt.date(2026, 2, 3), dt.date(2026, 1, 2), 1],
        ["Jug", None, None, dt.date(2026, 1, 2), 1],
    ]
    sales = read_history(xlsx(rows), "sales.xlsx", {}, "USD").sales
    assert sales.sold_on.astype(str).tolist() == ["2026-02-03", "NaT"]
    assert sales.sold_price.tolist()[0] == 825


def test_buyers_are_not_read() -> None:
    done = read(
        ["Mug", 8, "Ann Example", "1 Example Row"], header=["title", "sold_price", "Buyer Name", "Ship to address"]
    )
    assert set(done.mapping) == {"title", "sold_price"}


def test_a_header_without_rows_is_a_history_without_sales() -> None:
    done = read()
    assert len(done.sales) == 0
    assert (done.problems.rows, done.problems.items) == (0, ())
    assert done.sales.sold_on.dtype == np.dtype("datetime64[D]")


def test_refusals() -> None:
    with pytest.raises(NeedsColumns) as asked:
        read(["Mug", 8], header=["title", "Amount"])
    assert asked.value.missing == ("sold_price",)
    with pytest.raises(Unreadable, match="empty"):
        read_history(b"", "sales.xlsx", {}, "USD")


@pytest.mark.parametrize(("said", "codes"), [("bulk", [1, 0, 1]), ("single", [1, 0, 0]), ("", [1, 0, -1])])
def test_rows_that_do_not_say_how_they_came_in_are_as_the_seller_says(said: str, codes: list[int]) -> None:
    rows: list[list[object]] = [["Mug", 8, "pallet"], ["Jug", 9, "single find"], ["Pot", 7, ""]]
    answer = {"sourced_is": said} if said else {}
    assert read(*rows, header=["title", "sold_price", "sourced"], **answer).sales.sourced.tolist() == codes
