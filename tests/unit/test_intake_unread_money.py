"""A column of money that nobody read is asked about where the file has no tag, and named where it has one."""

import math

import pytest

from models.intake.manifest import ReadManifest, read_manifest
from models.values.errors import NeedsColumns
from models.values.questions import Question


def read(text: str, currency: str = "USD", **mapping: str) -> ReadManifest:
    return read_manifest(text.encode(), "load.csv", mapping, currency)


def asked(text: str, currency: str = "USD", **mapping: str) -> dict[str, Question]:
    with pytest.raises(NeedsColumns) as caught:
        read(text, currency, **mapping)
    return {question.key: question for question in caught.value.questions}


def goods(*headers: str, separator: str = ",", rows: list[str] | None = None) -> str:
    cells = rows or ["Mug,2,9.50", "Jug,3,24.00", "Pot,1,30.00"]
    return "\n".join([separator.join(headers), *(row.replace(",", separator) for row in cells)]) + "\n"


def unread(done: ReadManifest) -> str:
    return " ".join(one.what for one in done.cautions if "not read" in one.what)


def test_a_sales_price_of_the_line_with_tax_inside_is_asked() -> None:
    text = "Artikel;Menge;VK gesamt inkl. MwSt.\nBecher;2;19,00\nKanne;3;72,00\nLampe;1;30,00\n"
    assert list(asked(text, "EUR")) == ["tag_line"]
    done = read(text, "EUR", tag_line="VK gesamt inkl. MwSt.")
    assert done.lines.tag_each.tolist() == [950, 2400, 3000]
    assert any("VAT inside" in caution.what for caution in done.cautions)


def test_prices_that_multiply_out_are_of_unit_and_line() -> None:
    rows = "".join(f"Becher {n};{n};9,50;{str(9.5 * n).replace('.', ',')}0\n" for n in range(2, 7))
    done = read(f"Artikel;Menge;VK;VK gesamt\n{rows}", "EUR")
    assert done.lines.tag_each.tolist() == [950] * 5
    assert (done.mapping["tag_each"], done.mapping["tag_line"]) == ("VK", "VK gesamt")


@pytest.mark.parametrize(
    "header", ["Cost", "EK netto", "Total", "Amount", "Cena", "VK brutto", "Bid", "Opening bid", "Our price"]
)
def test_any_price_alone_is_asked(header: str) -> None:
    question = next(iter(asked(goods("Item", "Qty", header)).values()))
    assert header in [choice.value for choice in question.choices]
    assert "Qty" not in [choice.value for choice in question.choices]
    assert question.key in ("tag_each", "tag_line")


@pytest.mark.parametrize(
    ("header", "seems"),
    [
        ("EK netto", "a cost"),
        ("Est. value", "an estimate"),
        ("Zork", "not known what"),
        ("Freight", "postage"),
        ("Sales tax", "a tax"),
        ("Total cost", "a cost of the whole line"),
    ],
)
def test_beside_a_tag_it_is_named_with_what_it_seems_to_be(header: str, seems: str) -> None:
    text = goods("Item", "Qty", "Retail", header, rows=["Mug,2,9.50,3.10", "Jug,3,24.00,7.25", "Pot,1,30.00,8.40"])
    done = read(text)
    assert done.lines.tag_each.tolist() == [950, 2400, 3000]
    assert f"'{header}' ({seems})" in unread(done)


def test_what_repeats_or_multiplies_a_tag_says_so() -> None:
    rows = ["Mug,2,9.50,19.00,9.50", "Jug,3,24.00,72.00,24.00", "Pot,1,30.00,30.00,30.00", "Pan,4,5.00,20.00,5.00"]
    done = read(goods("Item", "Qty", "Unit Retail", "Bid all", "MSRP", rows=rows))
    assert "'Bid all' (quantity x 'Unit Retail')" in unread(done)
    assert "'MSRP' (the same as 'Unit Retail')" in unread(done)


@pytest.mark.parametrize("header", ["Weight kg", "Length", "Rating", "Discount %"])
def test_measures_are_no_money(header: str) -> None:
    text = goods("Item", "Qty", "Retail", header, rows=["Mug,2,9.50,3.10", "Jug,3,24.00,7.25", "Pot,1,30.00,8.40"])
    assert unread(read(text)) == ""


@pytest.mark.parametrize(
    "header", ["Value", "Est. value", "Estimated value", "Est. resale price", "Schätzwert", "Price est."]
)
def test_values_and_estimates_are_asked_alike(header: str) -> None:
    assert list(asked(goods("Item", "Qty", header))) == ["tag_each"]
    assert read(goods("Item", "Qty", header), tag_each=header).lines.tag_each.tolist() == [950, 2400, 3000]
    assert all(map(math.isnan, read(goods("Item", "Qty", header), tag_each="-").lines.tag_each))


@pytest.mark.parametrize("header", ["Est. Retail", "Estimated MSRP", "Estimated Retail Value"])
def test_estimates_of_the_tag_are_tags_and_told(header: str) -> None:
    done = read(goods("Item", "Qty", header))
    assert done.lines.tag_each.tolist() == [950, 2400, 3000]
    assert any(f"'{header}' are estimates" in one.what for one in done.cautions)
    beside = goods("Item", "Qty", header, "Retail", rows=["Mug,2,9.50,11", "Jug,3,24.00,27"])
    assert list(asked(beside)) == ["tag_each"]


def test_a_line_price_chosen_for_the_tag_of_one_unit_is_asked_about() -> None:
    text = goods("Item", "Qty", "EK gesamt")
    assert list(asked(text)) == ["tag_each"]
    assert list(asked(text, tag_each="EK gesamt")) == ["tag_is"]
    assert read(text, tag_each="EK gesamt", tag_is="line").lines.tag_each.tolist() == [475, 800, 3000]


def test_three_digits_after_a_point_are_asked_once_for_the_file() -> None:
    text = goods("Item", "Qty", "Retail", "Ext. Retail", rows=["Mug,2,12.345,24.690", "Jug,3,24,72"])
    question = asked(text)["decimals_are"]
    assert "12,345" in question.words
    assert "a little over 12" in question.words
    assert read(text, decimals_are="comma").lines.tag_each.tolist() == [1234500, 2400]
    done = read(text, decimals_are="point")
    assert done.lines.tag_each.tolist() == [1234, 2400]
    assert ("12.345", "rounded to 12.34") in [(one.value, one.done) for one in done.problems.items]


def test_three_digits_after_a_comma_are_asked_where_commas_stand_before_cents() -> None:
    text = "Item;Qty;Retail\nMug;2;1,250\nJug;3;24,00\n"
    question = asked(text)["decimals_are"]
    assert [(choice.value, choice.words) for choice in question.choices] == [
        ("comma", "a little over 1: the comma stands before the decimals"),
        ("point", "1,250: the comma stands between the thousands"),
    ]
    assert read(text, decimals_are="point").lines.tag_each.tolist() == [125000, 2400]
    assert read(text, decimals_are="comma").lines.tag_each.tolist() == [125, 2400]


def test_an_answered_question_stays_in_the_mapping() -> None:
    done = read(goods("Item", "Qty", "Retail", rows=["Mug,2,12.345", "Jug,3,24"]), decimals_are="comma")
    assert done.mapping["decimals_are"] == "comma"


def test_numbers_under_no_header_are_asked_about_where_nothing_is_the_tag() -> None:
    questions = asked("Mug,2,30\nJug,4,15\nPot,1,45\nPan,3,99\n")
    assert [choice.value for choice in questions["tag_each"].choices] == ["column C", "-"]
    done = read("Mug,2,30\nJug,4,15\nPot,1,45\n", description="column A", quantity="column B", tag_each="column C")
    assert done.lines.tag_each.tolist() == [3000, 1500, 4500]


@pytest.mark.parametrize("price", ["30", "30.00 ₪", "٣٠"])
def test_numbers_under_a_header_of_another_script_are_asked_about(price: str) -> None:
    text = f"תיאור,כמות,מחיר\nמנורה גדולה,2,{price}\nשעון קיר,4,{price}\n"
    assert {"tag_each"} <= set(asked(text))
    assert "tag_each" in asked(text, description="תיאור", quantity="כמות")
    done = read(text, "ILS", description="תיאור", quantity="כמות", tag_each="מחיר")
    assert (done.lines.tag_each.tolist(), unread(done)) == ([3000, 3000], "")


def test_numbers_under_an_unknown_header_are_named_where_nothing_is_the_tag() -> None:
    done = read(goods("Item", "Qty", "Zork", rows=["Mug,2,9", "Jug,3,24"]))
    assert "columns that may hold it were not read: 'Zork' (9, 24)" in unread(done)
    assert not unread(read(goods("Item", "Qty", "Line", rows=["Mug,2,9", "Jug,3,24"])))
    assert not unread(read(goods("Item", "Qty", "Zork", rows=["Mug,2,9", "Jug,3,24"]), tag_each="-"))
