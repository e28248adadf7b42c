"""Which price is the tag, and is it one unit's or the line's?  Decided by content, asked where content cannot tell."""

import math

import pytest

from models.intake.cells.price_words import PriceSort, price_sort, says_each, says_line
from models.intake.lines.tag_basis import Basis, basis_of
from models.intake.manifest import ReadManifest, read_manifest
from models.values.errors import NeedsColumns
from models.values.questions import Question

GROWING = "Mug,1,5.00\nMug,2,10.00\nJug,1,3.00\nJug,3,9.00\nPot,1,2.00\nPot,4,8.00\n"
CONSTANT = "Mug,1,5.00\nMug,2,5.00\nJug,1,3.00\nJug,3,3.00\nPot,1,2.00\nPot,4,2.00\n"


def read(text: str, currency: str = "USD", **mapping: str) -> ReadManifest:
    return read_manifest(text.encode(), "load.csv", mapping, currency)


def asked(text: str, **mapping: str) -> dict[str, Question]:
    with pytest.raises(NeedsColumns) as caught:
        read(text, **mapping)
    return {question.key: question for question in caught.value.questions}


@pytest.mark.parametrize("header", ["Retail", "MSRP", "RRP"])
def test_amounts_that_grow_with_the_quantity_are_of_the_line(header: str) -> None:
    done = read(f"Description,Qty,{header}\n{GROWING}")
    assert done.lines.tag_each.tolist() == [500, 500, 300, 300, 200, 200]
    assert done.mapping["tag_line"] == header
    assert "tag_each" not in done.mapping
    assert any("whole line" in caution.what for caution in done.cautions)


def test_what_was_read_is_read_the_same_with_its_own_mapping() -> None:
    text = f"Description,Qty,Retail\n{GROWING}"
    first = read(text)
    assert read(text, **first.mapping).lines.tag_each.tolist() == first.lines.tag_each.tolist()


def test_amounts_that_stay_the_same_are_of_one_unit() -> None:
    done = read(f"Description,Qty,Retail\n{CONSTANT}")
    assert done.lines.tag_each.tolist() == [500, 500, 300, 300, 200, 200]
    assert (done.mapping["tag_each"], done.cautions) == ("Retail", ())


@pytest.mark.parametrize(("header", "rows"), [("Unit Retail", GROWING), ("Total Retail", CONSTANT)])
def test_a_header_that_its_cells_contradict_is_asked(header: str, rows: str) -> None:
    text = f"Description,Qty,{header}\n{rows}"
    assert list(asked(text)) == ["tag_is"]
    unit, line = (read(text, tag_is=answer).lines.tag_each.tolist() for answer in ("unit", "line"))
    assert [one / other for one, other in zip(unit, line, strict=True)] == [1, 2, 1, 3, 1, 4]


def test_swapped_columns_are_turned_and_told() -> None:
    done = read("Description,Qty,Retail,Total Retail\nMug,2,10.00,5.00\nJug,3,9.00,3.00\nPot,4,8.00,2.00\nPan,1,7,7\n")
    assert done.lines.tag_each.tolist() == [500, 300, 200, 700]
    assert (done.mapping["tag_each"], done.mapping["tag_line"]) == ("Total Retail", "Retail")
    assert any("quantity x" in caution.what for caution in done.cautions)
    assert done.problems.items == ()


def test_the_same_amounts_in_both_columns_are_asked() -> None:
    text = "Description,Qty,Unit Retail,Ext. Retail\n" + "".join(f"Mug {i},2,10,10\n" for i in range(4))
    assert list(asked(text)) == ["tag_is"]
    assert read(text, tag_is="line").lines.tag_each.tolist() == [500.0] * 4
    assert read(text, tag_is="unit").lines.tag_each.tolist() == [1000.0] * 4


def test_the_same_amounts_in_both_columns_are_decided_by_goods_in_several_quantities() -> None:
    rows = GROWING.replace("\n", ",X\n").splitlines()
    doubled = "".join(f"{row.removesuffix(',X')},{row.split(',')[2]}\n" for row in rows)
    done = read(f"Description,Qty,Unit Retail,Ext. Retail\n{doubled}")
    assert done.lines.tag_each.tolist() == [500, 500, 300, 300, 200, 200]
    assert any("hold the same amounts" in caution.what for caution in done.cautions)


@pytest.mark.parametrize(("total", "each"), [("22.00", [250, 300, 200]), ("69.00", [500, 900, 800])])
def test_a_heading_that_tells_the_whole_decides(total: str, each: list[float]) -> None:
    done = read(f"Total retail: ${total}\nDescription,Qty,Retail\nMug,2,5.00\nJug,3,9.00\nPot,4,8.00\n")
    assert done.lines.tag_each.tolist() == each


def test_a_sum_below_the_column_only_raises_the_question() -> None:
    """Spreadsheets sum unit tags without a thought, so that it proves nothing."""
    rows = "Mug,2,5.00\nJug,3,9.00\nPot,4,8.00\n"
    assert list(asked(f"Description,Qty,Retail\n{rows}Total,9,22.00\n")) == ["tag_is"]
    assert read(f"Description,Qty,Retail\n{rows}Total,9,69.00\n").lines.tag_each.tolist() == [500, 900, 800]
    assert read(f"Description,Qty,Unit Retail\n{rows}Total,9,22.00\n").lines.tag_each.tolist() == [500, 900, 800]


def test_our_own_names_are_never_asked_about() -> None:
    done = read(f"description,quantity,tag_each\n{GROWING}")
    assert done.lines.tag_each.tolist() == [500, 1000, 300, 900, 200, 800]


def test_several_prices_are_asked_with_their_cells() -> None:
    text = "Description,Qty,Tag,Cost,Asking,Marked-down tag\nMug,1,5.00,1,3,4.00\nJug,3,9.00,1,3,7.00\n"
    question = asked(text)["tag_each"]
    assert [choice.value for choice in question.choices] == ["Tag", "Cost", "Asking", "Marked-down tag", "-"]
    assert "5.00, 9.00" in question.choices[0].words
    assert read(text, tag_each="Marked-down tag").lines.tag_each.tolist() == [400, 700]
    assert all(math.isnan(tag) for tag in read(text, tag_each="-").lines.tag_each)


@pytest.mark.parametrize(
    "headers", ["Price,Cost", "Unit Price,Asking Price", "Price,Sale Price", "Original Retail,Retail", "MSRP,RRP"]
)
def test_prices_that_could_both_be_the_tag_are_asked(headers: str) -> None:
    assert "tag_each" in asked(f"Description,Qty,{headers}\nMug,1,5.00,3.50\nJug,3,9.00,4.25\nPot,1,2.00,1.75\n")


@pytest.mark.parametrize("headers", ["MSRP,Cost", "Unit Retail,Wholesale Cost", "Retail,Asking", "MSRP,Current Price"])
def test_a_tag_that_is_called_one_is_not_asked_about(headers: str) -> None:
    done = read(f"Description,Qty,{headers}\nMug,1,5.00,3.50\nJug,3,9.00,4.25\nPot,1,2.00,1.75\n")
    assert done.lines.tag_each.tolist() == [500, 900, 200]


def test_the_same_tag_twice_and_a_line_tag_beside_it_leave_no_choice() -> None:
    rows = [("Mug", 1, 5.0), ("Jug", 3, 9.0), ("Pot", 2, 2.5)]
    text = "".join(f"{name},{units},{tag},{tag},{units * tag}\n" for name, units, tag in rows)
    done = read(f"Description,Qty,Unit Retail,MSRP,Retail Amount\n{text}")
    assert done.lines.tag_each.tolist() == [500, 900, 250]


@pytest.mark.parametrize(
    ("header", "said"),
    [
        ("RRP inc. VAT", True),
        ("UVP (inkl. MwSt.)", True),
        ("Retail incl. GST", True),
        ("PVP IVA incluido", True),
        ("RRP ex VAT", False),
        ("RRP", False),
    ],
)
def test_a_tax_inside_is_said_and_left_in(header: str, said: bool) -> None:
    done = read(f"Description,Qty,{header}\nMug,1,5.00\nJug,3,9.50\n", "GBP")
    assert done.lines.tag_each.tolist() == [500, 950]
    assert any("VAT inside" in caution.what for caution in done.cautions) == said


def test_a_tax_inside_may_stand_in_the_cells() -> None:
    done = read("Description,Qty,RRP\nMug,1,£5.00 inc VAT\nJug,3,£9.50 inc. VAT\n", "GBP")
    assert done.lines.tag_each.tolist() == [500, 950]
    assert any("VAT inside" in caution.what for caution in done.cautions)


@pytest.mark.parametrize(
    ("header", "sort"),
    [
        ("Orig. Price", PriceSort.ORIGINAL),
        ("Listenpreis", PriceSort.ORIGINAL),
        ("Shelf price", PriceSort.TAG),
        ("Clearance", PriceSort.REDUCED),
        ("Einkaufspreis", PriceSort.COST),
        ("Starting bid", PriceSort.ASKING),
        ("Preis", PriceSort.VAGUE),
        ("Retail %", None),
        ("Discount", None),
    ],
)
def test_words_of_prices(header: str, sort: PriceSort | None) -> None:
    assert price_sort(header) == sort


def test_words_of_units_and_lines() -> None:
    assert [says_line(header) for header in ("Extended MSRP", "UVP gesamt", "Retail")] == [True, True, False]
    assert [says_each(header) for header in ("MSRP ea", "Unit value", "Retail")] == [True, True, False]


@pytest.mark.parametrize(
    ("header", "by_goods", "by_total", "basis"),
    [
        ("Retail", None, None, Basis.UNIT),
        ("Retail", None, Basis.LINE, Basis.LINE),
        ("Retail", Basis.UNIT, Basis.LINE, None),
        ("Total Retail", None, None, Basis.LINE),
        ("Total Retail", Basis.LINE, None, Basis.LINE),
        ("Unit Retail", Basis.UNIT, Basis.LINE, Basis.UNIT),
    ],
)
def test_headers_against_cells(
    header: str, by_goods: Basis | None, by_total: Basis | None, basis: Basis | None
) -> None:
    assert basis_of(header, by_goods, by_total) == basis


def test_what_is_shown_beside_another_question_is_what_was_read() -> None:
    """A form gives it back as the seller's word: a line tag shown as a unit's would then be read as one."""
    rows = "".join(f"{row},{grade}\n" for row, grade in zip(GROWING.splitlines(), "ABABAB", strict=True))
    with pytest.raises(NeedsColumns) as caught:
        read(f"Description,Qty,Retail,Grade\n{rows}")
    assert (caught.value.found["tag_line"], "tag_each" in caught.value.found) == ("Retail", False)


def test_a_mapping_that_the_cells_contradict_is_asked_and_the_answer_settles_it() -> None:
    text = f"Description,Qty,Retail\n{GROWING}"
    assert list(asked(text, tag_each="Retail")) == ["tag_is"]
    assert read(text, tag_each="Retail", tag_is="unit").lines.tag_each[1] == 1000
    assert read(text, tag_each="Retail", tag_is="line").lines.tag_each[1] == 500
    assert read(f"Description,Qty,Retail\n{CONSTANT}", tag_each="Retail").lines.tag_each[1] == 500
