"""What a seller is asked can be answered: every column that may be meant is offered, the likeliest first."""

import io

import openpyxl
import pytest

from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.services.named_columns import checked_headers
from models.values.errors import NeedsColumns, Rejected, Unreadable
from models.values.questions import Question


def asked(text: str, key: str, history: bool = False, currency: str = "USD") -> Question:
    read = read_history if history else read_manifest
    with pytest.raises(NeedsColumns) as error:
        read(text.encode(), "m.csv", {}, currency)
    return next(one for one in error.value.questions if one.key == key)


def test_codes_under_the_header_of_a_title_are_the_first_choice() -> None:
    one = asked("Item title,Qty,MSRP,Note\nAB-104,3,39.00,scratched\nAB-105,2,59.00,\n", "description")
    assert [choice.value for choice in one.choices] == ["Item title", "Note"]


def test_and_in_a_history() -> None:
    text = "Item title,Price,Sold on,Note\nAB-104,39.00,2026-01-02,scratched\nAB-105,59.00,2026-01-03,\n"
    assert [choice.value for choice in asked(text, "title", history=True).choices] == ["Item title", "Note"]


def test_every_column_of_words_is_offered_and_none_of_counts_prices_and_days() -> None:
    text = "Zork,Blub,Qty,MSRP,Day\nK-1 mug,red,3,39.00,2026-01-02\nK-2 jug,blue,2,59.00,2026-01-03\n"
    one = asked(text, "description")
    assert {choice.value for choice in one.choices} == {"Zork", "Blub"}


@pytest.mark.parametrize("counted", ["Received", "Shipped"])
def test_the_guess_is_what_came_and_not_what_was_ordered(counted: str) -> None:
    text = f"Product Name,Qty Ordered,Qty {counted},Qty Damaged,Retail Price\nKettle,10,8,1,39.00\nLamp,6,6,0,59.00\n"
    assert asked(text, "quantity").guess == f"Qty {counted}"


def test_a_total_below_a_run_of_sizes_is_no_size() -> None:
    book = openpyxl.Workbook()
    for row in (
        ["STYLE", "DESCRIPTION", "XS", "S", "M", "L", "XL", "TOTAL", "MSRP"],
        ["T100", "Knit tee crew", 2, 4, 6, 4, 2, 18, 24], ["T101", "Fleece hoodie", 0, 3, 5, 3, 1, 12, 58],
        [None, None, None, None, None, None, "TOTAL", 30, None],
    ):  # fmt: skip
        book.active.append(row)
    data = io.BytesIO()
    book.save(data)
    done = read_manifest(data.getvalue(), "m.xlsx", {}, "USD")
    assert (done.lines.quantity.tolist(), done.problems.items) == ([18, 12], ())


def test_three_decimals_beside_two_are_asked_about() -> None:
    text = "Item;Qty;Retail\nA mug;2;980\nB mug;1;1.250\nC mug;3;28.50\n"
    assert asked(text, "decimals_are").examples == ("1.250",)
    done = read_manifest(text.encode(), "m.csv", {"decimals_are": "comma", "tag_is": "unit"}, "USD")
    assert done.lines.tag_each.tolist() == [98000, 125000, 2850]


def test_cards_are_refused_in_words_that_help() -> None:
    text = "Item: Electric kettle\nQty: 3\nRetail: $39.99\n\nItem: Blender, 900 W\nQty: 2\nRetail: $89.00\n"
    with pytest.raises(Unreadable, match="not a table: it lists 'Item', 'Qty', 'Retail' below each other"):
        read_manifest(text.encode(), "m.txt", {}, "USD")


@pytest.mark.parametrize(("header", "mark"), [("Cena [zł]", "ZŁ"), ("Retail kr", "KR"), ("RRP (Kč)", "KČ")])
def test_a_currency_in_a_header_is_held_against_the_shops(header: str, mark: str) -> None:
    text = f"Item;Qty;{header}\nA mug;2;9,50\nB mug;1;12,50\n"
    done = read_manifest(text.encode(), "m.csv", {"tag_each": header}, "USD")
    assert any(f"marks its amounts {mark}" in one.what for one in done.cautions)


def test_counts_by_place_can_be_answered_together_and_none_of_them_is_a_hint() -> None:
    text = "Item,Qty East,Qty West,MSRP\nMug,1,1,39.00\nJug,2,3,59.00\nPot,0,1,5.00\n"
    one = asked(text, "quantity")
    assert (one.guess, one.choices[-2].value) == ("", "Qty East + Qty West")
    done = read_manifest(text.encode(), "m.csv", {"quantity": one.choices[-2].value}, "USD")
    assert (done.lines.quantity.tolist(), done.mapping["quantity"]) == ([2, 5, 1], "Qty East + Qty West")
    again = read_manifest(text.encode(), "m.csv", done.mapping, "USD")
    assert again.lines.quantity.tolist() == [2, 5, 1]
    checked_headers(done.mapping, done.headers)
    with pytest.raises(Rejected, match="Qty North"):
        checked_headers({"quantity": "Qty East + Qty North"}, done.headers)


def test_what_was_ordered_and_what_came_are_never_offered_together() -> None:
    text = "Item,Qty Ordered,Qty Shipped,MSRP\nMug,4,2,39.00\nJug,4,4,59.00\nPot,2,0,5.00\n"
    one = asked(text, "quantity")
    assert (one.guess, [choice.value for choice in one.choices]) == (
        "Qty Shipped", ["Qty Ordered", "Qty Shipped", "-"],
    )  # fmt: skip
