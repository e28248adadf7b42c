"""How many lines a caution means: all of them, none, or a lot's only line."""

import pytest

from models.appraisal.lines_words import listed_too_late, part_of, sold_before, unknown_condition


@pytest.mark.parametrize(
    ("count", "total", "said"),
    [(2, 3, "2 of 3 lines"), (3, 3, "all 3 lines"), (1, 1, "the only line"), (1500, 1500, "all 1,500 lines")],
)
def test_a_part_of_the_lines(count: int, total: int, said: str) -> None:
    assert part_of(count, total) == said


@pytest.mark.parametrize(
    ("count", "total", "said"),
    [
        (0, 1, "You have never sold the lot's only product before; its price rests on goods like it."),
        (1, 1, "The only line is a product you have sold before."),
        (0, 3, "None of the 3 lines is a product you have sold before; all rest on goods like them."),
        (1, 3, "1 of 3 lines is a product you have sold before; the others rest on goods like them."),
        (2, 3, "2 of 3 lines are products you have sold before; the others rest on goods like them."),
        (3, 3, "All 3 lines are products you have sold before."),
    ],
)
def test_items_sold_before(count: int, total: int, said: str) -> None:
    assert sold_before(count, total).what == said


@pytest.mark.parametrize(
    ("elsewhere", "untold", "said"),
    [
        (1, 0, "2 of 3 lines are products you have sold before, 1 of them in another condition than you sold; the"),
        (0, 2, "2 of 3 lines are products you have sold before, all of them without a condition that we know; the"),
        (1, 1, "before, 1 of them in another condition than you sold, 1 of them without a condition that we know; the"),
    ],
)
def test_products_in_a_state_that_own_sales_say_less_of(elsewhere: int, untold: int, said: str) -> None:
    assert said in sold_before(2, 3, elsewhere, untold).what


def test_an_only_product_in_another_state() -> None:
    said = "The only line is a product you have sold before, but in another condition than you sold."
    assert sold_before(1, 1, 1).what == said


def test_the_others_agree_with_their_number() -> None:
    assert unknown_condition(1, 1).what.endswith("the only line. It counts as untested goods.")
    assert listed_too_late(1, 4).what.startswith("1 of 4 lines would be listed too late")
    assert listed_too_late(4, 4).what.startswith("All 4 lines would")
