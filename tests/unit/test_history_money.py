"""Fees in several columns, a bare "Shipping", and columns of money that a history does not use."""

import numpy as np
import pytest

from models.intake.history import ReadHistory, read_history
from models.values.errors import NeedsColumns

DAYS = ("2026-03-05", "2026-03-06", "2026-03-07")


def history(headers: str, *rows: str) -> str:
    return (
        "\n".join([f"Title,Date sold,{headers}", *(f"Mug {n},{DAYS[n % 3]},{row}" for n, row in enumerate(rows))])
        + "\n"
    )


def read(text: str, **mapping: str) -> ReadHistory:
    return read_history(text.encode(), "sold.csv", mapping, "USD")


def said(done: ReadHistory) -> str:
    return " ".join(caution.what for caution in done.cautions)


def test_fees_in_several_columns_are_summed_and_divided_by_the_units() -> None:
    headers = "Sold price,Qty,Final value fee - fixed,Final value fee - variable,Promoted listing fee,Insertion fee"
    done = read(history(headers, "10.00,2,0.30,1.20,0.50,0.35", "12.00,1,0.30,1.44,,"))
    assert done.sales.fees.tolist() == [100, 174]
    assert "'Final value fee - fixed' + 'Final value fee - variable' + 'Promoted listing fee'" in said(done)
    assert "'Insertion fee' (a fee)" in said(done)


def test_fees_below_zero_are_turned_column_by_column() -> None:
    done = read(history("Sold price,Fees,Payment fee", "10.00,-1.20,0.30", "12.00,-1.40,0.30"))
    assert done.sales.fees.tolist() == [150, 170]


def test_a_column_that_is_the_sum_of_the_others_is_not_added_to_them() -> None:
    headers = "Sold price,Selling fee,Payment fee,Fees"
    done = read(history(headers, "10.00,1.20,0.30,1.50", "12.00,1.40,0.30,1.70"))
    assert done.sales.fees.tolist() == [150, 170]
    assert "'Fees' was read as all fees of a sale" in said(done)
    done = read(history("Sold price,Ad fee,Total fees", "10.00,0.50,1.50", "12.00,0.50,1.70"))
    assert done.sales.fees.tolist() == [150, 170]


def test_a_blank_row_of_fees_stays_blank_and_what_is_no_amount_is_named() -> None:
    done = read(history("Sold price,Ad fee,Selling fee", "10.00,,", "12.00,soon,1.40", "9.00,.20,1.00"))
    np.testing.assert_array_equal(done.sales.fees, [np.nan, 140, 120])
    assert [(one.row, one.column, one.value) for one in done.problems.items] == [(3, "Ad fee", "soon")]


def test_no_fees_at_all_can_be_said() -> None:
    done = read(history("Sold price,Ad fee,Selling fee", "10.00,.10,1.00"), fees="-")
    assert np.isnan(done.sales.fees).all()


BARE = history("Sold price,{}", "10.00,4.00", "12.00,5.00")


@pytest.mark.parametrize("header", ["Shipping", "Postage", "Versandkosten", "Delivery", "Frais de port", "Porto"])
def test_bare_postage_is_asked(header: str) -> None:
    text = BARE.format(header)
    with pytest.raises(NeedsColumns) as asked:
        read(text)
    (question,) = asked.value.questions
    assert question.key == "shipping_is"
    assert header in question.words
    charged, paid, neither = (read(text, shipping_is=answer).sales for answer in ("charged", "paid", "neither"))
    assert charged.shipping_charged.tolist() == paid.shipping_paid.tolist() == [400, 500]
    assert np.isnan([*charged.shipping_paid, *paid.shipping_charged, *neither.shipping_paid]).all()
    assert np.isnan(neither.shipping_charged).all()


def test_a_column_named_by_the_seller_is_not_asked_about() -> None:
    assert read(BARE.format("Shipping"), shipping_paid="Shipping").sales.shipping_paid.tolist() == [400, 500]


@pytest.mark.parametrize(
    ("headers", "rows", "column"),
    [
        ("Sold price,Shipping,Label cost", ("10.00,4.00,3.50", "12.00,5.00,4.10"), "shipping_charged"),
        ("Sold price,Shipping,Shipping charged", ("10.00,4.00,3.50", "12.00,5.00,4.10"), "shipping_paid"),
        ("Sold price,Shipping", ("10.00,-4.00", "12.00,-5.00"), "shipping_paid"),
        ("Sold price,Shipping,Order total", ("10.00,4.00,14.00", "12.00,5.00,17.00"), "shipping_charged"),
        ("Sold price,Shipping,Fees,Net", ("10.00,4.00,1.00,5.00", "12.00,5.00,1.20,5.80"), "shipping_paid"),
        ("Sold price,Shipping,Fees,Payout", ("10.00,4.00,1.00,13.00", "12.00,5.00,1.20,15.80"), "shipping_charged"),
        ("Sold price,Qty,Shipping,Gross", ("5.00,2,4.00,14.00", "12.00,1,5.00,17.00"), "shipping_charged"),
    ],
)
def test_bare_postage_is_told_by_its_neighbours(headers: str, rows: tuple[str, ...], column: str) -> None:
    sales = read(history(headers, *rows)).sales
    assert (getattr(sales, column) * sales.quantity).tolist() == [400, 500]
    other = "shipping_paid" if column == "shipping_charged" else "shipping_charged"
    assert not (getattr(sales, other) == getattr(sales, column)).any()


def test_what_sums_decided_is_said_and_can_be_turned() -> None:
    text = history("Sold price,Shipping,Order total", "10.00,4.00,14.00", "12.00,5.00,17.00")
    assert "'Shipping' was read as what buyers paid for postage: price + postage is 'Order total'" in said(read(text))
    assert read(text, shipping_is="paid").sales.shipping_paid.tolist() == [400, 500]


def test_postage_of_nothing_is_not_asked_about() -> None:
    assert len(read(history("Sold price,Shipping", "10.00,0.00", "12.00,")).sales) == 2


def test_reading_again_by_its_own_mapping_reads_the_same() -> None:
    text = history("Sold price,Shipping,Ad fee,Selling fee", "10.00,4.00,.10,1.00", "12.00,5.00,.20,1.10")
    first = read(text, shipping_is="charged")
    again = read(text, **first.mapping)
    assert again.sales.fees.tolist() == first.sales.fees.tolist() == [110, 130]
    assert again.sales.shipping_charged.tolist() == [400, 500]


def test_money_that_is_not_used_is_named() -> None:
    done = read(history("Sold price,Zork,Payout", "10.00,4.25,9.00", "12.00,5.10,10.90"))
    assert "'Zork' (not known what), 'Payout' (a payout)" in said(done)


def test_a_foreign_sign_in_a_fee_of_any_name_sets_its_row_aside() -> None:
    text = "What sold,Sold on,Sold price,Our fee\nPot,2026-03-03,£34.50,£3.10\nMug,2026-03-09,£22.00,$2.10\n"
    done = read_history(text.encode(), "sold.csv", {"title": "What sold"}, "GBP")
    assert done.sales.fees.tolist() == [310]
    assert [(one.row, one.reason) for one in done.problems.items] == [(3, "sold in one currency, paid in another")]


def test_what_buyers_paid_for_several_units_is_asked() -> None:
    with pytest.raises(NeedsColumns) as asked:
        read(history("Buyer paid,Qty", "34.50,1", "44.00,2"), sold_price="Buyer paid")
    assert [one.key for one in asked.value.questions] == ["sold_price_is"]
