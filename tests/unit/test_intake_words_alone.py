"""Words alone among lines that all carry a quantity, tag or code are no goods; where many stand so, they are."""

from typing import Any

import pytest
from manifest_reading import goods, read

from models.intake.shape.left_out import MAY_BE_GOODS

HEADER = ["Item Description", "Qty", "Unit Retail", "Brand", "SKU"]
LINES: list[list[Any]] = [
    [f"{name} {number}", number + 2, 9.5 + number, "Orrin", f"k-{number}"]
    for number, name in enumerate(["Blue mug", "Tin kettle", "Floor mat", "Desk lamp", "Wall clock", "Oak shelf"])
]


def alone(words: str) -> list[Any]:
    return [words, "", "", "", ""]


@pytest.mark.parametrize("words", ["Kitchen and dining", "with lid and carrying strap", "Seller pays no freight"])
@pytest.mark.parametrize("at", [0, 3, 6])
def test_words_alone_are_set_aside_and_named(words: str, at: int) -> None:
    done = read(HEADER, *LINES[:at], alone(words), *LINES[at:])
    assert [name for _, name, _ in goods(done)] == [line[0] for line in LINES]
    assert [(one.row, one.value, one.reason) for one in done.problems.items] == [(at + 2, words, MAY_BE_GOODS)]


def test_a_code_alone_makes_goods() -> None:
    done = read(HEADER, *LINES, ["Garden hose", "", "", "", "k-9"])
    assert len(goods(done)) == len(LINES) + 1


def test_words_alone_are_goods_where_many_stand_so() -> None:
    done = read(HEADER, *LINES[:4], alone("Tea towel"), alone("Glass jar"), alone("Brass bell"))
    assert len(goods(done)) == 7


def test_words_alone_are_goods_where_other_lines_tell_no_more() -> None:
    done = read(
        ["Item Description", "Qty", "Color", "Brand"],
        *([line[0], "", "Red", line[3]] for line in LINES[:3]),
        alone("Vase")[:4],
    )
    assert len(goods(done)) == 4


def test_a_state_alone_heads_the_goods_below_it() -> None:
    done = read(HEADER, *LINES[:2], alone("Open box items"), *LINES[2:])
    assert done.lines.condition_said.tolist() == ["", "", *["Open box"] * 4]


def test_a_pallet_between_signs_is_a_heading() -> None:
    done = read(HEADER, alone("Pallet 1"), *LINES[:3], alone("--- Pallet 2 ---"), *LINES[3:])
    assert len(goods(done)) == len(LINES)
    assert not done.problems.items
