"""Sold histories in which several prices stand: with tax and without, of a unit, with postage, what was accepted."""

from corpus.case import Case, history

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

WHICH_PRICE = TAXES + UNITS + POSTAGE + OFFERS
