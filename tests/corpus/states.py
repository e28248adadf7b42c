"""Columns of states that only their cells tell, several of them, and listings that say that they sold."""

from corpus.case import Case, history

_HEADERS = ("Payment status", "Zork", "Zahlung", "State of order", "Paid?", "Outcome")


def _cancelled(header: str) -> Case:
    return history(
        f"states_under_{header.casefold().replace(' ', '_')}",
        f"Order,Item,Sold price,Sold on,{header}\n"
        "1,Kettle,20.00,2025-02-15,paid\n2,Basket,30.00,2025-02-16,cancelled\n"
        "3,Stool,31.00,2025-02-17,voided\n4,Lantern,32.00,2025-02-18,partially_refunded\n",
        problems={3: header, 4: header},
        aside=(3, 4),
        money=5200,
    )


STATES = (
    *map(_cancelled, _HEADERS),
    history("the_worse_of_two_states_decides", """
        Order,Item,Sold price,Sold on,Sending,Payment
        1,Kettle,20.00,2025-02-15,delivered,paid
        2,Basket,30.00,2025-02-16,unfulfilled,voided
        3,Stool,31.00,2025-02-17,cancelled,paid
        """, problems={3: "Payment", 4: "Sending"}, aside=(3, 4), money=2000),
    history("paid_is_answered_with_no", """
        Order,Item,Sold price,Sold on,Paid?
        1,Kettle,20.00,2025-02-15,Yes
        2,Basket,30.00,2025-02-16,No
        """, problems={3: "Paid?"}, aside=(3,), money=2000),
    history("answers_whether_a_sale_was_refunded_are_no_amounts", """
        Order,Item,Sold price,Sold on,Refunded
        1,Kettle,20.00,2025-02-15,Yes
        2,Basket,30.00,2025-02-16,No
        3,Stool,8.00,2025-02-17,
        """, money=5800, table={"refunded": [None, None, None]}, says=("without an amount beside it: 1 ('Refunded')",),
        unsaid=("not an amount of money", "could not be read")),
    history("a_refund_that_lacks_its_amount_is_named", """
        Order,Item,Sold price,Sold on,State,Refunded
        1,Kettle,20.00,2025-02-15,Refunded,
        2,Basket,30.00,2025-02-16,Partially refunded,10.00
        3,Stool,8.00,2025-02-17,Sold,
        """, money=5800, table={"refunded": [None, 1000, None]}, says=("without an amount beside it: 1 ('State')",)),
    history("what_was_not_refunded_is_not_named", """
        Order,Item,Sold price,Sold on,Refunded,State
        1,Kettle,20.00,2025-02-15,No,Paid
        2,Basket,30.00,2025-02-16,No,Not refunded
        """, money=5000, unsaid=("refunded or returned",)),
    history("a_stock_code_is_a_sku", """
        Stock code,Item,Sold price,Sold on
        TH-4,Kettle,20.00,2025-02-15
        TH-5,Basket,30.00,2025-02-16
        """, table={"sku": ["TH-4", "TH-5"]}, unsaid=("Stock code",)),
    history("a_day_of_cancelling", """
        Order,Item,Sold price,Sold on,Cancelled at
        1,Kettle,20.00,2025-02-15,
        2,Basket,30.00,2025-02-16,2025-02-17
        """, problems={3: "Cancelled at"}, aside=(3,), money=2000, unsaid=("nobody here knows",)),
    history("sold_below_is_no_header", """
        Item,Sold price,Listed,Availability
        Kettle,20,2025-01-15,available
        Basket,30,2025-01-16,sold
        Stool,8,2025-01-17,sold
        """, problems={2: "sold_price"}, says=("not sold: 1",), table={
            "title": ["Kettle", "Basket", "Stool"], "sold_price": [None, 3000, 800]}),
    history("answers_to_another_question_are_no_state", """
        Order,Item,Sold price,Sold on,Gift?
        1,Kettle,20.00,2025-02-15,Yes
        2,Basket,30.00,2025-02-16,No
        """, money=5000),
    history("a_voided_label_is_no_cancelled_sale", """
        Order,Item,Sold price,Sold on,Label status
        1,Kettle,20.00,2025-02-15,delivered
        2,Basket,30.00,2025-02-16,voided
        """, money=5000),
    history("what_ended_listings_sold_for_is_asked", """
        Listing ID,Title,Start date,End date,Price,Outcome
        1,Kettle,2025-01-02,2025-01-09,25.00,Sold
        2,Basket,2025-01-02,2025-01-09,60.00,No bids
        3,Stool,2025-01-05,2025-01-12,30.00,Sold
        """, asks=("sold_price",), answers={"sold_price": "Price"}, money=5500, says=("not sold: 1",), table={
            "sold_on": ["2025-01-09", None, "2025-01-12"], "ended_on": [None, "2025-01-09", None]}),
    history("units_that_sold_at_a_price_nobody_knows_are_counted", """
        Listing ID,Title,Start date,End date,Price,Outcome
        1,Kettle,2025-01-02,2025-01-09,25.00,Sold
        2,Basket,2025-01-02,2025-01-09,60.00,No bids
        3,Stool,2025-01-05,2025-01-12,30.00,Sold
        """, answers={"sold_price": "-"}, money=0, says=("your listings say were sold: 2",),
        table={"title": ["Basket"], "asking_price": [6000], "ended_on": ["2025-01-09"]}),
)  # fmt: skip
