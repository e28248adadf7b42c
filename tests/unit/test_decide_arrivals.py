"""Missing and dead units: moments of the beta-binomial, and independence of order and slicing."""

import numpy as np
import pytest

from models.decide.arrivals import Arrived, BadShares, arrived_units, bad_shares
from models.decide.binomial import binomial_draws, tail_table
from models.values.arrays import texts
from models.values.conditions import CONDITIONS, UNKNOWN, Condition
from models.values.settings import LotTerms
from models.values.streams import stream

TERMS = LotTerms(missing_share=0.02, dead_share=0.03, dead_untested_share=0.25)


def arrive(quantity: list[int], condition: list[int], keys: list[str], shares: BadShares) -> Arrived:
    return arrived_units(np.array(quantity), np.array(condition, dtype=np.int8), texts(keys), shares, 1)


@pytest.mark.parametrize(
    ("condition", "mean"),
    [
        (Condition.SEALED, 0.05),
        (Condition.WORN, 0.05),
        (Condition.UNTESTED, 0.27),
        (Condition.SALVAGE, 0.02),
        (None, 0.27),
    ],
)
def test_bad_share_of_a_condition(condition: Condition | None, mean: float) -> None:
    drawn = bad_shares(TERMS, 1).drawn[UNKNOWN if condition is None else CONDITIONS.index(condition)]
    sd = (mean * (1 - mean) / 31) ** 0.5
    assert drawn.mean() == pytest.approx(mean, abs=4 * sd / 8192**0.5)
    assert drawn.std() == pytest.approx(sd, rel=0.05)


def test_all_conditions_of_a_lot_share_one_fate() -> None:
    drawn = bad_shares(TERMS, 1).drawn
    order = np.argsort(drawn[0])
    assert (np.diff(drawn[CONDITIONS.index(Condition.UNTESTED)][order]) >= 0).all()


def test_two_lots_have_fates_of_their_own() -> None:
    one, other = (bad_shares(TERMS, 1, key).drawn[0] for key in ("a", "b"))
    assert abs(np.corrcoef(one, other)[0, 1]) < 0.05


@pytest.mark.parametrize("quantity", [1, 3, 20, 32, 33, 400])
def test_units_of_a_line(quantity: int) -> None:
    """Mean and variance of the beta-binomial; missing and dead as 2 to 25."""
    got = arrive([quantity], [CONDITIONS.index(Condition.UNTESTED)], ["x"], bad_shares(TERMS, 1))
    bad = got.dead[0] + got.missing[0]
    p, shared = 0.27, 1 / 31
    sd = (quantity * p * (1 - p) * (1 + (quantity - 1) * shared)) ** 0.5
    assert bad.mean() == pytest.approx(quantity * p, abs=4 * sd / 8192**0.5)
    assert bad.std() == pytest.approx(sd, rel=0.06)
    assert got.missing[0].sum() / bad.sum() == pytest.approx(2 / 27, abs=0.02)
    assert (got.saleable + got.dead + got.missing == quantity).all()
    assert min(got.saleable.min(), got.dead.min(), got.missing.min()) >= 0


def test_salvage_is_never_dead_and_no_share_means_no_loss() -> None:
    salvage = CONDITIONS.index(Condition.SALVAGE)
    assert arrive([50], [salvage], ["x"], bad_shares(TERMS, 1)).dead.max() == 0
    perfect = bad_shares(LotTerms(missing_share=0.0, dead_share=0.0), 1)
    assert arrive([50, 3], [0, 3], ["x", "y"], perfect).saleable.min(axis=1).tolist() == [50, 3]


def test_shares_that_take_everything() -> None:
    lost = bad_shares(LotTerms(missing_share=1.0, dead_share=1.0), 1)
    got = arrive([5, 100], [0, 0], ["x", "y"], lost)
    assert got.missing.min(axis=1).tolist() == [5, 100]


def test_neither_order_nor_slicing_changes_a_line() -> None:
    shares = bad_shares(TERMS, 1)
    quantity, condition, keys = [1, 7, 40, 7], [0, 4, -1, 2], ["a", "b", "c", "d"]
    whole = arrive(quantity, condition, keys, shares)
    for at in (3, 1, 0, 2):
        alone = arrive([quantity[at]], [condition[at]], [keys[at]], shares)
        assert (alone.dead[0] == whole.dead[at]).all()
        assert (alone.missing[0] == whole.missing[at]).all()


def test_lines_without_units_and_no_lines() -> None:
    shares = bad_shares(TERMS, 1)
    assert arrive([0], [0], ["x"], shares).saleable.max() == 0
    assert arrive([], [], [], shares).saleable.shape == (0, 8192)


def test_input_that_does_not_fit_is_refused() -> None:
    with pytest.raises(ValueError, match="one length"):
        arrive([1, 2], [0], ["x"], bad_shares(TERMS, 1))
    with pytest.raises(ValueError, match="at least 0"):
        arrive([-1], [0], ["x"], bad_shares(TERMS, 1))


def test_table_and_sampler_agree_on_the_whole_distribution() -> None:
    chance = np.full(200_000, 0.15)
    table = binomial_draws(6, chance, tail_table(6, chance), stream(1, "table"))
    sampled = binomial_draws(6, chance, None, stream(1, "sampler"))
    counts = [np.bincount(drawn, minlength=7) / len(chance) for drawn in (table, sampled)]
    assert np.abs(counts[0] - counts[1]).max() < 0.005
    assert tail_table(33, chance) is None
    sure = tail_table(20, np.array([1e-14]))
    assert sure is not None
    assert len(sure) < 20
