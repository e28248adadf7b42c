"""Goods below words that say they are not in the lot: a total decides, else words, and all are named."""

from collections.abc import Sequence

import pytest
from intake_files import delimited

from models.intake.manifest import ReadManifest, read_manifest
from models.intake.shape.gone_names import struck_in_name
from models.intake.shape.gone_sections import BELOW
from models.intake.shape.gone_words import Gone, gone_below, there_below

MUG, JUG, POT, PAN = ["Mug", 2, 9], ["Jug", 4, 3], ["Pot", 3, 20], ["Pan", 5, 30]


def read(*rows: Sequence[object]) -> ReadManifest:
    return read_manifest(delimited([["Description", "Qty", "Retail"], *rows]), "m.csv", {"tag_is": "unit"}, "USD")


def alone(words: str) -> list[object]:
    return [words, "", ""]


def kept(done: ReadManifest) -> list[str]:
    return list(done.lines.description.tolist())


@pytest.mark.parametrize(
    "words",
    ["ITEMS REMOVED FROM LOAD", "Not included:", "Missing from the load:", "Shorted items", "Withdrawn goods (2 units)",
     "Items sold separately (not in this lot)", "The following items were not shipped", "Nicht enthalten:",
     "Articles manquants", "PALLET 2 - NOT INCLUDED"],
)  # fmt: skip
def test_goods_below_such_words_are_set_aside_and_named(words: str) -> None:
    done = read(MUG, JUG, alone(words), POT, PAN)
    assert kept(done) == ["Mug", "Jug"]
    assert [(one.row, one.reason) for one in done.problems.items] == [(5, BELOW), (6, BELOW)]
    [told] = [one.what for one in done.cautions if "not in the lot" in one.what]
    assert told.startswith(f"2 rows below '{words}' (row 4) were set aside")


@pytest.mark.parametrize(
    "words",
    ["Missing pieces", "Cancelled orders", "Sold as is", "Missing from manifest", "Shorts", "Removable covers",
     "Nothing removed", "Included"],
)  # fmt: skip
def test_other_words_are_no_such_heading(words: str) -> None:
    assert (gone_below(words), there_below(words)) == (Gone.NO, False)


@pytest.mark.parametrize("end", ["Items in this lot", "KITCHEN", "Kitchen:", "Included items", "PALLET 2"])
def test_another_heading_ends_them(end: str) -> None:
    assert kept(read(alone("Items not in this lot"), POT, alone(end), MUG, JUG)) == ["Mug", "Jug"]


@pytest.mark.parametrize("end", [["Description", "Qty", "Retail"], [], alone("Page 2 of 3")])
def test_a_header_a_blank_row_or_a_note_does_not(end: list[object]) -> None:
    assert kept(read(MUG, JUG, alone("Not in this lot:"), POT, end, PAN)) == ["Mug", "Jug"]


@pytest.mark.parametrize(
    ("words", "total", "there"),
    [
        ("Removed items", 14, True), ("Removed items", 6, False), ("Removed items", 9, False),
        ("REMOVED", 14, True), ("REMOVED", 6, False), ("REMOVED", 9, True), ("VOID", 6, False),
    ],
)  # fmt: skip
@pytest.mark.parametrize("label", ["Total", "Grand total"])
def test_the_files_own_total_decides_where_it_agrees(words: str, total: int, there: bool, label: str) -> None:
    done = read(MUG, JUG, alone(words), POT, PAN, [label, total, ""])
    assert kept(done) == (["Mug", "Jug", "Pot", "Pan"] if there else ["Mug", "Jug"])
    [told] = [one.what for one in done.cautions if "not in the lot" in one.what]
    assert ("own total" in told) == (total != 9)
    assert any("does not agree" in one.what for one in done.cautions) == (total == 9)


def test_money_decides_where_the_total_counts_no_units() -> None:
    counted = read(MUG, JUG, alone("Removed items"), POT, ["Total", "", 90])
    assert kept(counted) == ["Mug", "Jug", "Pot"]
    assert kept(read(MUG, JUG, alone("Removed"), POT, ["Total", "", 30])) == ["Mug", "Jug"]


def test_a_total_above_them_ends_the_goods_and_their_own_total_proves_nothing() -> None:
    done = read(MUG, JUG, ["TOTAL", 6, 30], alone("Shorted items"), POT, PAN, ["Total", 8, ""])
    assert kept(done) == ["Mug", "Jug"]
    assert [one.units for one in done.problems.stated] == [6]
    assert not any("does not agree" in one.what for one in done.cautions)


def test_a_sum_without_words_above_them_is_a_total() -> None:
    done = read(MUG, JUG, ["Alles", 6, 30], alone("Shorted items"), POT)
    assert kept(done) == ["Mug", "Jug"]
    assert [one.units for one in done.problems.stated] == [6]


def test_where_nothing_else_is_left_the_goods_are_kept_and_it_is_said() -> None:
    done = read(alone("Removed items"), MUG, JUG)
    assert kept(done) == ["Mug", "Jug"]
    assert any("may mean that 2 rows below are not in the lot" in one.what for one in done.cautions)


def test_a_sum_without_words_is_told_of_the_goods_that_are_there() -> None:
    done = read(MUG, JUG, alone("Not in this lot:"), POT, alone("In this lot:"), PAN, ["Alles", 11, 180])
    assert kept(done) == ["Mug", "Jug", "Pan"]
    assert [one.units for one in done.problems.stated] == [11]


@pytest.mark.parametrize(
    "name",
    ["Clock *** REMOVED ***", "VOID", "Clock - CANCELLED", "REMOVED - Clock", "Clock (not in this lot)", "~~Clock~~",
     "Clock: removed from load", "STORNIERT", "Deleted", "VOID: Clock", "Short-shipped: Clock", "Not in lot - Clock"],
)  # fmt: skip
def test_a_name_that_says_so_itself_strikes_its_line_out(name: str) -> None:
    done = read(MUG, [name, 1, 7], JUG)
    assert kept(done) == ["Mug", "Jug"]
    assert [(one.row, one.value, one.reason) for one in done.problems.items] == [
        (3, name, "struck out by the file itself")
    ]


@pytest.mark.parametrize("name", ["Laptop, disk - removed", "LAPTOP DISK - REMOVED", "Charger: not included"])
def test_a_name_that_may_speak_of_a_part_is_kept_and_named(name: str) -> None:
    done = read(MUG, [name, 1, 7], JUG)
    assert kept(done) == ["Mug", name, "Jug"]
    assert any("(row 3)" in one.what and "not in the lot" in one.what for one in done.cautions)


@pytest.mark.parametrize(
    "name", ["Lamp - shade not included", "Hair removal kit", "Pulled pork claws", "Void filler paper", "Avoid game"]
)
def test_goods_that_sound_alike_are_lines(name: str) -> None:
    assert struck_in_name(name) is Gone.NO
