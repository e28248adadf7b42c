"""Rates fitted on worlds whose rates are known; histories that cannot tell say so."""

from dataclasses import replace

import numpy as np
import pytest
from tempo_world import START, World, days, lines_of, sales_of, world

from models.estimate.fit.tempo import MOST_LEVELS, fit_tempo, own_stock
from models.estimate.fit.tempo_exposure import pieces_of, stock_days, stock_days_by_month, timed_listings
from models.estimate.fit.tempo_least import own_pace
from models.estimate.fit.tempo_ridge import Prior, frailty_ridge
from models.estimate.products import Matched
from models.estimate.tempo import pace_lot, share_sold
from models.estimate.tempo_model import TempoModel
from models.values.arrays import texts
from models.values.packing import pack, unpack
from models.values.settings import Selling
from models.values.streams import stream

UNTIL = START + np.timedelta64(500, "D")


def fitted(shop: World) -> TempoModel:
    return fit_tempo(shop.sales, shop.product, shop.n_products, shop.until)


def test_shares_sold_of_new_goods_come_out_right() -> None:
    """Over six worlds: a new product of each kind, 60 days, against the true mean over its frailty."""
    errors = []
    for seed in range(6):
        shop = world(seed)
        lines = lines_of([1] * 4, category=texts([f"kind {k}" for k in range(4)]))
        new = Matched(np.arange(4) + shop.n_products, lines.description, np.zeros(4, dtype=bool))
        lot = pace_lot(lines, new, fitted(shop), lambda _: Selling(), np.full(4, np.nan))
        mu = np.exp(np.log(1 / 60) + np.array([-0.6, -0.2, 0.2, 0.6]))
        truth = 1 - (1 + 60 * mu / 1.5) ** -1.5
        errors.append(share_sold(lot, np.full(4, 60.0)) - truth)
    assert abs(np.mean(errors)) < 0.02
    assert np.sqrt(np.mean(np.square(errors))) < 0.06


def test_own_sales_tell_a_product_apart() -> None:
    """Against who knows the kinds' true rates and the frailty's shape, but not the product's own rate."""
    shop = world(11, n_products=300, units=6.0)
    lines = lines_of([1] * shop.n_products, category=texts(shop.category))
    known = Matched(np.arange(shop.n_products), lines.description, np.ones(shop.n_products, dtype=bool))
    lot = pace_lot(lines, known, fitted(shop), lambda _: Selling(), np.full(shop.n_products, np.nan))
    timed = timed_listings(shop.sales, shop.product, shop.until)
    in_stock = np.bincount(timed.product, weights=stock_days(timed), minlength=shop.n_products)
    true_mu = np.exp(np.log(1 / 60) + np.array([-0.6, -0.2, 0.2, 0.6]))[[int(name[-1]) for name in shop.category]]
    oracle = (1.5 + np.bincount(timed.product, weights=timed.events)) / (1.5 / true_mu + in_stock)
    assert np.sqrt(np.mean(np.log(lot.mean_rate / oracle) ** 2)) < 0.12
    assert np.std(np.log(oracle / true_mu)) > 0.5


def test_dropping_unsold_listings_would_be_wrong_and_is_not_done() -> None:
    shop = world(5)
    sold_only = replace(shop, sales=shop.sales.take(shop.sales.sold), product=shop.product[shop.sales.sold])
    model = fitted(sold_only)
    assert model.declared
    assert model.unsold_units == 0
    assert not fitted(shop).declared


def test_histories_without_listing_dates_are_declared() -> None:
    shop = world(5)
    blank = replace(shop.sales, listed_on=days(np.full(len(shop.sales), np.nan)))
    model = fitted(replace(shop, sales=blank))
    assert model.declared
    assert model.stock.sum() == (~shop.sales.sold).sum()


def test_sold_only_files_keep_the_least_pace_of_a_product() -> None:
    """Sales after the first day of sale, over the days since the first listing, or since the first sale."""
    sold = [10.0, 10.0, 30.0, 60.0, 90.0, 90.0, np.nan]
    listed = [0.0, 5.0, 20.0, np.nan, 80.0, 70.0, 3.0]
    units = np.array([1, 1, 1, 1, 1, 4, 1])
    own = own_pace(sales_of(listed, sold, quantity=units), np.array([0, 0, 0, 1, 1, 2, 3]), 5, days(100.0)[()])
    assert own.sales.tolist() == [1.0, 1.0, 0.0, 0.0, 0.0]
    assert own.days.tolist() == [100.0, 40.0, 30.0, 0.0, 0.0]


def test_units_of_a_row_count_as_that_many_sales() -> None:
    sales = sales_of([0.0] * 12, [10.0] * 6 + [np.nan] * 6, quantity=np.array([3] * 6 + [2] * 6))
    model = fit_tempo(sales, np.arange(12), 12, UNTIL)
    assert model.sold_units == 18
    assert model.unsold_units == 12
    assert model.sales[:6].tolist() == [3.0] * 6
    assert model.stock.tolist() == [0.0] * 6 + [2.0] * 6


def test_a_sale_after_the_end_of_what_is_known_was_unsold_then() -> None:
    sales = sales_of([0.0, 0.0, 90.0], [10.0, 80.0, 95.0])
    until = START + np.timedelta64(40, "D")
    timed = timed_listings(sales, np.arange(3), until)
    assert timed.sold.tolist() == [True, False]
    assert timed.on_sale.tolist() == [10.0, 40.0]
    assert own_stock(sales, np.arange(3), 3, until).tolist() == [0.0, 1.0, 0.0]


def test_rows_that_cannot_be_timed_teach_nothing() -> None:
    sales = sales_of([5.0, np.nan, 3.0, 0.0], [2.0, 9.0, 3.0, np.nan])
    timed = timed_listings(sales, np.arange(4), UNTIL)
    assert timed.row.tolist() == [2, 3]
    assert timed.on_sale[0] == 0.5


def test_days_count_from_the_first_listing() -> None:
    sales = sales_of([20.0], [30.0], first_listed_on=days([5.0]))
    assert timed_listings(sales, np.array([0]), UNTIL).on_sale.tolist() == [25.0]


def test_months_share_out_the_stock_days() -> None:
    sales = sales_of([0.0, 31.0, 10.0], [31.0, 31.0, np.nan])
    timed = timed_listings(sales, np.array([0, 1, 2]), UNTIL)
    spent = stock_days(timed)
    pieces = pieces_of(timed, seasonal=True)
    assert np.bincount(pieces.listing, weights=pieces.days) == pytest.approx(spent)
    assert np.bincount(pieces.listing, weights=pieces.events, minlength=3).tolist() == [1.0, 1.0, 0.0]
    assert stock_days_by_month(timed)[1, 1] == 0.5


def test_a_season_is_found() -> None:
    """Listings of equal goods sell three times as fast from June to August."""
    listed = np.repeat(np.arange(0, 1000, 5), 3).astype(float)
    gap = np.where(
        np.isin((START + listed.astype("timedelta64[D]")).astype("datetime64[M]").astype(int) % 12, (5, 6, 7)), 10, 30
    )
    ends = listed + gap + np.tile([0, 4, 8], 200)
    shop = sales_of(listed, np.where(ends < 1000, ends, np.nan))
    model = fit_tempo(shop, np.arange(len(shop)), len(shop), START + np.timedelta64(1000, "D"))
    assert model.seasonal
    assert model.month_effect[[5, 6, 7]].mean() > model.month_effect[[0, 1, 2, 10, 11]].mean() + 0.3
    assert np.mean(np.exp(model.month_effect)) == pytest.approx(1.0)


def test_dearer_goods_of_a_category_may_sell_slower() -> None:
    shop = world(7)
    asked = np.where(shop.rate[shop.product] > np.median(shop.rate), 500.0, 4000.0)
    model = fitted(replace(shop, sales=replace(shop.sales, asking_price=asked)))
    assert model.price_slope < -0.1


def test_a_gap_between_asking_and_sold_prices_is_no_effect_of_price() -> None:
    shop = world(7)
    asked = np.where(shop.sales.sold, np.nan, 2000.0)
    model = fitted(replace(shop, sales=replace(shop.sales, asking_price=asked)))
    assert model.price_slope == pytest.approx(0.0, abs=1e-6)


def test_frailty_is_found() -> None:
    shapes = [
        fitted(world(seed, n_products=1500, units=4.0, shape=shape)).shape for seed, shape in ((1, 0.8), (2, 6.0))
    ]
    assert 0.6 < shapes[0] < 1.1
    assert 3.5 < shapes[1] < 10.0


def test_spreads_are_learned() -> None:
    """Brands of equal pace beside brands that differ by a sd of .8: forty of each, sixty listings a brand."""
    rng = stream(1, "spreads")
    brand = np.repeat(np.arange(40), 60)
    learned = []
    for sd in (0.0, 0.8):
        days = rng.exponential(50.0, len(brand)) * np.exp(sd * rng.normal(size=40))[brand]
        end = np.where(days < 200, np.floor(days), np.nan)
        sales = sales_of(np.zeros(len(brand)), end, brand=texts([f"b{b}" for b in brand]))
        learned.append(fit_tempo(sales, np.arange(len(brand)), len(brand), START + np.timedelta64(200, "D")).brand)
    assert learned[0].spread < 0.15
    assert 0.6 < learned[1].spread < 1.0
    never = texts(["never seen"])
    assert learned[1].sd_of(never)[0] == learned[1].spread
    assert learned[1].mean_of(never)[0] == pytest.approx(learned[1].spread ** 2 / 2)
    seen = learned[1].name[:5]
    assert (learned[1].sd_of(seen) < 0.3).all()
    assert learned[1].mean_of(seen) == pytest.approx(learned[1].effect_of(seen), abs=0.01)


def test_rare_levels_of_a_long_history_are_goods_of_an_unknown_kind() -> None:
    n = MOST_LEVELS + 100
    brand = texts([f"b{i:04d}" for i in range(n)] + [f"b{i:04d}" for i in range(0, n, 2)])
    sales = sales_of(np.zeros(len(brand)), np.where(np.arange(len(brand)) % 3 > 0, 20.0, np.nan), brand=brand)
    model = fit_tempo(sales, np.arange(len(brand)), len(brand), UNTIL)
    assert len(model.brand.name) == MOST_LEVELS
    assert set(brand[::2].tolist()[: n // 2]) <= set(model.brand.name.tolist())


def test_a_model_kept_by_an_older_version_is_read() -> None:
    arrays = fitted(world(1)).arrays()
    kept = {name: array for name, array in arrays.items() if not name.endswith((".spread", "_sd"))}
    assert len(kept) == len(arrays) - 6
    back = TempoModel.from_arrays(kept)
    assert back.price_slope_sd == 0.0
    assert back.condition_sd.tolist() == [0.0] * 6
    assert back.brand.spread > 0


def test_nothing_sold_is_no_fit() -> None:
    from scipy.sparse import csr_matrix

    with pytest.raises(ValueError, match="nothing was sold"):
        frailty_ridge(
            csr_matrix(np.ones((1, 1))),
            np.zeros(1),
            np.ones(1),
            np.zeros(1, dtype=int),
            Prior(np.zeros(1, int), np.ones(1)),
        )


def test_a_model_survives_storage() -> None:
    for model in (fitted(world(1)), fit_tempo(sales_of([], []), np.empty(0, dtype=int), 0, UNTIL)):
        back = TempoModel.from_arrays(unpack(pack(model.arrays())))
        again = back.arrays()
        assert all(
            np.array_equal(value, again[name], equal_nan=value.dtype.kind == "f")
            for name, value in model.arrays().items()
        )
        assert back.declared is model.declared
