"""Cells that lost their value, counts that stand in another cell, and whose column a problem names."""

import pytest

from models.intake.history import read_history
from models.intake.manifest import ReadManifest, read_manifest


def read(text: str, **mapping: str) -> ReadManifest:
    return read_manifest(text.encode(), "load.csv", mapping, "USD")


def told(done: ReadManifest) -> list[tuple[int, str, str, str]]:
    return [(one.row, one.column, one.value, one.done) for one in done.problems.items]


@pytest.mark.parametrize("lost", ["#REF!", "#N/A", "#VALUE!", "#WERT!", "#DIV/0!", "#NAME?"])
def test_a_lost_formula_is_no_goods(lost: str) -> None:
    done = read(f"Item,Qty,Retail\nMug,2,5.00\n{lost},3,6.00\nJug,1,7.00\n")
    assert done.lines.description.tolist() == ["Mug", "Jug"]
    assert told(done) == [(3, "description", lost, "set aside")]
    assert "formula" in done.problems.items[0].reason


def test_a_lost_formula_in_other_columns_is_blank_and_named() -> None:
    done = read("Item,Brand,SKU,Qty,Retail\nMug,#REF!,#N/A,2,5.00\nJug,Northkiln,K-1,1,7.00\n")
    assert (done.lines.brand.tolist(), done.lines.sku.tolist()) == (["", "Northkiln"], ["", "K-1"])
    assert {(row, column) for row, column, *_ in told(done)} == {(2, "brand"), (2, "sku")}


def test_a_lost_title_of_a_sale_is_set_aside() -> None:
    done = read_history(b"Title,Sold price,Date sold\n#REF!,5.00,2026-05-01\nMug,6.00,2026-05-02\n", "s.csv", {}, "USD")
    assert done.sales.title.tolist() == ["Mug"]
    assert (done.problems.items[0].row, done.problems.set_aside) == (2, 1)


@pytest.mark.parametrize(
    ("words", "goods", "count"),
    [
        ("Asst knit tops 24M-5T | 96", "Asst knit tops 24M-5T", 96),
        ("Blue mug | Qty: 12", "Blue mug", 12),
        ("Blue mug - qty 12", "Blue mug", 12),
        ("Blue mug | 12 pcs", "Blue mug", 12),
    ],
)
def test_a_blank_quantity_whose_count_ends_the_description(words: str, goods: str, count: int) -> None:
    done = read(f"Item,Qty,Retail\n{words},,5.00\nJug,3,7.00\n")
    assert (done.lines.description.tolist(), done.lines.quantity.tolist()) == ([goods, "Jug"], [count, 3])
    assert told(done) == [(2, "quantity", "", f"counted as {count}")]


@pytest.mark.parametrize("words", ["Mug set of 12", "Batteries AA 24 pack", "Lamp 60 W", "Paint no. 12"])
def test_other_numbers_are_no_count(words: str) -> None:
    done = read(f"Item,Qty,Retail\n{words},,5.00\nJug,3,7.00\n")
    assert (done.lines.description[0], done.lines.quantity[0]) == (words, 1)


def test_a_stated_quantity_wins_over_the_description() -> None:
    done = read("Item,Qty,Retail\nMug | 96,4,5.00\nJug,3,7.00\n")
    assert (done.lines.quantity.tolist(), done.problems.items) == ([4, 3], ())


def test_counts_without_a_column_are_read_where_most_rows_have_them() -> None:
    done = read("Item,Retail\nMug | 96,5.00\nJug | 48,7.00\nPot | 12,8.00\n")
    assert done.lines.quantity.tolist() == [96, 48, 12]
    assert [row for row, *_ in told(done)] == [2, 3, 4]
    assert read("Item,Retail\nMug | 96,5.00\nJug,7.00\nPot,8.00\n").lines.quantity.tolist() == [1, 1, 1]


def test_a_problem_names_the_files_own_column_where_ours_is_none_of_the_usual() -> None:
    done = read("Item,Cases,Units per case,Retail\nMug,2,foo,5.00\nJug,3,4,6.00\n", quantity_is="Units per case")
    assert told(done) == [(2, "Units per case", "foo", "set aside")]


def test_a_weight_no_truck_carries_is_blank_and_named() -> None:
    done = read("Item,Qty,Retail,Weight kg\nMug,2,5.00,99999999999\nJug,3,6.00,1.5\n")
    assert told(done) == [(2, "weight_kg", "99999999999", "left blank")]


def test_counts_by_condition_beside_the_quantity_are_told() -> None:
    text = "Product,New,Open box,For parts,Unit retail\nToaster,4,2,1,39.99\nAir pump,1,5,0,24.00\n"
    done = read_manifest(text.encode(), "m.csv", {"quantity": "New"}, "USD")
    said = " ".join(one.what for one in done.cautions)
    assert "'Open box', 'For parts'" in said
    assert "only what 'New' counts was read" in said
