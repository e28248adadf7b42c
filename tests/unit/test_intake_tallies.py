"""Sums among the goods are told by their numbers, in any language; no goods are lost to them."""

import time

import pytest
from intake_files import delimited

from models.intake.grid import Grid
from models.intake.manifest import ReadManifest, read_manifest
from models.intake.shape.rows import sort_rows

GOODS = (["Kettle", 3, 39], ["Lamp", 2, 59])
NAMES = (
    "Grand Total (USD)", "Total P1", "Total all", "Total (2 items)", "Total\n(all)", "Gesamtmenge", "Endsumme",
    "Summe Palette 1", "Suma total", "Totale lotto", "Totaal pallet 1", "Eindtotaal", "Overall", "Count", "*** END ***",
    "END OF LIST", 'סה"כ', "Zusammen", "Alles bij elkaar",
)  # fmt: skip


def read(*rows: list[object], header: tuple[str, ...] = ("Description", "Qty", "Retail")) -> ReadManifest:
    return read_manifest(delimited([list(header), *rows]), "m.csv", {"tag_is": "unit"}, "USD")


def goods(done: ReadManifest) -> list[str]:
    return list(done.lines.description.tolist())


@pytest.mark.parametrize("name", NAMES)
def test_a_total_is_told_by_its_numbers_whatever_its_name(name: str) -> None:
    done = read(*GOODS, [name, 5, "235.00"])
    assert goods(done) == ["Kettle", "Lamp"]
    assert [(one.units, one.tags) for one in done.problems.stated] == [(5, 23500)]
    assert not [one for one in done.cautions if "does not agree" in one.what]


def test_a_sum_without_a_known_word_is_named() -> None:
    done = read(*GOODS, ["Zusammen", 5, "235.00"])
    assert any("'Zusammen 5 235.00' (row 4)" in one.what for one in done.cautions)
    done = read(*GOODS, ["End table oak", 5, "235.00"])
    assert any("'End table oak 5 235.00' (row 4)" in one.what for one in done.cautions)
    assert not [one for one in read(*GOODS, ["Total all", 5, "235.00"]).cautions if "read as a total" in one.what]


def test_pallets_and_the_whole() -> None:
    done = read(["Kettle", 3, 39], ["Total P1", 3, 117], ["Lamp", 2, 59], ["Total P2", 2, 118], ["Total all", 5, 235])
    assert goods(done) == ["Kettle", "Lamp"]
    assert [(one.units, one.covers) for one in done.problems.stated] == [(3, (2, 2)), (2, (4, 4)), (5, None)]
    assert not [one for one in done.cautions if "does not agree" in one.what]


@pytest.mark.parametrize("name", ["Endsumme", "Eindtotaal", "Alles"])
def test_the_sum_of_a_column_of_lines(name: str) -> None:
    header = ("Artikel", "Menge", "UVP", "UVP gesamt")
    rows = [["Kessel", 3, 39, 117], ["Lampe", 2, 59, 118], ["Summe Palette 1", 5, "", 235], ["Uhr", 4, 10, 40]]
    done = read(*rows, [name, 9, "", 275], header=header)
    assert goods(done) == ["Kessel", "Lampe", "Uhr"]
    assert [one.units for one in done.problems.stated] == [5, 9]


@pytest.mark.parametrize("total", ["Total", "Grand total"])
def test_goods_called_like_a_sub_total_are_a_line_where_a_total_counts_them(total: str) -> None:
    done = read(*GOODS, ["Subtotal slimming brief", 2, 20], ["Mug", 1, 5], [total, 8, 280])
    assert goods(done) == ["Kettle", "Lamp", "Subtotal slimming brief", "Mug"]
    done = read(*GOODS, ["Subtotal kitchen", 5, 235], ["Mug", 1, 5], [total, 6, 240])
    assert goods(done) == ["Kettle", "Lamp", "Mug"]


def test_a_total_that_agrees_in_one_number_alone_is_set_aside_and_named() -> None:
    done = read(*GOODS, ["Overall", 5, "240.00"])
    assert goods(done) == ["Kettle", "Lamp"]
    assert [(one.row, one.done) for one in done.problems.items] == [(4, "set aside")]


@pytest.mark.parametrize("name", ["Total due (incl. fees)", "Summe aller Positionen", "Totale merce"])
def test_a_name_like_a_total_at_the_end_is_no_line(name: str) -> None:
    done = read(*GOODS, [name, 1, "450.25"])
    assert goods(done) == ["Kettle", "Lamp"]
    assert [one.row for one in done.problems.items] == [4]


@pytest.mark.parametrize(
    "row",
    [
        ["Total gym", 2, 99, "used", ""], ["Set", 5, 235, "", "K-9"], ["Count Dracula", 1, 9, "", ""],
        ["Set", 5, 235, "new", ""],
    ],
)  # fmt: skip
def test_goods_stay_goods(row: list[object]) -> None:
    rows = [[*one, "used", sku] for one, sku in zip(GOODS, ("K-1", "K-2"), strict=True)]
    done = read(*rows, row, header=("Description", "Qty", "Retail", "Condition", "SKU"))
    assert goods(done) == ["Kettle", "Lamp", row[0]]


def test_lines_at_one_price_are_goods() -> None:
    done = read_manifest(
        b"Description,Qty,Retail\nMug,1,2.00\nJug,1,2.00\nPot,2,4.00\nCup,4,8.00\n", "m.csv", {}, "USD"
    )
    assert goods(done) == ["Mug", "Jug", "Pot", "Cup"]


def test_counts_alone_tell_no_sum_where_nothing_else_is_told() -> None:
    done = read_manifest(delimited([["Description", "Qty"], ["Mug", 1], ["Jug", 1], ["Pot", 2]]), "m.csv", {}, "USD")
    assert goods(done) == ["Mug", "Jug", "Pot"]


def test_a_count_without_money_below_goods_with_money_is_set_aside() -> None:
    done = read(*GOODS, ["Zusammen", 5, ""])
    assert (goods(done), [one.row for one in done.problems.items]) == (["Kettle", "Lamp"], [4])


def test_units_times_their_own_tag_are_goods() -> None:
    header = ("Description", "Qty", "Unit Retail", "Ext Retail")
    done = read(["Mug", 1, 5, 5], ["Jug", 1, 5, 5], ["Plate", 2, 5, 10], header=header)
    assert goods(done) == ["Mug", "Jug", "Plate"]


def test_a_long_list_of_pallets_is_searched_in_one_go() -> None:
    rows: list[list[object]] = [["Item", "Qty", "Retail"]]
    for pallet in range(400):
        rows += [[f"Mug {pallet} {line}", "2", "9.50"] for line in range(50)]
        rows.append([f"Summe Palette {pallet}", "100", "950.00"])
    grid = Grid("", [list(row) for row in rows], 1)
    begun = time.perf_counter()
    done = sort_rows(grid, range(1), rows[0], {"description": 0, "quantity": 1, "tag_each": 2}, "description")
    assert (len(done.data), len(done.totals)) == (20_000, 400)
    assert time.perf_counter() - begun < 2


def test_the_sum_that_ends_a_long_list_needs_no_known_word() -> None:
    rows: list[list[object]] = [["Item", "Qty", "Retail"], *([f"Mug {line}", "2", "9.50"] for line in range(20_000))]
    rows.append(["Zusammen", "40000", "380000.00"])
    grid = Grid("", [list(row) for row in rows], 1)
    done = sort_rows(grid, range(1), rows[0], {"description": 0, "quantity": 1, "tag_each": 2}, "description")
    assert (len(done.data), done.totals, done.by_numbers) == (20_000, (20_001,), (20_001,))
