"""Conditions beside the condition column: columns of yes and no, and descriptions that say broken."""

import pytest
from manifest_reading import read, said

from models.values.conditions import name_of

ASKING = ["Item", "Qty", "Retail", "Tested (Y/N)", "Powers on?"]


def conditions(done) -> list[str | None]:
    return [name_of(code) for code in done.lines.condition.tolist()]


def test_columns_of_yes_and_no_are_the_condition_where_no_other_tells_it() -> None:
    done = read(
        ASKING,
        ["Fan", 1, 30, "Y", "Y"],
        ["Mixer", 1, 30, "Y", "N"],
        ["Lamp", 1, 30, "N", ""],
        ["Clock", 1, 30, "Y", ""],
    )
    assert conditions(done) == ["works", "salvage", "untested", None]
    assert "taken from the answers under 'Tested (Y/N)', 'Powers on?'" in said(done)
    working = read(["Item", "Qty", "Working"], ["Fan", 1, "Yes"], ["Mixer", 1, "No"], ["Lamp", 1, ""])
    assert conditions(working) == ["works", "salvage", None]


def test_answers_that_tell_of_worse_than_the_condition_are_told() -> None:
    header = ["Item", "Qty", "Condition", "Working"]
    done = read(header, ["Fan", 1, "New", "no"], ["Mixer", 1, "New", "yes"], ["Lamp", 1, "Broken", "no"])
    assert conditions(done) == ["sealed", "sealed", "salvage"]
    assert "The answers under 'Working' tell of worse goods than the condition in 2 rows (2, 3)." in said(done)


@pytest.mark.parametrize("cells", [("big", "small"), ("2", "1"), ("", "")])
def test_a_column_of_more_than_answers_is_none(cells: tuple[str, str]) -> None:
    done = read(["Item", "Qty", "Working"], *(["Fan", 1, cell] for cell in cells))
    assert conditions(done) == [None, None]
    assert "answers" not in said(done)


@pytest.mark.parametrize(
    "words",
    [
        "Mirror BROKEN",
        "Clock - for parts only",
        "Lamp cracked, does not work",
        "Fan SALVAGE",
        "Phone (defective)",
        "Mixer *** not working ***",
    ],
)
@pytest.mark.parametrize("condition", ["New", ""])
def test_a_description_that_says_broken_is_told(words: str, condition: str) -> None:
    done = read(["Item", "Qty", "Condition"], [words, 1, condition], ["Mug", 1, "New"])
    assert done.lines.condition.tolist() == [0 if condition else -1, 0]
    assert f"The words of 1 row say that it is broken, its condition does not: '{words}' (row 2)." in said(done)
    assert "broken" not in said(read(["Item", "Qty", "Condition"], [words, 1, "for parts"], ["Mug", 1, "New"]))


@pytest.mark.parametrize(
    "words",
    ["Shampoo for damaged hair", "Broken-in leather glove", "Bin for parts", "Unbroken seal", "Salvage Beach (DVD)"],
)
def test_goods_that_are_called_so_are_not_told(words: str) -> None:
    assert "broken" not in said(read(["Item", "Qty", "Condition"], [words, 1, "New"], ["Mug", 1, "New"]))
