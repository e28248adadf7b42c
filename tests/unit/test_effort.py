"""Listing minutes: settings alone, timings, repeats of an item, assorted lines."""

from dataclasses import replace

import numpy as np
import pytest
from tempo_world import lines_of, sales_of

from models.estimate.effort import LineMinutes, line_minutes
from models.estimate.effort_model import EffortModel
from models.estimate.fit.effort import fit_effort
from models.estimate.fit.effort_rows import effort_rows
from models.estimate.fit.learned import learned_minutes
from models.estimate.products import Matched
from models.values.arrays import texts
from models.values.in_force import in_force
from models.values.lines import Lines
from models.values.packing import pack, unpack
from models.values.settings import Effort
from models.values.streams import stream

NO_TIMINGS = fit_effort(sales_of([], []), np.empty(0, dtype=np.int64))


def minutes(
    lines: Lines, product: list[int], model: EffortModel = NO_TIMINGS, effort: Effort | None = None
) -> np.ndarray:
    return means(lines, product, model, effort).listing


def means(
    lines: Lines, product: list[int], model: EffortModel = NO_TIMINGS, effort: Effort | None = None
) -> LineMinutes:
    matched = Matched(np.array(product), texts([str(p) for p in product]), np.zeros(len(product), dtype=bool))
    held = effort or in_force([], learned_minutes(model)).settings.effort
    return line_minutes(lines, matched, model, held, lines.assorted)


def timed(n: int, first: float, condition: int = 2, sd: float = 0.4, seed: int = 1) -> EffortModel:
    """n rows of different products, each with log-normal minutes of mean `first`."""
    noise = np.exp(sd * stream(seed, "timings").standard_normal(n) - sd**2 / 2)
    codes = np.full(n, condition, dtype=np.int8)
    sales = sales_of(np.arange(n, dtype=float), np.full(n, np.nan), listing_minutes=first * noise, condition=codes)
    return fit_effort(sales, np.arange(n))


def test_without_timings_the_settings_mean_what_they_say() -> None:
    """A listing 12; 40 sealed units 12 + 39; 40 used ones 12 + 39 x 6; 40 assorted ones 40 x 12."""
    conditions = np.array([0, 0, 2, -1, 0], dtype=np.int8)
    mixed = np.array([False, False, False, False, True])
    lines = lines_of([1, 40, 40, 2, 40], condition=conditions, assorted=mixed)
    assert minutes(lines, [1, 2, 3, 4, 5]) == pytest.approx([12.0, 51.0, 246.0, 18.0, 480.0])
    own = Effort(minutes_first=8.0, minutes_repeat=2.0, minutes_used_unit=3.0)
    assert minutes(lines, [1, 2, 3, 4, 5], effort=own) == pytest.approx([8.0, 86.0, 125.0, 11.0, 320.0])


def test_an_item_is_listed_once_however_its_lines_are_cut() -> None:
    whole = minutes(lines_of([40]), [7]).sum()
    assert minutes(lines_of([1] * 40), [7] * 40).sum() == pytest.approx(whole)
    parts = minutes(lines_of([10, 30]), [7, 7])
    assert parts.sum() == pytest.approx(whole)
    assert parts[1] == pytest.approx(3 * parts[0])
    states = lines_of([10, 30], condition=np.array([0, 2], dtype=np.int8))
    assert minutes(states, [7, 7]).sum() == pytest.approx(12 + 9 + 12 + 29 * 6)


def test_order_of_lines_changes_nothing() -> None:
    lines = lines_of([3, 1, 7, 2], condition=np.array([0, 2, 0, -1], dtype=np.int8))
    turn = np.array([2, 0, 3, 1])
    product = [4, 4, 4, 5]
    assert minutes(lines, product)[turn].tolist() == minutes(lines.take(turn), [product[i] for i in turn]).tolist()


def test_a_further_unit_never_takes_longer_than_a_first() -> None:
    lines = lines_of([5], condition=np.array([2], dtype=np.int8))
    assert minutes(lines, [1], effort=Effort(minutes_first=5.0, minutes_used_unit=9.0))[0] == pytest.approx(25.0)


@pytest.mark.parametrize(("n", "within"), [(50, 0.12), (300, 0.06), (3000, 0.02)])
def test_timings_outweigh_the_settings(n: int, within: float) -> None:
    lines = lines_of([1], condition=np.array([2], dtype=np.int8))
    for seed in range(4):
        assert minutes(lines, [1], timed(n, 25.0, seed=seed))[0] == pytest.approx(25.0, rel=within)


def test_few_timings_move_the_settings_little() -> None:
    assert learned_minutes(timed(4, 40.0, sd=0.0)) == {}
    assert learned_minutes(timed(5, 40.0, sd=0.0))["effort"].keys() == {
        "minutes_first", "minutes_repeat", "minutes_used_unit",
    }  # fmt: skip
    told = [float(np.exp(timed(n, 40.0, sd=0.0).ln_minutes[0])) for n in (4, 5, 20, 200)]
    assert told[0] == pytest.approx(12.0)
    assert 12.0 < told[1] < told[2]
    assert told[3] == pytest.approx(40.0, rel=0.1)


def test_settings_still_move_what_the_timings_left_open() -> None:
    lines = lines_of([1, 40], condition=np.array([2, 0], dtype=np.int8))
    model = timed(200, 20.0)
    given = in_force([{"effort": {"minutes_repeat": 3.0}}], learned_minutes(model)).settings.effort
    plain, slow = minutes(lines, [1, 2], model), minutes(lines, [1, 2], model, given)
    assert slow[0] == pytest.approx(plain[0], rel=0.02)  # the first listing was timed
    assert slow[1] > 1.6 * plain[1]  # no repeat was


def test_minutes_the_seller_gave_go_before_learned_ones() -> None:
    lines = lines_of([1], condition=np.array([2], dtype=np.int8))
    given = in_force([{"effort": {"minutes_first": 60.0}}], learned_minutes(timed(300, 10.0))).settings.effort
    assert minutes(lines, [1], timed(300, 10.0), given)[0] == pytest.approx(60.0, rel=0.05)


def test_repeats_are_learned_from_units_listed_together() -> None:
    """Rows of three sealed units that took 11 + 2 x 2.5 minutes, beside single ones that took 11."""
    n = 400
    quantity = np.where(np.arange(n) % 2, 3, 1)
    total = np.where(quantity == 3, 16.0, 11.0)
    sales = sales_of(np.arange(n), np.full(n, np.nan), quantity=quantity, listing_minutes=total / quantity)
    lines = lines_of([1, 3])
    assert minutes(lines, [1, 2], fit_effort(sales, np.arange(n))) == pytest.approx([11.0, 16.0], rel=0.1)


def test_an_item_listed_again_within_a_week_is_a_further_unit() -> None:
    n = 200
    sales = sales_of(
        np.repeat(np.arange(n) * 20.0, 2) + np.tile([0.0, 1.0], n), np.full(2 * n, np.nan),
        listing_minutes=np.tile([14.0, 5.0], n), condition=np.full(2 * n, 2, dtype=np.int8),
    )  # fmt: skip
    lines = lines_of([1, 2], condition=np.array([2, 2], dtype=np.int8))
    found = minutes(lines, [1, 2], fit_effort(sales, np.zeros(2 * n, dtype=np.int64)))
    assert found == pytest.approx([14.0, 19.0], rel=0.1)


@pytest.mark.parametrize("condition", [0, 2])
def test_an_item_listed_again_that_took_as_long_is_a_listing_of_its_own(condition: int) -> None:
    sales = sales_of(
        np.floor(np.arange(150) * 2.5), np.full(150, np.nan), listing_minutes=np.full(150, 12.0),
        condition=np.full(150, condition, dtype=np.int8),
    )  # fmt: skip
    model = fit_effort(sales, np.zeros(150, dtype=np.int64))
    assert np.exp(model.ln_minutes[0]) == pytest.approx(12.0, rel=0.05)


def test_rows_of_one_listing_are_further_units_of_it() -> None:
    rows = effort_rows(
        sales_of([0, 0, 0, 3], [np.nan] * 4, listing_ref=np.array(["a", "a", "b", "a"], dtype=object)),
        np.zeros(4, dtype=np.int64),
    )
    assert rows.first.tolist() == [1.0, 0.0, 1.0, 1.0]


def test_one_absurd_timing_does_little() -> None:
    lines = lines_of([1], condition=np.array([2], dtype=np.int8))
    values = np.full(100, 15.0)
    clean = sales_of(
        np.arange(100.0), np.full(100, np.nan), listing_minutes=values, condition=np.full(100, 2, dtype=np.int8)
    )
    wild = replace(clean, listing_minutes=np.where(np.arange(100) == 5, 1400.0, values))
    before, after = (minutes(lines, [1], fit_effort(sales, np.arange(100)))[0] for sales in (clean, wild))
    assert after == pytest.approx(before, rel=0.08)
    assert fit_effort(replace(clean, listing_minutes=np.full(100, 5000.0)), np.arange(100)).timings == 0


def test_a_model_survives_storage() -> None:
    for model in (NO_TIMINGS, timed(20, 9.0)):
        back = EffortModel.from_arrays(unpack(pack(model.arrays()))).arrays()
        assert all(np.array_equal(v, back[k], equal_nan=v.dtype.kind == "f") for k, v in model.arrays().items())
