"""What a shop never sells: brands, categories, words."""

import numpy as np
import pytest

from models.decide.never import never_lines
from models.values.arrays import texts
from models.values.lines import Lines
from models.values.settings import Never


def lines(description: str, brand: str = "", category: str = "") -> Lines:
    blank, nan = texts([""]), np.array([np.nan])
    return Lines(
        np.array([1]), np.array([2]), texts([description]), texts([brand]), texts([category]),
        np.array([0], dtype=np.int8), np.array([1]), nan, blank, blank, nan, blank, np.array([False]),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("line", "never", "expected"),
    [
        (lines("kettle", "Ostrava  Home"), Never(brands=("ostrava home",)), True),
        (lines("kettle", "Ostrava"), Never(brands=("ostrava home",)), False),
        (lines("OSTRAVA HOME kettle 2 l"), Never(brands=("Ostrava Home",)), True),
        (lines("kettle like Ostrava Home", "Dunmere"), Never(brands=("Ostrava Home",)), False),
        (lines("Car Seat, grey"), Never(words=("car seat",)), True),
        (lines("oscar seating"), Never(words=("car seat", "eat")), False),
        (lines("oscar seat"), Never(words=("car seat",)), False),
        (lines("knife-set (12)"), Never(words=("KNIFE",)), True),
        (lines("5% off C++ book"), Never(words=("c++",)), True),
        (lines("x", category="Home > Kitchen > Knives"), Never(categories=("kitchen",)), True),
        (lines("x", category="Home > Kitchen > Knives"), Never(categories=("home > kitchen",)), True),
        (lines("x", category="Home > Kitchen"), Never(categories=("home > garden",)), False),
        (lines("x", category="Home Decor"), Never(categories=("home",)), False),
        (lines("x"), Never(categories=(" > ",)), False),
        (lines("x"), Never(), False),
    ],
)
def test_never(line: Lines, never: Never, expected: bool) -> None:
    assert never_lines(line, never).tolist() == [expected]
