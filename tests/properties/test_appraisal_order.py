"""The order of a manifest's lines, and how the work is sliced, change nothing, to the last bit."""

from typing import Any

import numpy as np
import pytest
from appraisal_world import answer, demo_lines

from models.appraisal import draw
from models.values.streams import stream

SETTINGS: dict[str, Any] = {"buying": {"freight": 220}}


def without_no(lines: tuple[dict[str, Any], ...]) -> list[str]:
    return sorted(str({key: value for key, value in line.items() if key not in ("no", "source_row")}) for line in lines)


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_permuting_the_lines_changes_nothing(seed: int) -> None:
    lines = demo_lines("manifest_messy.csv")
    mixed = lines.take(stream(seed, "test").permutation(len(lines)))
    one, two = answer(lines, SETTINGS), answer(mixed, SETTINGS)
    for key in ("bid_ceiling", "cash_proceeds", "proceeds_after_pay", "hours", "backlog", "resale", "bid_curve"):
        assert one.document[key] == two.document[key], key
    assert one.components == two.components
    assert without_no(one.lines) == without_no(two.lines)


def test_slicing_the_work_changes_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    lines = demo_lines("manifest_messy.csv")
    whole = answer(lines, SETTINGS)
    monkeypatch.setattr(draw, "SLICE_LINES", 5)
    assert answer(lines, SETTINGS).components == whole.components


def test_a_line_split_in_two_is_worth_about_the_same() -> None:
    lines = demo_lines("manifest_tidy.xlsx")
    deep = int(np.argmax(lines.quantity))
    index = np.insert(np.arange(len(lines)), deep, deep)
    split = lines.take(index)
    split.quantity[deep] = lines.quantity[deep] // 2
    split.quantity[deep + 1] = lines.quantity[deep] - lines.quantity[deep] // 2
    one, two = (float(answer(some, SETTINGS).document["cash_proceeds"]["mean"]) for some in (lines, split))
    assert two == pytest.approx(one, rel=0.01)
