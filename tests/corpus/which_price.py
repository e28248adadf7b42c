"""Sold histories in which several prices stand: with tax and without, of a unit, with postage, what was accepted."""

from corpus.case import Case, histories, history

_GROSS = ("Verkaufspreis brutto", "Gross sold price", "VK (brutto)", "Prezzo di vendita lordo")


def _gross(header: str) -> Case:
    return history(
        f"tax_inside_{header.casefold().replace(' ', '_')}",
        f"Title;{header};Date sold\nKettle;12,00;2025-02-14\nBasket;9,50;2025-02-15\n",
        may_ask=("sold_price",),
        answers={"sold_price": header},
        says=("sales tax inside, and no column tells how much",),
        table={"sold_price": [1200, 950]},
    )


TAXES = (
    *map(_gross, _GROSS),
    history("tax_inside_by_its_sums", """
        Item,Amount paid,VAT,Net,Date sold
        Kettle,12.00,2.00,10.00,2025-02-14
        Basket,24.00,4.00,20.00,2025-02-15
        """, answers={"sold_price": "Amount paid"}, says=("what 'vat' tells of it was taken out",),
        table={"sold_price": [1000, 2000]}),
    history("tax_on_top_by_its_sums_whatever_the_header_says", """
        Item,Gross price,VAT,To pay,Date sold
        Kettle,10.00,2.00,12.00,2025-02-14
        Basket,20.00,4.00,24.00,2025-02-15
        """, may_ask=("sold_price",), answers={"sold_price": "Gross price"}, unsaid=("tax inside",),
        table={"sold_price": [1000, 2000]}),
)  # fmt: skip

UNITS = (
    history("einzelpreis_brutto_is_a_units", """
        Artikel;Menge;Einzelpreis (brutto);Verkauft am
        Kessel;1;24,90;03.01.2025
        Korb;2;12,50;15.01.2025
        """, currency="EUR", money=4990, says=("sales tax inside",), table={"sold_price": [2490, 1250]}),
    history("each_beside_a_total_price", """
        Title,Qty,Total price,Each,Sold on
        Kettle,2,40.00,20.00,2025-02-15
        Basket,1,30.00,30.00,2025-02-16
        """, money=7000, says=("'total price' (quantity x 'each')",)),
    history("sold_is_money_and_date_out_its_day", """
        Date in,Title,Tag price,Markdown price,Sold,Date out
        2025-01-05,Kettle,30.00,,24.00,2025-02-15
        2025-01-06,Basket,45.00,35.00,35.00,2025-02-18
        """, table={"sold_price": [2400, 3500], "sold_on": ["2025-02-15", "2025-02-18"]}, says=("'date in'",)),
)  # fmt: skip

POSTAGE = (
    history("postage_by_the_sum_of_counted_units", """
        Item,Qty sold,Price each,Line total,Postage,Order total,Date sold
        Kettle,1,12.00,12.00,3.00,15.00,2025-02-15
        Basket,2,12.00,24.00,4.00,28.00,2025-02-16
        """, table={"shipping_charged": [300, 200]}, says=("'order total'",)),
    *(
        history(f"postage_that_says_charged_{number}", f"""
            Item;Sold price;Date sold;{header}
            Kettle;20,50;2025-02-15;4,95
            """, table={"shipping_charged": [495]})
        for number, header in enumerate(
            ("Gastos de envío cobrados", "Spese di spedizione addebitate", "Berechnete Portokosten", "Postage received")
        )
    ),
)  # fmt: skip

OFFERS = (
    history("an_accepted_offer_is_what_it_sold_for", """
        Title,Price,Offer accepted,Listed,Sold
        Kettle,45.00,38.00,2025-01-02,2025-01-25
        Basket,45.00,,2025-01-02,2025-02-25
        """, money=8300, says=("accepted offer: 1",)),
    history("a_sold_price_beside_an_accepted_offer_stays", """
        Title,Sold price,Accepted offer,Sold on
        Kettle,45.00,38.00,2025-01-25
        """, money=4500, says=("'accepted offer' was not read",)),
)  # fmt: skip

DISCOUNTS = (
    history("a_discount_is_taken_off_where_a_total_proves_it", """
        Title,Qty,Price,Line discount,Tax,Line total,Sold on
        Kettle,1,20.00,2.00,1.44,19.44,2025-01-15
        Basket,2,30.00,0.00,4.80,64.80,2025-01-16
        Stool,3,10.00,3.00,2.16,29.16,2025-01-17
        """, money=10500, says=("'line discount' was taken off",), table={"sold_price": [1800, 3000, 900]}),
    history("a_price_after_its_discount_stays", """
        Title,Price,Discount,Postage charged,Total,Sold on
        Kettle,18.00,2.00,3.00,21.00,2025-01-15
        Stool,27.00,3.00,4.00,31.00,2025-01-17
        """, money=4500, unsaid=("Discount' was",)),
    history("a_discount_that_no_sum_explains_is_named", """
        Title,Price,Discount,Sold on
        Kettle,18.00,2.00,2025-01-15
        Stool,27.00,3.00,2025-01-17
        """, money=4500, says=("'discount' was not taken off",)),
)  # fmt: skip

NAMED = (
    history("addresses_are_no_postage", """
        Title,Sold price,Sold on,Delivery address,Ship to zip
        Kettle,45.00,2025-01-25,1 Elm,01234
        Basket,15.00,2025-01-26,2 Oak,01235
        """, unsaid=("Amounts of money that were not read",), money=6000),
    history("days_without_a_year_are_named", """
        Title,Sold price,Date sold
        Kettle,45.00,15-Jan
        Basket,15.00,2/15
        """, says=("'date sold' (15-jan, 2/15)", "with its year"), money=6000),
    history("parts_of_a_day_are_named", """
        Title,Sold price,Year,Month,Day
        Kettle,45.00,2025,1,15
        Basket,15.00,2025,2,20
        """, says=("'year' (2025), 'month' (1, 2), 'day' (15, 20)",), money=6000),
    history("what_unread_money_seems_to_be", """
        Title,Sold price,Start price,Buy it now price,Net sales,Discounts,Sold on
        Kettle,45.00,20.00,50.00,44.00,1.00,2025-01-15
        """, says=("'buy it now price' (an asking price)", "'net sales' (takings)")),
    history("other_currencies_are_not_said_to_be_read", """
        Title,Sold price,Sold on
        Kettle,$45.00,2025-01-25
        Basket,£15.00,2025-01-26
        """, unsaid=("every amount was read",), problems={3: "sold_price"}, aside=(3,), money=4500),
    history("the_first_day_listed_in_german", """
        Artikel;Verkaufspreis;Eingestellt am;Verkauft am;Erstmals eingestellt
        Kessel;20,00;01.02.2025;15.02.2025;01.11.2024
        """, table={"listed_on": ["2025-02-01"], "first_listed_on": ["2024-11-01"]}),
    history("janv_is_a_month", """
        Titre;Prix de vente;Vendu le
        Bouilloire;20,00;15 janv. 2025
        """, table={"sold_on": ["2025-01-15"]}),
    history("mins_to_list", """
        Title,Sold price,Sold on,Mins to list
        Kettle,20.00,2025-01-15,12
        """, table={"listing_minutes": [12]}),
    histories("a_refund_in_brackets_is_told_once_and_a_german_commission_is_a_fee", {
        "orders.csv": """
            Bestellnummer;Titel;Verkaufspreis;Verkauft am
            D-1;Kessel;20,00;13.01.2025
            D-2;Korb;30,00;14.01.2025
            """,
        "fees.csv": """
            Datum;Vorgang;Bestellnummer;Betrag
            15.01.2025;Verkaufsprovision;D-1;-2,74
            16.01.2025;Erstattung;D-2;-12,50
            """,
    }, problems={3: "*"}, unsaid=("below zero",), table={"fees": [274, None], "refunded": [None, 1250]}),
)  # fmt: skip

WHICH_PRICE = TAXES + UNITS + POSTAGE + OFFERS + DISCOUNTS + NAMED
