"""Sold histories that were read wrong without a word: what has not sold, sums, totals of orders, days and postage."""

from corpus.case import Case, history

_WORDS = (
    "Unsold", "Active", "For sale", "ended", "listed", "draft", "Not sold yet", "te koop", "niet verkocht", "concept",
    "nicht verkauft", "zum Verkauf", "Entwurf", "beendet", "en vente", "invendu", "brouillon", "en venta", "no vendido",
    "borrador", "in vendita", "non venduto", "bozza",
)  # fmt: skip
_NOT_SOLD = ("rows with a price that have not sold: 1",)


def _status(word: str) -> Case:
    return history(
        f"a_status_of_{word.casefold().replace(' ', '_')}_is_no_sale",
        f"Title,Status,Sold price,Sold on\nBlue hat,{word},21.00,\nRed hat,Sold,22.00,2025-02-18\n",
        problems={2: "sold_price"},
        says=_NOT_SOLD,
        units=1,
        money=2200,
        table={"title": ["Blue hat", "Red hat"], "asking_price": [2100, None], "sold_price": [None, 2200]},
    )


UNSOLD = (
    *map(_status, _WORDS),
    history("no_day_of_sale_where_others_have_one", """
        Title,Sold price,Listed on,Sold on
        Blue hat,21.00,2025-01-02,
        Red hat,22.00,2025-01-02,2025-02-18
        """, problems={2: "sold_price"}, says=_NOT_SOLD, money=2200, table={"asking_price": [2100, None]}),
    history("a_price_of_nothing_and_no_day_of_sale", """
        Title,Sold price,Fees,Listed on,Sold on
        Blue hat,0.00,0.00,2025-01-02,
        Red hat,22.00,2.00,2025-01-02,2025-02-18
        Green hat,0.00,0.00,2025-01-02,2025-02-19
        Grey hat,0.00,1.00,2025-01-02,
        """, problems={2: "sold_price", 4: "sold_price", 5: "sold_price"}, aside=(4, 5),
        says=("counted as a listing that has not sold",), unsaid=("asking price", "what is asked"), money=2200,
        table={"title": ["Blue hat", "Red hat"], "asking_price": [None, None]}),
    history("a_price_of_nothing_of_what_is_unsold", """
        Title,Status,Sold price,Sold on
        Blue hat,Unsold,0.00,
        Red hat,Sold,22.00,2025-02-18
        """, problems={2: "sold_price"}, unsaid=("asking price", "what is asked"), money=2200,
        table={"asking_price": [None, None]}),
    history("what_is_unsold_counts_none_as_sold", """
        Title,Status,Qty,Sold price,Listed on,Sold on
        Blue hat,Unsold,0,,2025-01-02,
        Red hat,Sold,2,22.00,2025-01-02,2025-02-18
        Green hat,Sold,0,23.00,2025-01-02,2025-02-19
        Grey hat,Out of stock,0,,2025-01-02,
        Pink hat,Draft,0,,2025-01-02,
        """, problems=dict.fromkeys((2, 4, 5, 6), "quantity"), aside=(4, 5, 6), says=("counted as one unit not sold",),
        money=4400, table={"title": ["Blue hat", "Red hat"], "quantity": [1, 2]}),
    history("none_sold_where_sold_is_asked", """
        Title,Sold?,Qty,Sold price,Sold on
        Blue hat,No,0.0,,
        Red hat,Yes,1,22.00,2025-02-18
        """, problems={2: "quantity"}, says=("counted as one unit not sold",), money=2200,
        table={"title": ["Blue hat", "Red hat"], "quantity": [1, 1]}),
    history("an_order_number_is_a_sale_without_a_day", """
        Order number,Title,Sold price,Listed on,Sold on
        O-1,Blue hat,21.00,2025-01-02,
        O-2,Red hat,22.00,2025-01-02,2025-02-18
        """, problems={2: "sold_on"}, says=("no day of sale",), money=4300),
    history("for_sale_and_yet_with_a_day_of_sale", """
        Title,Status,Sold price,Sold on
        Blue hat,Active,21.00,2025-02-17
        Red hat,Sold,22.00,2025-02-18
        """, problems={2: "Status"}, says=("counted as sold",), money=4300),
    history("a_status_nobody_knows", """
        Title,Status,Sold price,Sold on
        Blue hat,Zork,21.00,
        Red hat,Zork,22.00,2025-02-18
        Green hat,Sold,23.00,2025-02-19
        """, problems={2: "sold_price"}, says=("'zork' (row 3)",), money=4500),
    history("sold_is_answered_with_yes_and_no", """
        Title,Sold price,Sold?,Sold on
        Blue hat,21.00,No,
        Red hat,22.00,Yes,2025-02-18
        """, problems={2: "sold_price"}, says=_NOT_SOLD, money=2200),
    history("pending_and_na_where_the_day_stands", """
        Title,Sold price,Sold on
        Blue hat,21.00,n/a
        Red hat,22.00,pending
        Green hat,23.00,2025-02-19
        """, problems={2: "sold_on", 3: "sold_price"}, says=_NOT_SOLD, money=4400),
    history("ended_and_unsold_with_a_day_of_ending", """
        Title,Status,Sold price,Listed on,End date
        Blue hat,Unsold,21.00,2025-01-02,2025-02-01
        Red hat,Sold,22.00,2025-01-02,2025-02-18
        """, problems={2: "sold_price"}, says=_NOT_SOLD, money=2200, table={"sold_on": [None, "2025-02-18"]}),
    history("a_listing_that_sold_none", """
        Title,Sold for each,Sold,Available,Start date
        Blue hat,3.50,6,14,2025-01-05
        Red hat,2.00,0,10,2025-01-05
        """, problems={3: "sold_price"}, money=2100, units=6, table={
            "title": ["Blue hat", "Blue hat", "Red hat"], "quantity": [6, 14, 10]}),
)  # fmt: skip

SUMS = (
    history("sums_of_months_are_no_sales", """
        Title,Sold price,Sold on
        Blue hat,50.00,2025-02-14
        Cup,18.00,2025-02-15
        February,68.00,
        Pan,10.00,2025-03-15
        Total for March,10.00,
        Year to date,78.00,
        Grand total (USD),78.00,
        """, problems=dict.fromkeys((4, 6, 7, 8), "sold_price"), aside=(4, 6, 7, 8), money=7800, says=("a sum",)),
    history("sums_in_other_words_are_told_by_their_numbers", """
        Title,Sold price,Sold on
        Blue hat,50.00,2025-02-14
        Cup,18.00,2025-02-15
        All of it,68.00,
        """, problems={4: "sold_price"}, aside=(4,), money=6800, says=("a sum",)),
    history("total_gym_is_goods", """
        Title,Sold price,Sold on
        Blue hat,50.00,2025-02-14
        Total gym,90.00,
        March hare mug,9.00,
        """, problems={3: "sold_on", 4: "sold_on"}, money=14900),
)  # fmt: skip

BASES = (
    history("an_orders_total_on_each_row_shared_out", """
        Order date,Order no.,Title,Qty,Order total
        2025-02-14,77,Lamp,2,50.00
        2025-02-14,77,Lamp,3,50.00
        2025-02-16,78,Pan,2,30.00
        """, asks=("sold_price",), answers={"sold_price": "Order total"}, problems={2: "*", 3: "*"}, money=8000,
        says=("for the whole order",), table={"sold_price": [1000, 1000, 1500]}),
    history("the_sellers_word_that_it_is_the_orders_total", """
        Order no.,Title,Qty,Sold price,Sold on
        77,Lamp,2,50.00,2025-02-14
        77,Lamp,3,50.00,2025-02-14
        78,Pan,2,30.00,2025-02-16
        """, answers={"sold_price_is": "order"}, problems={2: "*", 3: "*"}, money=8000),
    history("what_different_goods_of_an_order_brought_is_not_told", """
        Order date,Order no.,Product,Qty,Order total
        2025-02-14,77,Lamp,2,64.00
        2025-02-14,77,Cup,3,64.00
        2025-02-16,78,Pan,1,30.00
        """, asks=("sold_price",), answers={"sold_price": "Order total"}, problems={2: "*", 3: "*"}, aside=(2, 3),
        money=3000),
    history("prices_that_grow_with_the_quantity", """
        Title,Sold price,Qty,Sold on
        Blue hat,42.00,2,2025-03-01
        Blue hat,21.00,1,2025-02-18
        Blue hat,63.00,3,2025-02-19
        """, says=("for all units of its row",), money=12600, table={"sold_price": [2100] * 3}),
    history("a_gross_amount_of_several_units_is_asked", """
        Title,Gross amount,Qty,Sold on
        Blue hat,42.00,2,2025-03-01
        Red hat,21.00,1,2025-02-18
        """, asks=("sold_price",), answers={"sold_price": "Gross amount", "sold_price_is": "row"}, money=6300),
    history("a_ledger_of_orders_and_what_moved", """
        Date,Type,Order ID,Item title,Qty,Gross amount,Fees,Net
        "Feb 3, 2025",Order,X1,Sander,1,45.00,-5.40,39.60
        "Feb 3, 2025",Shipping label,X1,,,-8.20,,-8.20
        "Feb 5, 2025",Order,X2,Planer,2,60.00,-7.20,52.80
        "Feb 9, 2025",Refund,X1,Sander,1,-45.00,5.00,-40.00
        "Feb 10, 2025",Payout,,,,-44.20,,-44.20
        """, asks=("sold_price_is",), answers={"sold_price_is": "row"}, problems={5: "*", 6: "*"}, aside=(6,),
        money=10500, units=3, table={"title": ["Sander", "Planer"], "sold_price": [4500, 3000],
            "refunded": [4500, None], "shipping_paid": [820, None], "fees": [540, 360]}),
)  # fmt: skip

COLUMNS = (
    history("days_in_other_words", """
        Title,Sold price,Sold day,Listed day
        Blue hat,20.00,2025-02-16,2025-01-02
        """, table={"sold_on": ["2025-02-16"], "listed_on": ["2025-01-02"]}),
    history("the_day_it_was_posted", """
        Title,Sold price,Date of sale,Date posted
        Blue hat,20.00,2025-02-16,2025-01-02
        """, table={"sold_on": ["2025-02-16"], "listed_on": ["2025-01-02"]}),
    history("posted_when_it_was_sent", """
        Title,Sold price,Date of sale,Date posted
        Blue hat,20.00,2025-02-16,2025-02-17
        """, problems={2: "listed_on"}, table={"sold_on": ["2025-02-16"], "listed_on": [None]}),
    history("days_that_nobody_read", """
        Title,Sold price,Sold on,Zork
        Blue hat,20.00,2025-02-16,2025-01-02
        """, says=("days that were not read: 'zork' (2025-01-02)",), table={"listed_on": [None]}),
    history("dutch_postage_inside", """
        Artikel;Verkoopprijs incl. verzendkosten;Verzendkosten;Verkocht op
        Lamp;24,95;4,95;14-02-2025
        Kan;54,95;4,95;28-02-2025
        """, currency="EUR", says=("postage inside",), table={"sold_price": [2000, 5000]}),
    history("german_postage_inside_paid_by_the_buyer", """
        Artikel;Verkaufspreis inkl. Versand;Versandkosten vom Käufer;Verkaufsdatum
        Lampe;24,95;4,95;14.02.2025
        Uhr;54,95;4,95;28.02.2025
        """, currency="EUR", asks=("sold_price",), answers={"sold_price": "Verkaufspreis inkl. Versand"},
        says=("postage inside",), unsaid=("personal data",),
        table={"sold_price": [2000, 5000], "shipping_charged": [495, 495]}),
    history("postage_paid_by_the_buyer_is_money", """
        Title,Sold price,Shipping paid by buyer,Sold on
        Blue hat,20.00,4.95,2025-02-14
        """, unsaid=("personal data",), table={"shipping_charged": [495]}),
    *(
        history(f"order_numbers_called_{number}", f"""
            {name};Artikel;Anzahl;Einzelpreis;Datum
            1;Lampe;1;20,00;14.02.2025
            ;Uhr;2;30,00;
            2;Vase;1;10,00;16.02.2025
            """, currency="EUR", problems={3: "order_ref"}, money=9000, table={"order_ref": ["1", "1", "2"]})
        for number, name in enumerate(
            ("Bestellnr.", "Auftragsnr.", "Rechnungsnr.", "Ordernr", "N° commande", "Nr zamówienia", "N. ordine")
        )
    ),
)  # fmt: skip

UNSOLD_HISTORIES = UNSOLD + SUMS + BASES + COLUMNS
