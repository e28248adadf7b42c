"""Sold history in two to four files: orders, live listings, ended listings, fees; one file twice."""

from corpus.case import histories

_ORDERS = """
    Order number,Listing number,SKU,Title,Sold price,Quantity,Date sold
    O-1,L-1,K-1,Blue mug,8.00,1,2026-03-05
    O-2,L-2,K-2,Jug,9.00,2,2026-03-06
    """

JOINED = (
    histories("orders_live_ended_and_fees", {
        "orders.csv": _ORDERS,
        "live.csv": """
            Listing number,SKU,Title,Asking price,Start date,Status
            L-3,K-3,Floor mat,7.00,2026-02-20,Active
            """,
        "ended.csv": """
            Listing number,SKU,Title,Asking price,Start date,End date,Status
            L-1,K-1,Blue mug,8.50,2026-02-01,2026-03-05,Sold
            L-2,K-2,Jug,9.50,2026-02-10,2026-03-06,Sold
            L-4,K-4,Desk lamp,30.00,2026-01-10,2026-02-10,Ended
            """,
        "fees.csv": """
            Order number,Fee type,Fees,Date
            O-1,Selling fee,1.00,2026-03-05
            O-2,Selling fee,2.20,2026-03-06
            """,
    }, table={
        "title": ["Blue mug", "Jug", "Floor mat", "Desk lamp"],
        "sold_price": [800, 900, None, None],
        "listed_on": ["2026-02-01", "2026-02-10", "2026-02-20", "2026-01-10"],
        "fees": [100, 110, None, None],
    }, money=2600, units=3),
    histories("joined_by_sku", {
        "orders.csv": """
            Order number,SKU,Title,Sold price,Date sold
            O-1,K-1,Blue mug,8.00,2026-03-05
            O-2,K-2,Jug,9.00,2026-03-06
            """,
        "listings.csv": """
            SKU,Title,Asking price,Date listed
            K-1,Mug in blue,8.50,2026-02-01
            K-2,A jug,9.50,2026-02-10
            K-3,Mat,9.50,2026-02-11
            """,
    }, table={"sold_price": [800, 900, None], "listed_on": ["2026-02-01", "2026-02-10", "2026-02-11"]}),
    histories("listings_of_one_sku_are_told_apart_by_the_day_they_sold_out", {
        "orders.csv": """
            Order number,SKU,Title,Sold price,Date sold
            O-1,K-1,Cork mat,8.00,2026-02-20
            O-2,K-1,Cork mat,9.00,2026-03-20
            O-3,K-2,Jug,5.00,2026-03-01
            O-4,K-2,Jug,6.00,2026-03-01
            """,
        "ended.csv": """
            Listing number,SKU,Title,Asking price,Start date,End date,Status
            L-2,K-1,Cork mat,9.50,2026-02-15,2026-03-20,Sold
            L-1,K-1,Cork mat,8.50,2026-02-02,2026-02-20,Sold
            L-3,K-2,Jug,6.50,2026-02-02,2026-03-01,Sold
            L-4,K-2,Jug,6.50,2026-02-12,2026-03-09,Sold
            """,
    }, table={
        "sold_price": [800, 900, 500, 600],
        "listed_on": ["2026-02-02", "2026-02-15", None, None],
        "ended_on": [None] * 4,
    }, money=2800, units=4),
    histories("joined_by_title", {
        "orders.csv": """
            Title,Sold price,Date sold
            Blue mug,8.00,2026-03-05
            Jug,9.00,2026-03-06
            """,
        "listings.csv": """
            Title,Asking price,Date listed
            BLUE MUG,8.50,2026-02-01
            Jug,9.50,2026-02-10
            """,
    }, table={"sold_price": [800, 900], "listed_on": ["2026-02-01", "2026-02-10"]}),
    histories("orders_alone_say_what_is_unknown", {"orders.csv": _ORDERS}, money=2600,
              table={"listed_on": [None, None]}, says=("listing date|when things were listed|listed on",)),
    histories("the_same_file_twice", {"a.csv": _ORDERS, "b.csv": _ORDERS}, money=2600, units=3,
              table={"title": ["Blue mug", "Jug"]}),
    histories("overlapping_files", {
        "first.csv": _ORDERS,
        "second.csv": """
            Order number,Listing number,SKU,Title,Sold price,Quantity,Date sold
            O-2,L-2,K-2,Jug,9.00,2,2026-03-06
            O-3,L-5,K-5,Lamp,20.00,1,2026-04-01
            """,
    }, money=4600, units=4, table={"title": ["Blue mug", "Jug", "Lamp"]}),
    histories("a_correction_updates", {
        "first.csv": _ORDERS,
        "second.csv": """
            Order number,Listing number,SKU,Title,Sold price,Quantity,Date sold
            O-1,L-1,K-1,Blue mug,7.25,1,2026-03-05
            """,
    }, table={"title": ["Blue mug", "Jug"], "sold_price": [725, 900]}),
    histories("numbers_that_restart_each_month", {
        "january.csv": """
            Invoice,Item,Sold price,Sold on
            1,Brass lamp,20.00,2026-01-15
            2,Wool rug,30.00,2026-01-16
            """,
        "february.csv": """
            Invoice,Item,Sold price,Sold on
            1,Oak desk,40.00,2026-02-15
            2,Tin pan,10.00,2026-02-16
            """,
    }, money=10000, units=4, says=("Order numbers that two files give to different sales: 2",)),
    histories("an_export_with_its_own_day", {
        "live.csv": """
            Listing number,Title,Asking price,Quantity available,Start date,Export date
            L-1,Tea towel,6.00,9,2026-01-10,2026-04-01
            """,
        "orders.csv": """
            Order number,Listing number,Title,Quantity,Sold price,Date sold
            O-1,L-1,Tea towel,5,5.50,2026-03-11
            O-2,L-1,Tea towel,2,5.50,2026-04-11
            """,
    }, table={"sold_price": [None, 550, 550], "quantity": [7, 5, 2]}, money=3850),
    histories("a_statement_whose_description_says_what_it_is", {
        "orders.csv": _ORDERS,
        "fees.csv": """
            Order number,Description,Net amount,Date
            O-1,Selling fee,-1.00,2026-03-05
            O-2,Selling fee,-2.20,2026-03-06
            O-2,Shipping label,-4.00,2026-03-07
            O-1,Refund,-8.00,2026-03-19
            """,
    }, table={"fees": [100, 110], "shipping_paid": [None, 200], "refunded": [800, None]}, problems={5: "*"}),
    histories("unsold_in_march_sold_in_may", {
        "march.csv": """
            Listing number,Title,Sold price,Date listed,Date sold
            L-1,Blue mug,,2026-03-01,
            L-2,Jug,9.00,2026-03-02,2026-03-20
            """,
        "may.csv": """
            Listing number,Title,Sold price,Date listed,Date sold
            L-1,Blue mug,8.00,2026-03-01,2026-05-04
            """,
    }, table={"title": ["Blue mug", "Jug"], "sold_price": [800, 900], "sold_on": ["2026-05-04", "2026-03-20"]}),
    histories("a_relisted_unit_keeps_its_first_day", {
        "march.csv": """
            Listing number,SKU,Title,Asking price,Start date,End date,Status
            L-1,K-1,Blue mug,9.00,2026-03-01,2026-04-01,Ended
            """,
        "may.csv": """
            Listing number,SKU,Title,Sold price,Date listed,Date sold
            L-9,K-1,Blue mug,8.00,2026-04-02,2026-05-04
            """,
    }, table={"title": ["Blue mug"], "sold_price": [800], "listed_on": ["2026-04-02"],
              "first_listed_on": ["2026-03-01"]}),
    histories("refunds_in_a_file_of_their_own", {
        "orders.csv": _ORDERS,
        "refunds.csv": """
            Order number,Title,Refunded,Date
            O-2,Jug,4.00,2026-06-01
            """,
    }, money=2600, problems={2: "*"}, table={"sold_price": [800, 900], "refunded": [None, 200]}),
    histories("two_exports_with_a_gap_between", {
        "winter.csv": "Title,Sold price,Date sold\n" + "".join(
            f"Mug no. {day},8.00,2026-01-{day:02d}\n" for day in range(1, 31)),
        "summer.csv": "Title,Sold price,Date sold\n" + "".join(
            f"Jug no. {day},8.00,2026-06-{day:02d}\n" for day in range(1, 31)),
    }, units=60, says=("gap|nothing was sold between|no sale between|no sales between",)),
)  # fmt: skip
