"""Sorts of sold histories: listings, statements of fees; what is no sale, and what a file leaves unsaid."""

import numpy as np
import pytest

from models.intake.history import ReadHistory, read_history
from models.values.errors import NeedsColumns
from models.values.sale_parts import ENDED, FEES, LIVE, REFUND


def read(text: str, currency: str = "USD", **mapping: str) -> ReadHistory:
    return read_history(text.strip().encode(), "sales.csv", mapping, currency)


def reasons(done: ReadHistory) -> list[tuple[int, str]]:
    return [(item.row, item.reason) for item in done.problems.items]


def counted(done: ReadHistory) -> tuple[int, int, int]:
    assert done.problems.rows == done.problems.kept + done.problems.set_aside
    return done.problems.rows, done.problems.kept, done.problems.set_aside


@pytest.mark.parametrize(
    ("header", "first", "second"),
    [
        ("Quantity", '"sold 6, left 14"', "0 sold / 5 available"),
        ("Quantity", "6 of 20 sold", "0 of 5 sold"),
        ("Quantity sold,Quantity available", "6,14", "0,5"),
    ],
)
def test_a_listing_of_several_units_is_a_sale_and_a_listing(header: str, first: str, second: str) -> None:
    done = read(f"""
Listing number,Title,Sold price,{header},Date listed
L1,Mug,8.00,{first},2026-05-01
L3,Pot,,{second},2026-05-01
""")
    assert done.sales.title.tolist() == ["Mug", "Mug", "Pot"]
    assert done.sales.quantity.tolist() == [6, 14, 5]
    assert done.sales.sold.tolist() == [True, False, False]
    assert done.sales.row.tolist() == [2, 2, 3]
    assert counted(done) == (2, 2, 0)


def test_variations_below_their_listing() -> None:
    done = read("""
Listing number,Title,Variation details,Current price,Available quantity,Sold quantity,Start date
110,Shirt,,10,,3,2026-05-01
110,,Red M,10,4,2,2026-05-01
110,,Blue L,11,1,1,2026-05-01
111,Mug,,5,0,1,2026-05-03
""")
    assert done.sales.title.tolist() == ["Shirt Red M", "Shirt Blue L"]
    assert done.sales.quantity.tolist() == [4, 1]
    assert any("were sold: 4." in caution.what for caution in done.cautions)
    assert (2, "its variations stand in the rows below") in reasons(done)
    assert counted(done) == (4, 3, 1)


def test_a_price_of_what_is_still_for_sale_is_what_is_asked() -> None:
    done = read("Title,Price,Status,Date listed\nMug,8,Active,2026-05-01\nJug,9,Ended,2026-05-01\n")
    assert not done.sales.sold.any()
    assert done.sales.asking_price.tolist() == [800, 900]
    assert done.part.role.tolist() == [LIVE, ENDED]
    named = read("Title,Price,Status,Date listed\nMug,8,Active,2026-05-01\n", sold_price="Price")
    assert not named.sales.sold.any()  # a listing that runs has not sold, whatever its price is called
    assert named.sales.asking_price.tolist() == [800]


def test_a_statement_is_fees_labels_and_refunds() -> None:
    done = read("""
Order number,Transaction type,Amount,Date
O1,Final value fee,-1.20,2026-05-01
O1,Shipping label,-4.10,2026-05-02
O2,Refund,-20.00,2026-05-02
,Payout,-100.00,2026-05-02
""")
    assert len(done.sales) == 0
    assert done.part.role.tolist() == [FEES, FEES, REFUND]
    assert done.part.sales.fees.tolist()[0] == 120
    assert done.part.sales.shipping_paid.tolist()[1] == 410
    assert done.part.sales.refunded.tolist()[2] == 2000
    assert counted(done) == (4, 3, 1)


def test_goods_kept_or_given_away_are_no_sales() -> None:
    done = read("""
Title,Sold price,Sold date,Status
Mug,0.00,2026-05-01,
KEEP - lamp,0.00,2026-05-01,
Jug,DONATED,2026-05-01,
Pot,,,Donated
Cup,9,2026-05-01,Unpaid
Pan,9,2026-05-01,Awaiting payment
Keep calm poster,9,2026-05-01,Paid
""")
    assert done.sales.title.tolist() == ["Keep calm poster"]
    assert np.isfinite(np.log(done.sales.sold_price)).all()
    said = dict(reasons(done))
    assert said[2] == "the sold price is zero"
    assert {said[row] for row in (3, 4, 5)} == {"kept or given away: no sale"}
    assert said[7] == "not paid: no sale"


def test_another_currency_is_set_aside_and_never_converted() -> None:
    done = read("""
Order number,Title,Sold price,Currency,Payout currency,Sold date
O1,Mug,8,USD,USD,2026-05-01
O2,Jug,9,EUR,USD,2026-05-01
O3,Pot,9,USD,EUR,2026-05-01
""")
    assert done.sales.title.tolist() == ["Mug"]
    assert reasons(done)[0] == (3, "sold in another currency")
    assert (4, "sold in one currency, paid in another") in reasons(done)
    assert any("currency" in caution.what for caution in done.cautions)


def test_a_wholesale_clear_out_is_set_aside() -> None:
    single = "".join(f"O{n},Mug,8.00,1,2026-05-0{n}\n" for n in range(1, 6))
    done = read(
        f"Order number,Title,Sold price,Qty,Sold date\n{single}O9,Mug,2.00,40,2026-05-09\nO8,Mug,7.50,12,2026-05-09\n"
    )
    assert done.sales.quantity.tolist() == [1, 1, 1, 1, 1, 12]
    assert reasons(done) == [(7, "a clear-out: 40 units to one buyer for less than half of what one brings")]


def test_lots_of_several_count_as_their_quantity_says() -> None:
    done = read("Title,Sold price,Sold date,Date listed\nLOT OF 5 plates,9,2026-05-01,2026-04-01\n")
    assert done.sales.quantity.tolist() == [1]
    assert any("lot of 5" in caution.what for caution in done.cautions)


def test_what_cannot_be_learned_is_said() -> None:
    said = [caution.what for caution in read("Title,Sold price\nMug,9\n").cautions]
    assert any("listing date" in what for what in said)
    assert any("No sale has a date" in what for what in said)


def test_an_export_that_stops_at_a_number_of_rows_or_days() -> None:
    rows = "".join(f"Mug {n},9,{np.datetime64('2026-02-04') + n % 90},2025-11-01\n" for n in range(500))
    said = [caution.what for caution in read("Title,Sold price,Sold date,Date listed\n" + rows).cautions]
    assert any("exactly 500 rows" in what for what in said)
    assert any("exactly 90 days" in what for what in said)


def test_buyers_are_dropped_and_counted() -> None:
    done = read("Order number,Title,Sold price,Buyer name,Ship to city,Buyer email\nO1,Mug,16.00,Ann,Town,a@b.c\n")
    assert done.cautions[0].what.startswith("Columns of buyers' names, addresses or other personal data: 3.")
    assert not {"Ann", "Town", "a@b.c"} & {
        str(cell) for column in vars(done.sales).values() for cell in column.tolist()
    }


def test_a_bare_price_beside_listing_days_alone_is_asked_about() -> None:
    text = "Title,Price,Date listed\nMug,8.00,2026-05-01\n"
    with pytest.raises(NeedsColumns) as asked:
        read(text)
    assert [choice.value for choice in asked.value.questions[0].choices] == ["Price", "-"]
    assert read(text, sold_price="Price").sales.sold_price.tolist() == [800]
    offered = read(text, sold_price="-")
    assert (offered.sales.sold.any(), offered.sales.asking_price.tolist()) == (False, [800])
    assert read(text, **offered.mapping).sales.asking_price.tolist() == [800]


def test_the_end_of_a_listing_that_sold_is_its_day_of_sale() -> None:
    done = read("""
Listing ID,Title,Start price,Status,Start date,End date,Sold price
L1,Mug,9,Sold,2026-01-01,2026-01-09,8
L2,Jug,9,Unsold,2026-01-01,2026-01-31,
""")
    assert done.sales.sold_on.astype(str).tolist() == ["2026-01-09", "NaT"]
    assert any("'End date' of listings that sold" in caution.what for caution in done.cautions)


def test_a_code_beside_a_dollar_sign_is_heard() -> None:
    done = read("""
Title,Sold price,Sold on
Mug,$8.00,2026-05-01
Jug,US $9.00,2026-05-02
Pot,$7.00 CAD,2026-05-03
""")
    assert done.sales.sold_price.tolist() == [800, 900]
    assert reasons(done) == [(4, "sold in another currency")]
    assert any("mixes currency signs ($, CAD, US$)" in caution.what for caution in done.cautions)
    done = read("Title,Sold price,Sold on\nMug,$8.00 AUD,2026-05-01\nJug,$9.00 AUD,2026-05-02")
    assert any("marks its amounts AUD" in caution.what for caution in done.cautions)


def test_an_amount_signed_in_another_currency_is_set_aside() -> None:
    done = read("""
Order,Title,Sold price,Fees,Sold on
O1,Mug,$8,$1,2026-05-01
O2,Jug,€9,$1,2026-05-01
O3,Pot,$9,€1,2026-05-01
""")
    assert done.sales.title.tolist() == ["Mug"]
    assert done.problems.set_aside == 2


def test_a_german_export() -> None:
    done = read(
        """
Bestellnummer;Artikelbezeichnung;Verkaufspreis;Menge;Verkauft am;Käufer;Lieferadresse;Vorgang
B1;Blaue Tasse;12,50 €;1;03.05.2026;Anna;Weg 1;Verkauf
B2;Lampe;40,00 €;1;04.05.2026;Bert;Weg 2;Verkauf
B2;Lampe;-40,00 €;1;24.06.2026;Bert;Weg 2;Rückerstattung
""",
        currency="EUR",
    )
    assert done.sales.sold_price.tolist() == [1250, 4000]
    assert done.sales.refunded.tolist()[1] == 4000
    assert done.buyers == 2
