"""How far a lot's minutes may lie from their means: coefficients shared by all lines and lots, noise a lot's own."""

from dataclasses import replace

import numpy as np
import pytest
from appraisal_world import answer, demo_model, lines_like
from tempo_world import lines_of, sales_of

from models.estimate.effort import LineMinutes, line_minutes
from models.estimate.effort_draws import declared_factor_draws, listing_factor_draws, listing_spread
from models.estimate.effort_model import KINDS, EffortModel
from models.estimate.fit.effort import fit_effort
from models.estimate.products import Matched
from models.values.arrays import texts
from models.values.lines import Lines
from models.values.settings import Effort
from models.values.streams import stream

SLOW = {"backlog": {"hours_per_week": 0.5}}
UNTAUGHT = fit_effort(sales_of([], []), np.empty(0, dtype=np.int64))


def taught(n: int) -> EffortModel:
    """n timed rows of toys and hats in two states."""
    noise = np.exp(0.4 * stream(1, "timings").standard_normal(n))
    kinds = texts(["toys", "hats > caps"] * (n // 2))
    sales = sales_of(
        np.arange(n) * 0.5, np.full(n, np.nan), listing_minutes=12 * noise, category=kinds,
        condition=(np.arange(n) // 2 % 2 * 2).astype(np.int8),
    )  # fmt: skip
    return fit_effort(sales, np.arange(n))


def minutes_of(lines: Lines, model: EffortModel) -> LineMinutes:
    matched = Matched(np.arange(len(lines)), lines.description, np.zeros(len(lines), dtype=bool))
    return line_minutes(lines, matched, model, Effort(), lines.assorted)


def factors(lines: Lines, model: EffortModel, key: str = "lot", seed: int = 1, given: tuple[str, ...] = ()):  # type: ignore[no-untyped-def]
    return listing_factor_draws(listing_spread(lines, minutes_of(lines, model), model, given), key, seed)


def toys(n: int, category: str = "toys") -> Lines:
    return lines_of(np.ones(n), category=texts([category] * n), condition=np.full(n, 2, dtype=np.int8))


def test_without_timings_a_lot_may_take_half_or_twice() -> None:
    spread = np.log(factors(toys(400), UNTAUGHT)[0])
    assert np.exp(spread).mean() == pytest.approx(1.0, abs=0.03)
    assert np.std(spread) == pytest.approx(np.sqrt(0.7**2 + 0.15**2 + 0.25**2 * 1.57 + 0.016), rel=0.05)


def test_timings_narrow_it() -> None:
    wide, narrow = (np.std(np.log(factors(toys(40), taught(n))[0])) for n in (20, 3000))
    assert narrow < wide < 0.5
    assert narrow < 0.17


def test_lots_share_what_is_not_known_of_the_seller_and_no_more() -> None:
    model = taught(20)
    one, same, other = (np.log(factors(toys(40), model, key)[0]) for key in ("a", "a", "b"))
    assert np.array_equal(one, same)
    shared = np.corrcoef(one, other)[0, 1]
    lot = listing_spread(toys(40), minutes_of(toys(40), model), model)
    assert shared == pytest.approx(1 - (lot.lot_sd**2 + lot.own_sd**2) / lot.variance[0], abs=0.05)
    assert 0.2 < shared < 0.9


def test_goods_never_timed_are_known_less_and_shared_by_their_name() -> None:
    model = taught(3000)
    known, strange, stranger = (factors(toys(40, name), model, name) for name in ("toys", "boats", "boats"))
    assert np.std(np.log(strange[0])) > 1.5 * np.std(np.log(known[0]))
    assert np.array_equal(strange, stranger)


def test_more_listings_even_out() -> None:
    model = taught(3000)
    few, many = (listing_spread(toys(n), minutes_of(toys(n), model), model).own_sd for n in (4, 64))
    assert few == pytest.approx(4 * many, rel=0.1)
    mixed = replace(toys(1), quantity=np.array([64]), assorted=np.array([True]))
    assert listing_spread(mixed, minutes_of(mixed, model), model).own_sd == pytest.approx(many, rel=0.01)


def test_minutes_that_the_seller_gave_are_certain_but_not_what_the_goods_add() -> None:
    model = replace(taught(20), noise_sd=0.0, lot_sd=0.0)
    kinds, states = texts(["toys", "hats > caps"] * 20), np.tile([0, 0, 2, 2], 10).astype(np.int8)
    lines = lines_of(np.ones(40), category=kinds, condition=states)
    free, given = (listing_spread(lines, minutes_of(lines, model), model, names).variance for names in ((), KINDS))
    assert given[0] < 0.05 * free[0]  # these are the usual goods
    odd = toys(40, "boats")
    assert listing_spread(odd, minutes_of(odd, model), model, KINDS).variance[0] > 0.03


def test_a_kind_without_minutes_in_the_lot_still_has_a_factor() -> None:
    drawn = factors(toys(3), UNTAUGHT)
    assert drawn.shape == (3, 8192)
    assert np.isfinite(drawn).all()
    assert drawn.mean(axis=1) == pytest.approx(np.ones(3), abs=0.05)


def test_sorting_and_packing_are_declared() -> None:
    low, high = np.quantile(declared_factor_draws("packing", 1), [0.1, 0.9])
    assert high / low == pytest.approx(10 / 3, rel=0.1)
    assert not np.array_equal(declared_factor_draws("packing", 1), declared_factor_draws("sorting", 1))


def test_a_model_kept_before_totals_were_learned_still_reads() -> None:
    former = {
        "timings": np.array(30), "unit_minutes": np.array(11.0), "ln_minutes": np.log([11.0, 1.0, 6.0]),
        "told": np.zeros(3), "condition_effect": np.zeros(6), "category.name": texts(["toys"]),
        "category.effect": np.array([0.2]), "category.information": np.array([50.0]), "base_sd": np.array(0.15),
    }  # fmt: skip
    model = EffortModel.from_arrays(former)
    lines = toys(2)
    assert minutes_of(lines, model).first == pytest.approx(np.full(2, 12 * np.exp(0.2)))
    assert np.std(np.log(factors(lines, model)[0])) == pytest.approx(0.15, rel=0.1)


def test_doubt_about_minutes_widens_the_hours_and_the_backlog_ahead() -> None:
    lines = lines_like(description=[f"lamp {no}" for no in range(8)], quantity=[2] * 8)
    untimed = replace(demo_model(), effort=UNTAUGHT)
    timed, doubtful = (answer(lines, SLOW, model).document for model in (demo_model(), untimed))
    ranges = [one["hours"]["listing"]["p90"] / one["hours"]["listing"]["p10"] for one in (timed, doubtful)]
    assert ranges[0] < 1.9 < 4 < ranges[1]
    ahead = [max(week["hours_after"]["p90"] - week["hours_after"]["p10"] for week in one["backlog"]["weekly"])
             for one in (timed, doubtful)]  # fmt: skip
    assert ahead[0] < ahead[1]
