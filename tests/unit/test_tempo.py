"""Depth by product, own stock first, declared pace: laws that hold whatever was fitted."""

from dataclasses import replace

import numpy as np
import pytest
from tempo_world import START, World, lines_of, sales_of, world

from models.estimate.fit.tempo import fit_tempo
from models.estimate.products import Matched, match
from models.estimate.products import build_book as book_of
from models.estimate.tempo import days_to_sell, expected_sales, pace_lot, share_sold
from models.estimate.tempo_declared import chance_by, declared_pace
from models.estimate.tempo_draws import sold_draws
from models.estimate.tempo_lot import LotTempo, gamma_pace
from models.estimate.tempo_model import TempoModel
from models.values.arrays import texts
from models.values.lines import Lines
from models.values.settings import Selling, Settings

HALF_YEAR = 182.0


@pytest.fixture(scope="module")
def shop() -> World:
    return world(3)


@pytest.fixture(scope="module")
def model(shop: World) -> TempoModel:
    return fit_tempo(shop.sales, shop.product, shop.n_products, shop.until)


def matched(lines: Lines) -> Matched:
    book, _ = book_of(texts([]), texts([]), texts([]))
    found = match(book, lines.description, lines.sku, lines.gtin)
    return replace(found, product=found.product + 10_000)


def paced(lines: Lines, model: TempoModel, found: Matched | None = None) -> LotTempo:
    return pace_lot(lines, found or matched(lines), model, lambda _: Selling(), np.full(len(lines), 1000.0))


def share(lot: LotTempo, days: float = HALF_YEAR) -> np.ndarray:
    return share_sold(lot, np.full(len(lot.product), days))


def test_share_sold_is_a_share_and_falls_with_quantity() -> None:
    units = np.array([1.0, 2, 5, 40, 400])
    for shape in (0.3, 1.5, 20.0):
        shares = share(gamma_pace(np.arange(5), units, np.zeros(5), shape, 60.0))
        assert ((shares >= 0) & (shares <= 1)).all()
        assert (np.diff(shares) < 0).all()


def test_expected_sales_is_the_sum_of_the_chances_of_each_sale() -> None:
    """E min(N, k) = sum over j <= k of P(N >= j), an identity of counts."""
    from scipy.special import betainc

    a, b, t, k = 1.7, 45.0, 120.0, 12
    by_hand = sum(betainc(j, a, t / (b + t)) for j in range(1, k + 1))
    assert expected_sales(np.array([float(k)]), np.array([a]), np.array([b]), np.array([t]))[0] == pytest.approx(
        by_hand
    )


def test_forty_rows_of_one_are_one_row_of_forty(model: TempoModel) -> None:
    rows = lines_of([1] * 40, description=texts(["same thing"] * 40))
    tens = lines_of([10] * 4, description=texts(["same thing"] * 4))
    one = lines_of([40], description=texts(["same thing"]))
    sold = [float(share(paced(lines, model)) @ lines.quantity) for lines in (rows, tens, one)]
    assert sold[0] == pytest.approx(sold[2], rel=1e-9)
    assert sold[1] == pytest.approx(sold[2], rel=1e-9)
    apart = lines_of([1] * 40)
    assert float(share(paced(apart, model)).sum()) > 1.5 * sold[2]


def test_an_assorted_line_is_many_different_goods(model: TempoModel) -> None:
    alike = lines_of([40], description=texts(["mugs"]))
    mixed = replace(alike, assorted=np.array([True]))
    single = lines_of([1], description=texts(["mug"]))
    assert share(paced(mixed, model))[0] == pytest.approx(share(paced(single, model))[0], rel=1e-9)
    assert share(paced(mixed, model))[0] > share(paced(alike, model))[0]


def test_own_stock_sells_first(model: TempoModel) -> None:
    lines = lines_of([5])
    found = Matched(np.array([0]), texts(["p"]), np.array([True]))
    empty = replace(model, stock=np.zeros_like(model.stock))
    full = replace(model, stock=np.full_like(model.stock, 20.0))
    assert share(paced(lines, full, found))[0] < 0.5 * share(paced(lines, empty, found))[0]
    assert (
        np.nan_to_num(days_to_sell(paced(lines, full, found), 1e6), nan=1e9)[0]
        > days_to_sell(paced(lines, empty, found), 1e6)[0]
    )


def test_own_stock_days_without_a_sale_lower_the_rate(model: TempoModel) -> None:
    lines = lines_of([1])
    found = Matched(np.array([0]), texts(["p"]), np.array([True]))
    rates = [
        paced(lines, replace(model, expected=np.full_like(model.expected, H), sales=np.zeros_like(model.sales)), found)
        for H in (0.0, 0.5, 2.0, 8.0)
    ]
    assert (np.diff([float(lot.mean_rate[0]) for lot in rates]) < 0).all()


def test_order_of_lines_changes_nothing(model: TempoModel) -> None:
    names = texts(["a", "b", "a", "c", "a", "b"])
    lines = lines_of(
        [3, 1, 7, 2, 5, 4], description=names, condition=np.array([0, 2, 3, 1, 4, 0], dtype=np.int8),
        category=texts(["kind 0", "kind 1", "kind 2", "kind 3", "kind 0", "kind 9"]),
    )  # fmt: skip
    turn = np.array([4, 2, 5, 0, 3, 1])
    assert share(paced(lines, model))[turn].tolist() == share(paced(lines.take(turn), model)).tolist()


def test_days_to_sell_has_an_even_chance() -> None:
    lot = gamma_pace(np.array([0]), np.array([1.0]), np.zeros(1), 1.5, 90.0)
    median = days_to_sell(lot, 1e4)
    assert 1 - (1 + median[0] / 90.0) ** -1.5 == pytest.approx(0.5)
    assert np.isnan(days_to_sell(lot, median[0] - 1.0)[0])


@pytest.mark.parametrize("never", [0.0, 0.05, 0.15, 0.5, 0.9])
def test_declared_pace_matches_the_settings_twice(never: float) -> None:
    shape, rate, sd = declared_pace(never, 30.0)
    for days in (30.0, 120.0):
        expected = (1 - never) * (1 - 0.5 ** (days / 30.0))
        assert chance_by(days / rate, shape, sd) == pytest.approx(expected, abs=1e-4)


def test_a_declared_model_says_so_and_uses_the_settings(model: TempoModel) -> None:
    lot = pace_lot(
        lines_of([1]),
        matched(lines_of([1])),
        replace(model, declared=True),
        lambda _: Selling(days_to_sell=20.0),
        np.ones(1),
    )
    assert share(lot, 20.0)[0] == pytest.approx(0.425, abs=1e-6)
    assert lot.cautions[0].what.endswith(
        "too few to tell how soon goods sell. The settings stand in for it: 15% of listings never sell, half of the"
        " others sell within 20 days."
    )


def lamps(live: int, each: float = 2.5, sold: int = 147) -> tuple[TempoModel, Matched]:
    """One lamp sold every `each` days of a year, so many on offer still, and a product sold twice in that time."""
    ends = np.concatenate([np.arange(sold) * each, [100.0, 300.0], np.full(live, np.nan)])
    starts = np.where(np.isfinite(ends), np.maximum(ends - 8.0, 0.0), 350.0)
    product = np.concatenate([np.zeros(sold), [1, 1], np.zeros(live)]).astype(int)
    model = fit_tempo(sales_of(starts, ends), product, 2, START + np.timedelta64(370, "D"))
    return model, Matched(np.array([0, 1, 2]), texts(["lamp", "vase", "new"]), np.array([True, True, False]))


@pytest.mark.parametrize("live", [0, 3])
def test_a_sold_only_file_still_tells_how_fast_an_item_sells_at_least(live: int) -> None:
    model, found = lamps(live)
    assert model.declared
    lot = paced(lines_of([10, 10, 10]), model, found)
    assert 0.2 < lot.mean_rate[0] < 147 / 370
    assert 20 < 10 / lot.mean_rate[0] < 45
    assert share(lot, 60.0)[0] > (0.95 if live == 0 else 0.85)
    assert lot.mean_rate[1] == lot.mean_rate[2]
    assert share(lot)[1] == share(lot)[2]
    assert lot.cautions[0].what.endswith("count at the pace of those sales.")
    drawn = sold_draws(lot, np.arange(3), np.full((3, 8192), 10.0), np.full(3, 60.0), 1).mean(axis=1) / 10.0
    assert drawn == pytest.approx(share(lot, 60.0), abs=0.03)


def test_three_or_five_live_listings_change_a_fast_items_pace_little() -> None:
    paces = []
    for live in (0, 3, 4, 5, 8):
        model, found = lamps(live)
        paces.append(paced(lines_of([10] * 3), model, found).mean_rate[0])
    assert max(paces) < 2.0 * min(paces)


def test_own_sales_never_lower_a_declared_pace() -> None:
    for each in (5.0, 20.0, 60.0, 90.0):
        model, found = lamps(0, each, int(365 / each))
        lot = paced(lines_of([1, 1, 1]), model, found)
        assert lot.mean_rate[0] >= lot.mean_rate[2]
        assert share(lot, 90.0)[0] >= share(lot, 90.0)[2]


def test_a_declared_pace_is_that_of_each_category(model: TempoModel) -> None:
    settings = Settings(by_category={"Toys": {"days_to_sell": 20.0}, "Garden": {"never_sells_share": 0.6}})
    lines = lines_of([1, 1, 1], category=texts(["Toys > Dolls", "Garden", "Kitchen"]))
    declared = replace(model, declared=True)
    lot = pace_lot(lines, matched(lines), declared, settings.selling_for, np.ones(3))
    assert "by category: 15% to 60% of listings never sell, half of the others sell within 20 to 45 days" in (
        lot.cautions[0].what
    )
    assert share(lot, 20.0)[0] == pytest.approx(0.85 / 2, abs=1e-6)
    assert share(lot, 45.0)[1:] == pytest.approx([0.4 / 2, 0.85 / 2], abs=1e-6)
    drawn = sold_draws(lot, np.arange(3), np.ones((3, 8192)), np.full(3, 45.0), 1).mean(axis=1)
    assert drawn == pytest.approx(share(lot, 45.0), abs=0.03)


def test_no_lines_have_no_pace(model: TempoModel) -> None:
    lot = paced(lines_of([]), model)
    assert share(lot).shape == days_to_sell(lot, 100.0).shape == (0,)
