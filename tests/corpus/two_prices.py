"""Bare prices: of two in a history one may be the tag; one in a manifest is asked about even if it counts up."""

from corpus.case import history, manifest

_BOTH = """
    Item,Price,Amount,Pcs,Listed on,Sold on
    Blue mug,20.00,8.00,1,2026-02-01,2026-03-05
    Jug,15.00,9.00,2,2026-02-01,2026-03-06
    Mat,30.00,,1,2026-02-01,
    """
_ROWS = """
    Item,Sold for,Pcs,{},Sold on
    Blue mug,16.00,2,8.00,2026-03-05
    Jug,9.00,1,9.00,2026-03-06
    Mat,21.00,3,7.00,2026-03-07
    """
_TOTALS = """
    Item,Sold for,Pcs,Postage charged,{},Sold on
    Blue mug,16.00,2,3.00,{},2026-03-05
    Jug,9.00,1,2.00,11.00,2026-03-06
    Mat,21.00,3,4.00,{},2026-03-07
    """
_EACH = {"title": ["Blue mug", "Jug", "Mat"], "sold_price": [800, 900, 700]}
_LEFT = {"title": ["Blue mug", "Jug", "Mat"], "sold_price": [800, 900, None]}

TWO_PRICES = (
    history("two_bare_prices_are_asked", _BOTH, asks=("sold_price",),
        answers={"sold_price": "Amount", "sold_price_is": "unit"}, table=_LEFT, says=("'Price' (some price)",)),
    history("two_bare_prices_with_both_named", _BOTH, asks=("sold_price",),
        answers={"sold_price": "Amount", "sold_price_is": "unit", "tag_each": "Price"},
        table={**_LEFT, "tag_each": [2000, 1500, 3000]}),
    history("two_bare_prices_and_days_are_asked_together", _BOTH.replace("Listed on", "Up").replace("Sold on", "Gone"),
        asks=("sold_price", "sold_on"), answers={"sold_price": "Amount", "sold_on": "Gone", "sold_price_is": "unit"},
        table={**_LEFT, "sold_on": ["2026-03-05", "2026-03-06", None]}, says=("'Up'",)),
    history("a_regular_and_a_reduced_price_are_asked", """
        Item,Price,Promo price,Sold on
        Blue mug,20.00,8.00,2026-03-05
        Jug,15.00,9.00,2026-03-06
        """, asks=("sold_price",), answers={"sold_price": "Price"}, table={"sold_price": [2000, 1500]}),
    history("a_price_that_says_sold_needs_no_question", """
        Item,Price,Sold for,Worth,Sold on
        Blue mug,20.00,8.00,21.50,2026-03-05
        Jug,15.00,9.00,17.00,2026-03-06
        """, table={"sold_price": [800, 900]}, says=("'Worth'",)),
    history("an_amount_that_follows_from_the_price", """
        Item,Price,Pcs,Postage charged,Tax,Amount,Sold on
        Blue mug,8.00,1,3.00,0.88,11.88,2026-03-05
        Jug,9.00,2,4.00,1.76,23.76,2026-03-06
        Mat,7.00,3,2.00,1.84,24.84,2026-03-07
        """, table={"sold_price": [800, 900, 700]}),
    history("an_amount_of_the_whole_row_beside_the_price", """
        Item,Price,Pcs,Amount,Sold on
        Blue mug,8.00,1,8.00,2026-03-05
        Jug,9.00,2,18.00,2026-03-06
        """, table={"sold_price": [800, 900]}),
    history("a_price_each_beside_it_proves_a_price_of_the_row", _ROWS.format("Price each"), table=_EACH,
        says=("it is the quantity times 'Price each'", "'Sold for' / quantity")),
    history("a_bare_price_beside_it_proves_a_price_of_the_row", _ROWS.format("Price"), table=_EACH),
    history("a_price_each_goes_before_prices_of_one_title_that_are_the_same_by_chance",
        _ROWS.format("Price each").replace("Jug,9.00,1,9.00", "Blue mug,16.00,1,16.00"),
        table={"sold_price": [800, 1600, 700]}),
    history("a_unit_cost_proves_nothing", _ROWS.format("Unit cost").replace("9.00,2026", "4.00,2026"),
        table={"sold_price": [1600, 900, 2100]}),
    history("one_row_of_several_units_is_asked", _ROWS.format("Price each").replace(",3,7.00", ",1,21.00"),
        asks=("sold_price_is",), answers={"sold_price_is": "row"}, table={"sold_price": [800, 900, 2100]}),
    history("a_price_for_each_that_another_one_contradicts_is_asked",
        _ROWS.format("Unit price").replace("Sold for", "Sold price each"), asks=("sold_price_is",),
        answers={"sold_price_is": "unit"}, table={"sold_price": [1600, 900, 2100]}),
    history("a_total_without_the_quantity_proves_a_price_of_the_row", _TOTALS.format("Total", "19.00", "25.00"),
        table=_EACH, says=("it makes 'Total' without the quantity",)),
    history("a_total_with_the_quantity_proves_a_price_of_a_unit", _TOTALS.format("Total", "35.00", "67.00"),
        table={"sold_price": [1600, 900, 2100]}),
    history("an_amount_without_the_quantity_may_be_a_unit_s",
        _TOTALS.format("Amount", "19.00", "25.00").replace("Sold for", "Price"), asks=("sold_price_is",),
        answers={"sold_price_is": "row"}, table=_EACH),
    history("a_payout_without_the_quantity_is_asked", """
        Item,Sold for,Pcs,Fees,Net payout,Sold on
        Blue mug,16.00,2,1.60,14.40,2026-03-05
        Jug,9.00,1,.90,8.10,2026-03-06
        Mat,21.00,3,2.10,18.90,2026-03-07
        """, asks=("sold_price_is",), answers={"sold_price_is": "unit"}, table={"sold_price": [1600, 900, 2100]}),
    history("a_surcharge_that_is_mostly_zero_is_no_second_price", """
        Item,Price,Gift wrap price,Sold on
        Blue mug,8.00,0.00,2026-03-05
        Jug,9.00,3.50,2026-03-06
        Mat,7.00,0.00,2026-03-07
        """, table={"sold_price": [800, 900, 700]}, says=("'Gift wrap price'",)),
    history("a_payout_and_a_tax_are_no_second_price", """
        Item,Price,Net amount,Tax amount,Sold on
        Blue mug,8.00,6.90,0.64,2026-03-05
        Jug,9.00,7.80,0.72,2026-03-06
        """, table={"sold_price": [800, 900]}, says=("'Net amount'",)),
    manifest("a_price_that_counts_up_with_cents", """
        Item,Qty,Price
        Blue mug,1,20.99
        Desk lamp,1,21.99
        Door mat,2,22.99
        """, asks=("tag_each",), answers={"tag_each": "Price"}, table={"tag_each": [2099, 2199, 2299]}),
    manifest("a_price_that_counts_up_in_whole_numbers", """
        Item,Qty,Price
        Blue mug,1,20
        Desk lamp,1,21
        Door mat,2,22
        """, asks=("tag_each",), answers={"tag_each": "Price"}, table={"tag_each": [2000, 2100, 2200]}),
    manifest("a_number_of_the_row_is_no_price", """
        Item,Zork,MSRP
        Blue mug,1,20.00
        Desk lamp,2,31.00
        Door mat,3,12.00
        """, table={"tag_each": [2000, 3100, 1200]}, says=("no quantity column",)),
)  # fmt: skip
