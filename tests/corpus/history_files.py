"""One file of sold history: days, what a price stands for, refunds, clear-outs, buyers."""

import datetime as dt

from corpus.case import history
from corpus.workbooks import book, day, serial

DAYS = (
    history("iso_days", """
        Title,Sold price,Date listed,Date sold
        Blue mug,8.00,2026-02-01,2026-03-05
        Jug,,2026-02-01,
        """, table={"listed_on": ["2026-02-01", "2026-02-01"], "sold_on": ["2026-03-05", None],
                    "sold_price": [800, None]}),
    history("ambiguous_days_are_asked", """
        Title,Sold price,Date sold
        Blue mug,8.00,03/04/2026
        Jug,9.00,05/06/2026
        """, asks=("dates_are",), answers={"dates_are": "day_first"},
        table={"sold_on": ["2026-04-03", "2026-06-05"]}),
    history("one_day_decides_the_others", """
        Title,Sold price,Date sold
        Blue mug,8.00,03/04/2026
        Jug,9.00,25/06/2026
        """, table={"sold_on": ["2026-04-03", "2026-06-25"]}),
    history("days_in_two_orders", """
        Title,Sold price,Date sold
        Blue mug,8.00,25/06/2026
        Jug,9.00,06/25/2026
        Mat,9.00,03/04/2026
        """, asks=("dates_are",), answers={"dates_are": "month_first"}, problems={2: "*"},
        table={"title": ["Blue mug", "Jug", "Mat"], "sold_on": ["2026-06-25", "2026-06-25", "2026-03-04"]}),
    history("month_names_times_and_zones", """
        Title,Sold price,Date sold
        Blue mug,8.00,"Mar 5, 2026 14:22:05 PST"
        Jug,9.00,5-Mar-26 09:10 UTC
        Mat,9.00,"Thursday, 5 March 2026"
        Lamp,9.00,2026-03-05T23:10:00Z
        Desk,9.00,05 Mar 2026 11:59 PM
        """, table={"sold_on": ["2026-03-05"] * 5}),
    history("spreadsheet_serials", [["Title", "Sold price", "Date sold"], ["Blue mug", "8.00", serial("2026-03-05")],
        ["Jug", "9.00", serial("2026-03-06")], ["Mat", "9.50", serial("2026-01-31")]],
        table={"sold_on": ["2026-03-05", "2026-03-06", "2026-01-31"]}),
    history("workbook_days", book({"Sheet": [["Title", "Sold price", "Date sold"], ["Blue mug", 8, day("2026-03-05")],
        ["Jug", 9, day("2026-04-03T17:30:00")]]}), "s.xlsx", table={"sold_on": ["2026-03-05", "2026-04-03"]}),
    history("no_listing_days", """
        Title,Sold price,Date sold
        Blue mug,8.00,2026-03-05
        Jug,9.00,2026-03-06
        """, table={"listed_on": [None, None]}, says=("listing date|when things were listed|listed on",)),
    history("days_that_do_not_exist", """
        Title,Sold price,Date sold
        Blue mug,8.00,2026-02-30
        Jug,9.00,2026-03-06
        """, table={"title": ["Blue mug", "Jug"], "sold_on": [None, "2026-03-06"]}, problems={2: "sold_on"}),
)  # fmt: skip

PRICES = (
    history("price_of_a_unit", """
        Title,Sold price,Quantity,Fees,Date sold
        Blue mug,8.00,2,2.40,2026-03-05
        Jug,9.00,1,1.10,2026-03-05
        """, table={"sold_price": [800, 900], "fees": [120, 110], "quantity": [2, 1]}),
    history("price_of_a_row", """
        Title,Item total,Quantity,Date sold
        Blue mug,16.00,2,2026-03-05
        Jug,9.00,1,2026-03-05
        Blue mug,24.00,3,2026-03-05
        """, may_ask=("sold_price_is", "sold_price"), table={"sold_price": [800, 900, 800]}, money=4900),
    history("order_total_on_each_row", """
        Order number,Title,Order total,Quantity,Date sold
        O-1,Blue mug,45.00,1,2026-03-05
        O-1,Jug,45.00,1,2026-03-05
        O-1,Mat,45.00,1,2026-03-05
        O-2,Lamp,12.00,1,2026-03-06
        """, asks=("sold_price",), answers={"sold_price": "Order total"}, money=1200,
        problems={2: "*", 3: "*", 4: "*"}, aside=(2, 3, 4)),  # what each brought is not told
    history("order_total_once_and_blanks_below", """
        Order number,Title,Sold price,Quantity,Date sold
        O-1,Blue mug,29.00,1,2026-03-05
        O-1,Jug,,1,2026-03-05
        O-1,Mat,,1,2026-03-05
        O-2,Lamp,12.00,1,2026-03-06
        """, may_ask=("sold_price",), money=1200, problems={2: "*", 3: "*", 4: "*"}, aside=(2, 3, 4)),
    history("order_total_beside_item_prices", """
        Order number,Title,Item price,Order total,Quantity,Date sold
        O-1,Blue mug,8.00,29.00,1,2026-03-05
        O-1,Jug,9.00,29.00,1,2026-03-05
        O-1,Mat,12.00,29.00,1,2026-03-05
        """, may_ask=("sold_price",), money=2900, table={"sold_price": [800, 900, 1200]}),
    history("order_total_and_blanks_below", """
        Order number,Title,Sold price,Order total,Quantity,Date sold
        O-1,Blue mug,8.00,29.00,1,2026-03-05
        ,Jug,9.00,,1,
        ,Mat,12.00,,1,
        O-2,Lamp,12.00,12.00,1,2026-03-06
        """, may_ask=("sold_price",), money=4100, units=4, problems={3: "*", 4: "*"},
        table={"sold_on": ["2026-03-05", "2026-03-05", "2026-03-05", "2026-03-06"]}),
    history("postage_inside", """
        Title,Total incl. shipping,Shipping charged,Date sold
        Blue mug,12.00,4.00,2026-03-05
        Jug,9.00,0.00,2026-03-06
        """, may_ask=("sold_price",), table={"sold_price": [800, 900]}),
    history("tax_inside", """
        Title,Sold price (incl. tax),Sales tax,Date sold
        Blue mug,8.80,0.80,2026-03-05
        Jug,9.90,0.90,2026-03-06
        """, may_ask=("sold_price",), table={"sold_price": [800, 900]}),
    history("sold_in_one_currency_paid_in_another", """
        Title,Sold price,Payout,Date sold
        Blue mug,£8.00,$10.10,2026-03-05
        Jug,£9.00,$11.30,2026-03-06
        """, may_ask=("sold_price",), table={"title": ["Blue mug", "Jug"]}, says=("currency",)),
    history("lot_of_5", """
        Title,Sold price,Quantity,Date sold
        LOT OF 5 blue mugs,25.00,1,2026-03-05
        Blue mug,8.00,1,2026-03-06
        """, money=3300),
    history("keep_or_donated_at_zero", """
        Title,Sold price,Date sold
        Blue mug,8.00,2026-03-05
        KEEP Jug,0.00,2026-03-05
        Mat DONATED,0.00,2026-03-06
        """, table={"title": ["Blue mug"], "sold_price": [800]}, problems={3: "*", 4: "*"}, aside=(3, 4)),
)  # fmt: skip

_FIRST = dt.date(2026, 1, 7)
_BUYER = ("Ada Quill", "ada.quill@example.org", "7 Fern Lane")

STATES = (
    history("refunds_as_negative_rows_months_later", """
        Order number,Title,Sold price,Quantity,Date sold
        O-1,Blue mug,8.00,1,2026-01-05
        O-2,Jug,9.00,1,2026-01-06
        O-1,Blue mug,-8.00,1,2026-05-02
        """, money=1700, units=2, table={"title": ["Blue mug", "Jug"], "refunded": [800, None]}, problems={4: "*"}),
    history("cancelled_and_unpaid", """
        Title,Sold price,Date sold,Order status
        Blue mug,8.00,2026-03-05,Completed
        Jug,9.00,2026-03-05,Cancelled
        Mat,9.00,2026-03-06,Awaiting payment
        """, table={"title": ["Blue mug"]}, problems={3: "*", 4: "*"}, aside=(3, 4)),
    history("sold_returned_sold_again", """
        Order number,Listing number,Title,Sold price,Refunded,Date sold
        O-1,L-1,Blue mug,8.00,8.00,2026-01-05
        O-2,L-1,Blue mug,7.50,,2026-03-06
        """, money=1550, table={"sold_price": [800, 750], "refunded": [800, None]}),
    history("sold_6_left_14", """
        Listing number,Title,Price,Quantity sold,Quantity available,Date listed
        L-1,Blue mug,8.00,6,14,2026-01-05
        """, table={"quantity": [14], "asking_price": [800], "sold_price": [None]}, says=("sold: 6",)),
    history("variation_rows", """
        Listing number,Title,Variation,Price,Quantity sold,Quantity available,Date listed
        L-1,Polo shirt,,20.00,3,9,2026-01-05
        L-1,,Blue / S,20.00,2,4,
        L-1,,Red / M,20.00,1,5,
        """, says=("sold: 3",), problems={2: "*", 3: "title", 4: "title"}, aside=(2,), table={
            "title": ["Polo shirt Blue / S", "Polo shirt Red / M"], "quantity": [4, 5], "asking_price": [2000, 2000],
            "listed_on": ["2026-01-05", "2026-01-05"]}),
    history("an_export_that_stops_at_1000_rows", [["Title", "Sold price", "Date sold"],
        *[[f"Mug no. {number}", "8.00", f"2026-03-{number % 28 + 1:02d}"] for number in range(1000)]],
        units=1000, says=("1,000|1000",)),
    history("an_export_that_stops_at_90_days", [["Title", "Sold price", "Date listed", "Date sold"], *[
        [f"Mug no. {number}", "8.00", str(_FIRST - dt.timedelta(number % 200)), str(_FIRST + dt.timedelta(number % 90))]
        for number in range(180)]], units=180, says=("90 days",)),
    history("wholesale_clear_out", [["Title", "Sold price", "Quantity", "Date sold"],
        *[["Blue mug", "8.00", 1, f"2026-03-{number + 1:02d}"] for number in range(6)],
        ["Blue mug", "0.50", 400, "2026-04-02"]], problems={8: "*"}, aside=(8,), units=6,
        says=("clear-out|clear out|clearance|wholesale",)),
    history("buyers_are_dropped_at_the_door", [
        ["Title", "Sold price", "Date sold", "Buyer name", "Buyer email", "Ship to address 1"],
        ["Blue mug", "8.00", "2026-03-05", *_BUYER], ["Jug", "9.00", "2026-03-06", *_BUYER]],
        table={"title": ["Blue mug", "Jug"]}, says=("3 columns|data: 3",), unsaid=_BUYER),
    history("single_finds_and_bulk_goods", """
        Title,Sold price,Sourced,Date sold
        Blue mug,8.00,bulk,2026-03-05
        Jug,9.00,single,2026-03-06
        Mat,9.00,,2026-03-06
        """, table={"sourced": [1, 0, -1]}),
    history("a_header_without_rows", "Title,Sold price,Date sold\n", table={"title": []}),
)  # fmt: skip

HISTORY = DAYS + PRICES + STATES
