"""Draws of sales: one rate a product and draw, whatever the slicing and the order of lines."""

from dataclasses import replace

import numpy as np
import pytest

from models.estimate.products import Matched
from models.estimate.tempo import days_to_sell, share_sold
from models.estimate.tempo_draws import draw_rates, mean_sale_day, product_slices, sale_draws, sold_draws
from models.estimate.tempo_lot import LotTempo, gamma_pace
from models.values.arrays import texts

DRAWS = 8192
PRODUCT = np.array([0, 1, 0, 2, 1, 0, 3])
UNITS = np.array([3.0, 1.0, 2.0, 40.0, 6.0, 1.0, 1.0])


def a_lot() -> LotTempo:
    lot = gamma_pace(PRODUCT, UNITS, np.array([2.0, 0.0, 0.0, 1.0]), 1.5, 60.0)
    keys = np.array(
        [
            ["", "toys", "", "oak", "", ""],
            ["", "toys", "", "elm", "", ""],
            ["", "home", "", "oak", "", ""],
            ["", "home", "", "", "", ""],
        ],
        dtype=object,
    )
    return replace(lot, shared_key=keys, shared_sd=np.where(keys == "", 0.0, 0.2))


def units(index: np.ndarray, draws: int = DRAWS) -> np.ndarray:
    return np.repeat(UNITS[index][:, None], draws, axis=1)


def drawn(lot: LotTempo, index: np.ndarray, days: float = 90.0) -> np.ndarray:
    return sold_draws(lot, index, units(index), np.full(len(index), days), 1)


def matched() -> Matched:
    return Matched(PRODUCT + 5, texts([str(p) for p in PRODUCT]), np.ones(len(PRODUCT), dtype=bool))


def test_the_mean_of_the_draws_is_the_closed_form() -> None:
    lot = a_lot()
    sold = drawn(lot, np.arange(7))
    expected = share_sold(lot, np.full(7, 90.0)) * UNITS
    error = sold.std(axis=1) / np.sqrt(DRAWS)
    assert (np.abs(sold.mean(axis=1) - expected) < 4 * error + 0.01 * expected).all()


def test_the_closed_form_counts_what_a_kind_shares_as_the_draws_do() -> None:
    """A wide shared factor: one gamma of the same mean and spread would tell a tenth less, and half a price level turns
    the slope's error round."""
    sd = np.where(a_lot().shared_key == "", 0.0, 0.6)
    sd[:, 5] = [0.4, -0.4, 0.2, 0.0]
    lot = replace(a_lot(), shared_sd=sd)
    sold = drawn(lot, np.arange(7))
    expected = share_sold(lot, np.full(7, 90.0)) * UNITS
    error = sold.std(axis=1) / np.sqrt(DRAWS)
    assert (np.abs(sold.mean(axis=1) - expected) < 4 * error + 0.004 * expected).all()
    spread2 = (sd**2).sum(axis=1)
    own = 1 / (1 / 1.5 + np.expm1(spread2) * (1 + 1 / 1.5))
    wide = 1 - (1 + 90.0 * np.exp(lot.ln_mu[3]) / own[3]) ** -own[3]
    assert spread2[3] < spread2[0]
    assert share_sold(replace(lot, stock=np.zeros(4)), np.full(7, 90.0))[6] > wide


def test_days_to_sell_are_the_middle_of_the_draws() -> None:
    """One unit: the days by which half of the draws have sold, under a wide shared factor and own sales."""
    sd = np.where(a_lot().shared_key == "", 0.0, 0.4)
    lot = replace(
        gamma_pace(np.arange(4), np.ones(4), np.zeros(4), 1.5, 60.0), shared_key=a_lot().shared_key, shared_sd=sd,
        sales=np.array([0.0, 3.0, 0.0, 1.0]), expected=np.array([0.0, 1.0, 4.0, 1.0]),
    )  # fmt: skip
    for p, middle in enumerate(days_to_sell(lot, 1e5)):
        window = np.full(4, middle)
        assert share_sold(lot, window)[p] == pytest.approx(0.5, abs=0.012)


def test_slices_hold_whole_products_and_change_nothing() -> None:
    lot, whole = a_lot(), drawn(a_lot(), np.arange(7))
    for size in (1, 2, 3, 7, 100):
        slices = product_slices(matched(), size)
        assert sorted(np.concatenate(slices).tolist()) == list(range(7))
        for index in slices:
            assert (drawn(lot, index) == whole[index]).all()
    with pytest.raises(ValueError, match="at least one"):
        product_slices(matched(), 0)


def test_order_of_lines_changes_nothing() -> None:
    turn = np.array([6, 2, 0, 4, 5, 3, 1])
    assert (drawn(a_lot(), turn) == drawn(a_lot(), np.arange(7))[turn]).all()


def test_never_more_than_there_is_and_never_less_with_more_time() -> None:
    lot = a_lot()
    short, long = drawn(lot, np.arange(7), 30.0), drawn(lot, np.arange(7), 300.0)
    assert (short >= 0).all()
    assert (long <= units(np.arange(7)) + 1e-9).all()
    assert (long.mean(axis=1) > short.mean(axis=1)).all()
    assert (drawn(lot, np.arange(7), 0.0) == 0).all()


def test_units_of_a_product_share_one_rate() -> None:
    """Forty units at one rate spread far wider than forty independent ones would."""
    lot = gamma_pace(np.array([0]), np.array([40.0]), np.zeros(1), 1.5, 2.0)
    sold = sold_draws(lot, np.array([0]), np.full((1, DRAWS), 40.0), np.array([30.0]), 1)
    share = sold.mean() / 40.0
    assert sold.std() > 3 * np.sqrt(40 * share * (1 - share))


def test_goods_of_one_category_share_its_error() -> None:
    lot = replace(a_lot(), shared_sd=np.where(a_lot().shared_key == "", 0.0, 1.0), prior_shape=np.full(4, 1e6))
    rates = np.log(draw_rates(lot, np.arange(4), 1))
    together = np.corrcoef(rates)
    assert together[0, 1] == pytest.approx(0.5, abs=0.05)  # one of two equal errors is shared
    assert abs(together[1, 2]) < 0.05


def test_assorted_units_sell_each_on_its_own() -> None:
    lot = replace(gamma_pace(np.array([0]), np.array([400.0]), np.zeros(1), 1.5, 60.0), apart=np.array([True]))
    sold = sold_draws(lot, np.array([0]), np.full((1, DRAWS), 400.0), np.array([90.0]), 1)
    share = share_sold(lot, np.array([90.0]))[0]
    assert sold.mean() / 400 == pytest.approx(share, abs=0.005)
    assert sold.std() == pytest.approx(np.sqrt(400 * share * (1 - share)), rel=0.05)


def test_the_mean_day_of_sale_is_that_of_the_waiting_times() -> None:
    """One unit: E(T | T <= t) of a rate that is Gamma(a, b), from its Lomax density by numerical integration."""
    a, b, t = 1.5, 60.0, 90.0
    day = np.linspace(0, t, 200_001)
    density = a / b * (1 + day / b) ** (-a - 1)
    truth = (day * density).sum() / density.sum()
    lot = gamma_pace(np.array([0]), np.ones(1), np.zeros(1), a, b)
    for one in (lot, replace(lot, apart=np.array([True]))):
        sales = sale_draws(one, np.array([0]), np.ones((1, DRAWS)), np.array([t]), 1)
        when = sales.mean_day[sales.units > 0]
        assert when.mean() == pytest.approx(truth, rel=0.03)
        assert (mean_sale_day(one, np.array([0]), np.ones((1, DRAWS)), np.array([t]), 1) == sales.mean_day).all()
        assert (sales.mean_day[sales.units == 0] == t).all()
