"""Auctions of the bench: who wins and pays what, the rules behind a limit, stand-ins with the shops' own moments."""

from dataclasses import replace

import numpy as np
import pytest

from models.bench.auctions import trial
from models.bench.auctions.bidding import (
    Z,
    auctioned,
    expected,
    hindsight_limits,
    limits,
    lost,
    oracle_limits,
    profit,
    ruled_limits,
    tag_limits,
)
from models.bench.auctions.judged import Crowd, Judged, Stated, judged, paid_share
from models.bench.auctions.market import SharedMarket
from models.bench.auctions.surrogate import calibrated
from models.bench.auctions.trial import BIDDINGS, EQUAL_KINDS, OTHER_KINDS, measured, rival_limits, run_auctions
from models.bench.plan import FULL, QUICK
from models.bench.shop import fitted, priced
from models.bench.tasks import Results
from models.bench.workloads import auctions as workload
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, Dealer, World
from models.decide.rivals import shade_factor
from models.values.streams import stream

SHAPE = Shape(seed=5, n_sales=60)
EVERYBODY = np.ones(4, dtype=bool)


def invented(lots: int, shops: int, own_sd: float, noise_sd: float = 0.2) -> Judged:
    """Shops that state their spreads rightly: what nobody can know, and an error of their own on a flat prior."""
    rng = stream(1, "test auctions")
    actual = noise_sd * rng.standard_normal(lots)
    stated = Stated(
        own_sd * rng.standard_normal((lots, shops)),
        np.full((lots, shops), np.hypot(own_sd, noise_sd)),
        np.full((lots, shops), max(own_sd, 1e-9) / 0.5**0.5),
    )
    return Judged(stated, stated, actual, actual + 1.0, np.full(lots, noise_sd), np.full(lots, -1.2))


def test_rising_the_winner_pays_the_runner_ups_limit_sealed_its_own() -> None:
    limit = np.log(np.array([[3.0, 5.0, 4.0], [9.0, 2.0, 1.0]]))
    assert auctioned(limit, "rising").winner.tolist() == [1, 0]
    assert np.exp(auctioned(limit, "rising").price) == pytest.approx([4.0, 2.0])
    assert np.exp(auctioned(limit, "sealed").price) == pytest.approx([5.0, 9.0])


def test_losses_and_profits_count_the_lots_won_only() -> None:
    sold = auctioned(np.log(np.array([[3.0, 2.0], [3.0, 2.0], [2.0, 9.0], [3.0, 2.0]])), "sealed")
    actual, won = np.log(np.array([4.0, 2.0, 1.0, 3.0])), sold.winner == 0
    assert lost(sold, actual, won) == pytest.approx(1 / 3)
    assert profit(sold, actual, won) == pytest.approx((1 - 1 + 0) / 4)
    assert np.isnan(lost(sold, actual, ~EVERYBODY))


@pytest.mark.parametrize("bidding", BIDDINGS)
@pytest.mark.parametrize("told", [0, 1, 3, 8])
def test_the_limit_is_what_the_rules_give_and_confidence_binds(bidding: str, told: int) -> None:
    stated = Stated(np.array([[0.1, -0.3]]), np.array([[0.2, 0.5]]), np.array([[0.1, 0.3]]))
    assert limits(stated, told, bidding) == pytest.approx(ruled_limits(stated, told, bidding), abs=1e-3)


def test_every_price_is_shaded_by_the_judgements_spread_not_by_the_whole() -> None:
    stated = Stated(np.array([[0.0, 0.0]]), np.array([[0.4, 0.4]]), np.array([[0.1, 0.3]]))
    gap = limits(stated, 3, "sealed") - limits(stated, 0, "sealed")
    assert np.exp(gap)[0] == pytest.approx([shade_factor(3, 0.5, sd, "sealed") for sd in (0.1, 0.3)])
    assert expected(stated, 3, "sealed")[0] == pytest.approx(np.exp(0.08 + gap[0]))


@pytest.mark.parametrize("rivals", [1, 3, 8])
def test_shops_without_an_error_of_their_own_lose_exactly_as_stated(rivals: int) -> None:
    """No winner's curse where all judge alike: a fifth of the lots, however many bid."""
    seen = invented(40_000, rivals + 1, own_sd=0.0)
    told = dict(measured(seen, EQUAL_KINDS[0], "sealed"))
    assert told["nobody shades/lost"] == pytest.approx(0.2, abs=0.01)


def test_winning_is_bad_news_and_the_shade_answers_it() -> None:
    """Sealed, three rivals, own error as large as what nobody knows: the unshaded lose far more than a fifth."""
    seen = invented(60_000, 4, own_sd=0.2)
    told = dict(measured(seen, EQUAL_KINDS[1], "sealed"))
    assert told["nobody shades/lost"] > 0.3
    assert told["ours/lost"] < told["nobody shades/lost"] - 0.1
    assert told["ours/lost"] <= 0.23


def test_rivals_of_every_kind_bid_otherwise() -> None:
    seen = replace(invented(50, 4, 0.2), experts=invented(50, 3, 0.05).experts)
    by_key = {kind.key: rival_limits(seen, kind, "sealed") for kind in (EQUAL_KINDS[1], *OTHER_KINDS)}
    assert {limit.shape for key, limit in by_key.items()} == {(50, 3)}
    plain = limits(seen.shops, 3, "sealed")[:, 1:]
    assert (by_key["equal 3"] == plain).all()
    assert (by_key["rivals do not shade"] > plain).all()
    assert (by_key["rivals pay all they expect"] > by_key["rivals do not shade"]).all()
    assert by_key["rivals know the true odds"] == pytest.approx(np.full((50, 3), Z * 0.2))
    assert (by_key["rivals know ten times as much"] == limits(seen.experts, 3, "sealed")).all()


def test_baselines_in_the_same_auctions() -> None:
    seen = invented(20_000, 2, 0.2)
    assert oracle_limits(seen) == pytest.approx(np.full(20_000, Z * 0.2))
    assert tag_limits(seen) == pytest.approx(seen.actual - 0.2)
    loose = replace(seen, tag_total=seen.tag_total + 0.3 * stream(3, "test").standard_normal(20_000))
    assert np.mean(loose.actual < hindsight_limits(loose)) == pytest.approx(0.2, abs=1e-3)


def test_stand_ins_have_the_moments_of_the_shops() -> None:
    """Calibrated on stand-ins of a known make, drawn again: the same means, spreads and shared parts."""
    first = calibrated(invented(4000, 5, own_sd=0.15))
    first = replace(first, shared=first.shared + 0.05 * np.eye(8), own=np.diag([0.15, 0.1, 0.2]))
    again = calibrated(first.drawn(stream(2, "test"), 20_000, 5, 4))
    assert again.mean == pytest.approx(first.mean, abs=0.02)
    assert again.own @ again.own == pytest.approx(first.own @ first.own, abs=2e-3)
    assert again.shared @ again.shared == pytest.approx(first.shared @ first.shared, abs=4e-3)


@pytest.fixture(scope="module")
def market() -> SharedMarket:
    return SharedMarket(SHAPE)


def test_shops_of_a_market_share_goods_and_prices_but_no_sales(market: SharedMarket) -> None:
    one, other = (market.history(shop, 60) for shop in ("a", "b"))
    assert len(one) > 60
    assert int(one.sold.sum()) == int(other.sold.sum()) == 60
    assert not np.array_equal(market.brands_of("a"), market.brands_of("b"))
    known = {f"brand{brand}" for brand in np.flatnonzero(market.brands_of("a"))}
    assert set(one.brand.tolist()) <= known
    shared = set(one.title.tolist()) & set(other.title.tolist())
    assert 0 < len(shared) < len(set(one.title.tolist()))
    assert not set(zip(one.title, one.sold_price, strict=True)) & set(zip(other.title, other.sold_price, strict=True))
    assert np.array_equal(market.history("a", 60).title, one.title)


def test_a_lot_is_offered_to_all_alike_and_holds_few_brands(market: SharedMarket) -> None:
    lots = market.lots(3)
    assert [lot.actual for lot in lots] == [lot.actual for lot in SharedMarket(SHAPE).lots(3)]
    assert len({lot.actual for lot in lots}) == 3
    assert all(len(set(lot.lines.brand.tolist())) <= 10 for lot in lots)


def test_the_worlds_only_shop_is_a_dealer_in_its_own_goods() -> None:
    alone = World(SHAPE)
    goods = alone.goods
    named = World(SHAPE, Dealer("", 60, np.arange(goods.own), goods.popular))
    assert np.array_equal(alone.price, named.price)
    assert alone.lots(1)[0].actual == named.lots(1)[0].actual


def test_what_shops_state_is_what_the_product_says(market: SharedMarket) -> None:
    seen = judged(Crowd(SHAPE, lots=2, shops=2, experts=2, expert_sales=120))
    cutoff = DAY_ZERO + SHAPE.days
    lot = market.lots(2)[1]
    shop = fitted(market.history("shop 1", 60), cutoff)
    told = priced(shop, lot.lines, cutoff + int(lot.days_ahead))
    assert seen.shops.judgement_sd[1, 1] == told.judgement_sd
    assert seen.shops.sd[1, 1] == pytest.approx(told.log_sd)
    assert seen.shops.middle.shape == seen.experts.middle.shape == (2, 2)
    assert np.exp(seen.actual[1] - seen.shops.middle[1, 1]) == pytest.approx(
        lot.actual / np.exp(np.log(told.total.mean) - told.total.log_var / 2)
    )
    assert sum(seen.known) <= 1.0
    assert seen.tag_share[1] == paid_share(market.history("shop 1", 60))


def test_the_share_of_the_tags_is_read_off_ones_own_purchases(market: SharedMarket) -> None:
    """By hand: the worst fifth of the purchases with four sold and tagged rows or more."""
    history = market.history("a", 60)
    ratios = []
    for name in set(history.lot.tolist()) - {""}:
        rows = history.take((history.lot == name) & history.sold & ~np.isnan(history.tag_each))
        if len(rows) >= 4:
            ratios.append(rows.sold_price.sum() / rows.tag_each.sum())
    assert np.exp(paid_share(history)) == pytest.approx(np.quantile(ratios, 0.2))


def test_the_tables_hold_the_equal_rivals_against_the_bar(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = replace(QUICK, auctions=(2, 3))
    seen = replace(invented(300, 9, 0.15), known=(0.3, 0.3, 0.4))
    monkeypatch.setattr(trial, "judged", lambda crowd: seen)
    results: Results = {crowd: run_auctions(crowd) for crowd in workload.crowds(plan)}
    losses, money, calibration = workload.tables(plan, results)
    barred = [row for row in losses.rows if row.figures["lost"].bar]
    assert [row.labels for row in barred] == [
        (bidding, k, k, "equal, shade alike") for bidding in BIDDINGS for k in ("1", "3", "8")
    ]
    assert {row.figures["lost"].verdict for row in barred} == {"met"}
    assert min(row.figures["won"].mean for row in barred) >= 2000
    assert len(losses.rows) == len(money.rows) == 2 * (3 + len(OTHER_KINDS))
    assert calibration.rows[0].figures["own error"].mean == pytest.approx(0.15, rel=0.1)
    assert calibration.rows[0].figures["shared error"].mean == pytest.approx(0.2, rel=0.15)
    shops = [row.figures["lost, shops"].mean - row.figures["lost"].mean for row in barred]
    assert np.abs(shops).max() < 0.12


def test_two_plans_have_worlds_of_both_lot_sds() -> None:
    for plan in (QUICK, FULL):
        sds = [crowd.shape.lot_sd for crowd in workload.crowds(plan)]
        assert sds.count(0.15) == sds.count(0.30) == len(sds) / 2
        assert len({crowd.shape.seed for crowd in workload.crowds(plan)}) == len(sds)
