"""However a history is cut into files, overlapping or not, and however often they come: the same table."""

from pathlib import Path

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from models.intake.history import read_history
from models.intake.sales.joined import join_history
from models.values.sale_parts import SalePart
from models.values.sales import Sales

HISTORY = Path(__file__).parents[2] / "demo_data" / "sold_history.csv"
ROWS = 60


def full() -> Sales:
    lines = HISTORY.read_bytes().splitlines(keepends=True)
    return read_history(b"".join([lines[0], *lines[1::100][:ROWS]]), HISTORY.name, {}, "USD").sales


SALES = full()
SLICES = st.lists(st.lists(st.integers(0, ROWS - 1), unique=True), min_size=1, max_size=5)


def table(files: list[Sales]) -> list[tuple[object, ...]]:
    sales = join_history([SalePart.plain(file) for file in files]).sales
    names = [name for name in vars(sales) if name != "row"]
    rows = zip(*([repr(cell) for cell in getattr(sales, name).tolist()] for name in names), strict=True)
    return sorted(rows)


@settings(deadline=None, max_examples=60)
@given(SLICES, st.randoms(use_true_random=False))
def test_any_cut_of_a_history_joins_to_it(slices: list[list[int]], order: object) -> None:
    rest = [row for row in range(ROWS) if not any(row in one for one in slices)]
    files = [SALES.take(np.array(rows, dtype=np.int64)) for rows in (*slices, rest)]
    order.shuffle(files)  # type: ignore[attr-defined]
    whole = table([SALES])
    assert table(files) == whole
    assert table([*files, *files]) == whole


@settings(deadline=None, max_examples=30)
@given(SLICES)
def test_a_file_that_comes_again_changes_nothing(slices: list[list[int]]) -> None:
    files = [SALES.take(np.array(rows, dtype=np.int64)) for rows in slices]
    once = table(files)
    for file in files:
        assert table([*files, file]) == once
