"""The bench's what-ifs: the lot evaluated anew under a changed setting against its stored sums read again."""

import pytest

from models.bench import reread_trial
from models.bench.plan import QUICK
from models.bench.reread_trial import CHANGES, TERMS, RereadTrial, changed, run_reread
from models.bench.workloads import what_if
from models.bench.worlds.shape import Shape
from models.values.given import read_given


def test_one_key_is_changed_and_every_other_kept() -> None:
    told = changed(TERMS, "goals.confidence", 0.9)
    assert told["goals"] == TERMS["goals"] | {"confidence": 0.9}
    assert told["buying"] == TERMS["buying"]
    assert "confidence" not in TERMS["goals"]


@pytest.mark.parametrize("key", CHANGES)
def test_both_ends_are_values_that_a_seller_may_give(key: str) -> None:
    for value in CHANGES[key]:
        read_given(changed(TERMS, key, value))


def test_what_is_exact_differs_by_nothing_and_what_is_held_by_something(monkeypatch: pytest.MonkeyPatch) -> None:
    some = {key: CHANGES[key] for key in ("buying.premium", "goals.confidence", "effort.minutes_first")}
    monkeypatch.setattr(reread_trial, "CHANGES", some)
    told = run_reread(RereadTrial(Shape(seed=4001, n_sales=50), 1))
    assert told["buying.premium"] == told["goals.confidence"] == [0.0, 0.0]
    assert any(abs(one) > 1e-4 for one in told["effort.minutes_first"])


def test_the_table_has_a_row_a_key_in_percent() -> None:
    trials = what_if.trials(QUICK)
    told = {key: [0.01, -0.03] for key in CHANGES}
    table = what_if.tables(QUICK, dict.fromkeys(trials, told))[0]
    assert [row.labels[0] for row in table.rows] == list(CHANGES)
    figures = table.rows[0].figures
    assert figures["median"].mean == pytest.approx(2.0)
    assert figures["worst"].mean == pytest.approx(3.0)
    assert figures["mean"].mean == pytest.approx(-1.0)
