"""Proceeds of a known law through the rules and the risk of a bid.

Normal quantiles and expected shortfall (.90 1.754983, .95 2.062713, .975 2.337803, .99 2.665214) and the tail means of
the log-normal (.90 6.415895, .95 8.557227): closed forms, phi(z) / (1 - a) and exp(1/2) Phi(1 - z) / (1 - a); mean of
LN(0, 1) 1.648721.  That the tail mean splits the atom at the quantile: Rockafellar & Uryasev 2002, J. Banking & Finance
26:1443.  Newsvendor: Cachon & Terwiesch, Matching Supply with Demand, Q12.1 (N(200, 80), 8 short, 4 over: 234.458; the
book's table, rounded up, 235.2); N(3192, 1181), 70 short, 20 over: 4,095.12.
Worked terms (2,000 in cash, 15% premium, 3% surcharge, bid step 25): our own figures.
"""

from dataclasses import replace

import numpy as np
import pytest
from appraisal_world import answer, demo_lines
from scipy.special import ndtri

from models.decide.cash_risk import cash_risk
from models.decide.ceiling import LotDraws, bid_ceiling
from models.decide.figures import figures_at
from models.decide.quantiles import money_spread
from models.decide.room import Room
from models.decide.rules import cash_limits
from models.values.settings import Buying, Goals, Settings

EVENLY = ndtri((np.arange(400_000) + 0.5) / 400_000)  # equally likely values of a standard normal
UNIT = 1e6  # [minor units]
FREE = Room(True, 4.0, 26.0, 40.0, None)
PLAIN = Settings(buying=Buying(premium=0.0, freight=0.0))  # cash out is the bid itself
SHORTFALL = {0.90: 1.754983, 0.95: 2.062713, 0.975: 2.337803, 0.99: 2.665214}
LOG_NORMAL_TAIL = {0.90: 6.415895, 0.95: 8.557227}


def minor(values: np.ndarray) -> np.ndarray:
    return np.rint(UNIT * values)


def mean_below(draws: np.ndarray, chance: float) -> float:
    """Mean of the worst draws, from the loss to expect at the bid that the worst of them just miss."""
    limit = cash_limits(draws, draws, Goals(confidence=1 - chance))["confidence"]
    assert limit is not None
    return (limit - cash_risk(limit, draws, PLAIN).expected_loss / chance) / UNIT


@pytest.mark.parametrize(("level", "printed"), SHORTFALL.items())
def test_normal_expected_shortfall(level: float, printed: float) -> None:
    assert -mean_below(minor(EVENLY), 1 - level) == pytest.approx(printed, abs=2e-4)


@pytest.mark.parametrize(("level", "printed"), LOG_NORMAL_TAIL.items())
def test_log_normal_tail_mean(level: float, printed: float) -> None:
    """A cost with that law taken off a sure 100: the worst proceeds are those with the largest costs."""
    assert 100 - mean_below(minor(100 - np.exp(EVENLY[::-1])), 1 - level) == pytest.approx(printed, abs=2e-3)


def test_an_atom_at_the_quantile_is_split() -> None:
    """Nothing with chance .3, 10 otherwise: the worst half brings (.3 x 0 + .2 x 10) / .5 = 4."""
    draws = minor(np.where(np.arange(1000) < 300, 0.0, 10.0))
    assert mean_below(draws, 0.5) == pytest.approx(4.0)


@pytest.mark.parametrize(("confidence", "z"), [(0.80, -0.841621), (0.90, -1.281552), (0.95, -1.644854)])
def test_confidence_and_loss_limit_of_normal_proceeds(confidence: float, z: float) -> None:
    """10 with a spread of 2: cash out at most 10 + 2 z, and as much more as may be lost."""
    draws = minor(10 + 2 * EVENLY)
    goals = Goals(confidence=confidence, loss_limit=0.5 * UNIT, loss_chance=1 - confidence, return_on_cash=0.25)
    limits = cash_limits(draws, draws - UNIT, goals)
    assert limits["confidence"] == pytest.approx((10 + 2 * z) * UNIT, rel=1e-5)
    assert limits["loss_limit"] == pytest.approx((10.5 + 2 * z) * UNIT, rel=1e-5)
    assert limits["expected_return"] == pytest.approx(9 / 1.25 * UNIT, rel=1e-6)
    spread = money_spread(draws)
    quantile = {0.80: spread.p20, 0.90: spread.p10, 0.95: spread.p05}[confidence]
    assert quantile == limits["confidence"]


def test_log_normal_proceeds() -> None:
    """LN(0, 1): mean exp(1/2), a fifth below exp(-.841621); at that bid the chance to lose is a fifth."""
    draws = minor(np.exp(EVENLY))
    settings = replace(PLAIN, goals=Goals(return_on_cash=0.0), buying=replace(PLAIN.buying, bid_step=((0.0, 1.0),)))
    ceiling = bid_ceiling(LotDraws(draws, draws, 1.0), settings, FREE)
    assert ceiling.by_rule["expected_return"] == pytest.approx(1.648721 * UNIT, rel=1e-4)
    assert (ceiling.binding_rule, ceiling.amount) == ("confidence", pytest.approx(0.431011 * UNIT, rel=1e-4))
    figures = figures_at(ceiling.amount, LotDraws(draws, draws, 1.0), settings)
    assert figures.chance_of_cash_loss == pytest.approx(0.2, abs=1e-5)
    assert figures.expected_cash_gain == pytest.approx((1.648721 - 0.431011) * UNIT, rel=1e-4)


@pytest.mark.parametrize(
    ("mean", "sd", "short", "over", "quantity"), [(200, 80, 8, 4, 234.458), (3192, 1181, 70, 20, 4095.12)]
)
def test_newsvendor(mean: float, sd: float, short: float, over: float, quantity: float) -> None:
    """Its best order is the cash out that confidence allows at 1 - critical ratio; the risk of a bid agrees."""
    demand = minor(mean + sd * EVENLY)
    ratio = short / (short + over)
    limit = cash_limits(demand, demand, Goals(confidence=1 - ratio))["confidence"]
    assert limit == pytest.approx(quantity * UNIT, rel=1e-5)

    def cost(order: float) -> float:
        too_many = cash_risk(order * UNIT, demand, PLAIN).expected_loss / UNIT
        return over * too_many + short * (mean - order + too_many)

    step = sd / 20
    assert cost(quantity) < min(cost(quantity - step), cost(quantity + step))
    assert cash_risk(quantity * UNIT, demand, PLAIN).chance_of_cash_loss == pytest.approx(ratio, abs=1e-5)


@pytest.mark.parametrize(("tax", "unrounded", "amount"), [(0.0, 168847, 167500), (0.08, 156340, 155000)])
def test_two_thousand_in_cash(tax: float, unrounded: float, amount: float) -> None:
    got = worked(tax, freight=0.0)
    assert (got.binding_rule, got.unrounded, got.amount) == ("cash_limit", unrounded, amount)


@pytest.mark.parametrize(
    ("terms", "told"), [({}, "1688.47"), ({"tax_rate": 0.08}, "1563.40"), ({"freight": 355.35}, "1388.47")]
)
def test_two_thousand_in_cash_through_a_whole_evaluation(terms: dict[str, float], told: str) -> None:
    buying = {"premium": 0.15, "payment_surcharge": 0.03, "freight": 0, "rivals": "none", "bid_step": 25} | terms
    lines = demo_lines("manifest_new_brand.csv").take(np.arange(3))
    document = answer(lines, {"buying": buying, "goals": {"cash_limit": 2000}}).document
    assert document["bid_ceiling"]["by_rule"]["cash_limit"] == told


def test_freight_comes_off_before_the_shares() -> None:
    assert worked(0.0, freight=0.0).unrounded - worked(0.0, freight=35535.0).unrounded == 30000


def worked(tax: float, freight: float):
    plenty = np.full(100, 9e6)
    terms = Buying(
        premium=0.15, tax_rate=tax, payment_surcharge=0.03, freight=freight, rivals="none", bid_step=((0.0, 2500.0),)
    )
    return bid_ceiling(LotDraws(plenty, plenty, 1.0), Settings(buying=terms, goals=Goals(cash_limit=200000.0)), FREE)
