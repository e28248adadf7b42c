"""Tags in doubt: goods of one brand speak for each other, prices speak for own tags, doubt never raises the mean."""

import numpy as np

from models.estimate.fit.prices_tags import claims
from models.estimate.lot_kin import Kin, told_by_kin
from models.estimate.lot_tags import Factor, _mixed
from models.estimate.tags import GOOD_SD, PRICE_SLOPE, good_probability, read

_ALONE = np.arange(4)
_VAR = np.full(4, 0.45)
_TEN = float(np.log(10))


def _good(apart: np.ndarray, brand: np.ndarray) -> np.ndarray:
    moved, left = told_by_kin(apart[:, None], _VAR, Kin(brand, np.full(4, 0.2)), 0.08)
    return good_probability(apart[:, None], moved, left + GOOD_SD**2, 0.08)[:, 0]


def test_a_tag_ten_times_too_high_stands_out_beside_its_brand() -> None:
    apart = np.array([0.1, -0.1, 0.0, 1.8])
    alone, beside = _good(apart, _ALONE), _good(apart, np.zeros(4, dtype=np.int64))
    assert alone[3] > 0.6
    assert beside[3] < 0.8 * alone[3]
    assert np.all(beside[:3] > 0.97)


def test_a_dear_brand_is_believed_when_all_its_tags_say_so() -> None:
    apart = np.full(4, 1.4)
    alone, beside = _good(apart, _ALONE), _good(apart, np.zeros(4, dtype=np.int64))
    assert np.all(beside > alone)


def test_nameless_or_single_goods_hear_nothing_of_one_another() -> None:
    moved, left = told_by_kin(np.array([[0.5], [2.0], [0.1], [-1.0]]), _VAR, Kin(_ALONE, np.full(4, 0.2)), 0.08)
    assert np.allclose(moved, 0)
    assert np.allclose(left, 0.45)


def test_doubt_about_a_tag_widens_a_price_and_does_not_raise_its_mean() -> None:
    reading, mean, var = np.array([_TEN]), np.zeros(1), np.full(1, 0.45)
    kin = Kin(np.zeros(1, dtype=np.int64), np.zeros(1))
    value, own_var, _, good = _mixed(reading, (mean, var), kin, Factor(np.zeros(1), np.ones(1), 0), 0.08)
    assert 0.05 < good[0] < 0.95
    assert own_var[0] > 2 * var[0]
    told = np.exp(PRICE_SLOPE * value + PRICE_SLOPE**2 * own_var / 2)
    if_good, if_wrong = np.exp(PRICE_SLOPE * reading), np.exp(PRICE_SLOPE**2 * var / 2)
    assert told[0] < (good * if_good + (1 - good) * if_wrong)[0]


def test_what_a_product_fetched_tells_whether_its_own_tag_can_be_right() -> None:
    tag = np.full(40, 8.0)
    price = 0.9 * tag - 0.5 + np.tile([-0.3, 0.3], 20)
    tag[0] += _TEN
    tag[1], price[1] = tag[1] + _TEN, price[1] + 0.9 * _TEN
    price[2] = np.nan
    own = claims(tag, price)
    mean, var = np.full(40, 8.0), np.full(40, 0.5)
    found = read(tag, mean, var, 0.05, own.likelier(mean, var)).good
    assert found[0] < 0.05
    assert found[1] > 0.95
    assert own.likelier(mean, var)[2] == 1.0
