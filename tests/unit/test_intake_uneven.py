"""Rows with more or fewer cells than the header: no cell is read as what its neighbour is, no cents are dropped."""

import pytest

from models.intake.manifest import ReadManifest, read_manifest

UNIT = {"tag_is": "unit"}


def read(text: str, mapping: dict[str, str] | None = None) -> ReadManifest:
    return read_manifest(text.encode(), "m.csv", UNIT | (mapping or {}), "USD")


def asides(done: ReadManifest) -> list[int]:
    return [one.row for one in done.problems.items if one.done == "set aside" and "than the header" in one.reason]


@pytest.mark.parametrize("row", ["Lamp,2,59.00", "Lamp,59.00", "2,Ondivo,Lamp"])
def test_a_row_whose_cells_have_moved_is_set_aside(row: str) -> None:
    done = read(f"Item,Brand,Qty,MSRP\nKettle,Quellmar,3,39.00\n{row}\nVase,Ondivo,2,12.00\n")
    assert asides(done) == [3]
    assert done.lines.quantity.tolist() == [3, 2]


def test_a_row_that_lacks_blanks_at_its_end_is_a_line() -> None:
    done = read("Item,Qty,MSRP,Brand,Note\nKettle,3,39.00,Quellmar,x\nLamp,2,59.00\nVase,2\n")
    assert done.lines.quantity.tolist() == [3, 2, 2]
    assert asides(done) == []


def test_amounts_that_their_comma_has_cut_are_put_together_and_told() -> None:
    done = read(
        "Description,Qty,Price each,Condition\nStuhl,3,12,50,neu\nTisch,1,149,00,neu\nRegal,4,59,95,gebraucht\n",
        {"tag_each": "Price each"},
    )
    assert done.lines.tag_each.tolist() == [1250, 14900, 5995]
    assert done.lines.condition_said.tolist() == ["neu", "neu", "gebraucht"]
    assert any("'Price each'" in one.what and "3 rows" in one.what for one in done.cautions)


def test_one_amount_that_is_cut_among_others_is_set_aside() -> None:
    done = read("Item,Qty,MSRP\nKettle,3,39.00\nLamp,2,59,95\nVase,2,12.00\nRug,1,5.00\n")
    assert asides(done) == [3]
    assert done.lines.tag_each.tolist() == [3900, 1200, 500]


def test_more_words_behind_the_last_column_leave_a_line() -> None:
    done = read("Item,Qty,MSRP\nKettle,3,39.00\nLamp,2,59.95,scratched\nVase,2,12.00\n")
    assert done.lines.tag_each.tolist() == [3900, 5995, 1200]
