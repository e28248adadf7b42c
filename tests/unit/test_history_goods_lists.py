"""Titles that list several goods at one price are set aside and named; a count of one thing leaves its title."""

import pytest

from models.intake.history import ReadHistory, read_history
from models.intake.sales.goods_lists import listed_goods


def read(*titles: str) -> ReadHistory:
    rows = (f'O-{n};"{title}";{10 + n}.00;2026-03-0{n + 1}' for n, title in enumerate(titles))
    text = "\n".join(["Order;Item;Sold price;Sold on", *rows])
    return read_history(text.encode(), "sold.csv", {}, "USD")


def test_a_counted_list_tells_no_price_of_its_goods() -> None:
    done = read("2 x Brass mug, 1 x Wool mat", "Oak jug, dark", "Tin pot; Tin pan", "1 x Felt hat", "3 x Felt hat")
    assert done.sales.title.tolist() == ["Oak jug, dark", "Felt hat", "3 x Felt hat"]
    assert [(item.row, item.reason) for item in done.problems.items] == [
        (2, "2 goods at one price; what each brought is not told"),
        (4, "2 goods at one price; what each brought is not told"),
        (6, "the title counts units, and no column does"),
    ]


def test_without_such_a_list_titles_are_left_as_they_are() -> None:
    titles = ["1 x Felt hat", "Tin pot; Tin pan", "2 x 4 timber, 3 x 5 timber", "Mug x 2, blue", "2 x Hat, 3 x Hat"]
    done = read(*titles)
    assert done.sales.title.tolist() == titles
    assert not done.problems.items


@pytest.mark.parametrize("title", ["2x Mug + 1x Mat", "Mug x2; Mat x1", "1 × Mug\n2 × Mat"])
def test_counts_stand_before_or_behind(title: str) -> None:
    assert sorted(name for _, name in listed_goods(title)) == ["Mat", "Mug"]
