"""Statements of fees and refunds: what each row is, which way its money went, and which sale it is of."""

import pytest

from models.intake.histories import histories_together
from models.intake.history import ReadHistory, read_history
from models.values.errors import NeedsColumns
from models.values.questions import NO_COLUMN

ORDERS = "Order,Title,Qty,Item price,Sold\nK-1,Copper pan,1,30,2026-02-13\nK-2,Felt hat,2,12,2026-02-20\n"
LEDGER = """Transaction created,Type,Order number,Item title,Quantity,Item subtotal,Selling fee,Net amount,Description
2026-02-13,Order,K-1,Copper pan,1,30.00,-3.60,26.40,--
2026-02-20,Order,K-2,Felt hat,2,24.00,-2.40,21.60,--
2026-02-21,Shipping label,K-1,--,--,--,--,-8.00,Label 5
2026-03-02,Other fee,K-2,--,--,--,--,-0.60,Ad fee
2026-03-05,Refund,K-2,Felt hat,1,-12.00,--,-12.00,--
2026-03-09,Payout,--,--,--,--,--,-50.00,To bank
"""


def read(text: str, **mapping: str) -> ReadHistory:
    return read_history(text.encode(), "file.csv", mapping, "USD")


def costs(*reads: ReadHistory) -> dict[str, tuple[float, float, float]]:
    """Fees, refund and label of each sale [minor units a unit]."""
    sales = histories_together([(f"{n}.csv", one) for n, one in enumerate(reads)]).sales
    columns = zip(sales.fees.tolist(), sales.refunded.tolist(), sales.shipping_paid.tolist(), strict=True)
    told = ((fee, refund if refund == refund else 0, label if label == label else 0) for fee, refund, label in columns)
    return dict(zip(sales.title.tolist(), told, strict=True))


@pytest.mark.parametrize("sign", ["", "-"])
def test_fees_of_orders_and_fees_of_their_own_are_summed_whatever_their_signs(sign: str) -> None:
    fees = (
        "Date,Type,Order number,Fixed fee,Selling fee,Net amount\n"
        f"2026-02-13,Order,K-1,{sign}0.30,{sign}3.30,26.40\n2026-02-20,Order,K-2,{sign}0.30,{sign}2.10,21.60\n"
        "2026-03-05,Other fee,K-2,--,--,-0.60\n2026-03-06,Other fee,K-1,--,--,-0.90\n"
    )
    assert costs(read(ORDERS), read(fees)) == {"Copper pan": (450, 0, 0), "Felt hat": (150, 0, 0)}


@pytest.mark.parametrize("mapping", [{}, {"fees": "Fee amount"}])
def test_a_description_may_say_what_each_row_is(mapping: dict[str, str]) -> None:
    fees = (
        "Order,Description,Fee amount,Date\nK-1,Selling fee,3.60,2026-02-13\nK-1,Postage label,8.00,2026-02-14\n"
        "K-1,Partial refund,-20.00,2026-03-02\nK-2,Selling fee,2.40,2026-02-20\n"
    )
    assert costs(read(ORDERS), read(fees, **mapping)) == {"Copper pan": (360, 2000, 800), "Felt hat": (120, 0, 0)}


def test_a_refund_in_a_column_of_fees_alone_gives_them_back() -> None:
    fees = "Type,Order number,Selling fee\nOrder,K-1,3.60\nRefund,K-1,-3.60\nOrder,K-2,2.40\n"
    assert costs(read(ORDERS), read(fees)) == {"Copper pan": (0, 0, 0), "Felt hat": (120, 0, 0)}


def test_a_ledger_without_gross_amounts_asks_and_may_have_no_price() -> None:
    with pytest.raises(NeedsColumns) as asked:
        read(LEDGER)
    question = asked.value.questions[0]
    assert (question.key, question.guess) == ("sold_price", "")  # the two are alike
    assert NO_COLUMN in [choice.value for choice in question.choices]
    expected = {"Copper pan": (360, 0, 800), "Felt hat": (150, 600, 0)}
    alone = read(LEDGER, sold_price="Item subtotal", sold_price_is="row")
    assert alone.sales.sold_price.tolist() == [3000, 1200]
    assert alone.sales.sold_on.astype(str).tolist() == ["2026-02-13", "2026-02-20"]
    assert costs(alone) == expected
    fees = read(LEDGER, sold_price=NO_COLUMN)
    assert costs(read(ORDERS), fees) == expected
    assert costs(read(ORDERS), read(LEDGER, **fees.mapping)) == expected


def test_what_is_left_after_fees_is_no_guess_for_the_price() -> None:
    fees = "Date,Type,Order number,Item title,Selling fee,Net amount\n2026-02-13,Order,K-1,Copper pan,-3.60,26.40\n"
    with pytest.raises(NeedsColumns) as asked:
        read(fees)
    assert asked.value.questions[0].guess == ""
    assert "may be" not in str(asked.value)
