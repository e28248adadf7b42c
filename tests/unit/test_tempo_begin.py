"""Histories that begin in the middle: what sold before their first sale is missing, what did not sell is not."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from tempo_world import START, lines_of, sales_of, world

from models.estimate.fit.tempo import fit_tempo
from models.estimate.fit.tempo_begin import begun, first_day
from models.estimate.fit.tempo_exposure import timed_listings
from models.estimate.products import Matched, build_book, match
from models.estimate.tempo import pace_lot, share_sold
from models.estimate.tempo_model import TempoModel
from models.intake.history import read_history
from models.intake.manifest import read_manifest
from models.values.sales import Sales
from models.values.settings import Selling
from models.values.streams import stream

SPAN = 1090
UNTIL = START + np.timedelta64(SPAN, "D")
DEMO = Path(__file__).parents[2] / "demo_data"


def clean_shop(seed: int = 5) -> Sales:
    """Different goods listed evenly over three years; nine in ten sell after 40 days on average, the others never."""
    source = stream(seed, "clean shop")
    listed = np.floor(np.arange(3000) * SPAN / 3000)
    ends = listed + np.floor(source.exponential(40.0, 3000))
    never = source.random(3000) < 0.1
    return sales_of(listed, np.where(never | (ends > SPAN), np.nan, ends))


def truth(within: float) -> float:
    return float(0.9 * (1.0 - np.exp(-within / 40.0)))


def since(sales: Sales, day: int) -> Sales:
    """An export of the sales from a day on, and of what is on offer still."""
    return sales.take(~sales.sold | (sales.sold_on >= START + np.timedelta64(day, "D")))


def fitted(sales: Sales) -> TempoModel:
    return fit_tempo(sales, np.arange(len(sales)), len(sales), UNTIL)


def share(model: TempoModel, within: float = 90.0) -> float:
    lines = lines_of([1])
    new = Matched(np.array([10**6]), lines.description, np.zeros(1, dtype=bool))
    lot = pace_lot(lines, new, model, lambda _: Selling(), np.array([np.nan]))
    return float(share_sold(lot, np.array([within]))[0])


@pytest.mark.parametrize("last_days", [90, 365])
def test_recent_sales_and_live_listings_tell_the_pace(last_days: int) -> None:
    for seed in (5, 6):
        shop = clean_shop(seed)
        model = fitted(since(shop, SPAN - last_days))
        assert model.begins == pytest.approx((UNTIL.astype(int) - last_days), abs=3)
        assert share(model) == pytest.approx(truth(90.0), abs=0.08)
        assert share(model) == pytest.approx(share(fitted(shop)), abs=0.08)


def test_it_would_be_wrong_otherwise() -> None:
    """Counted from their first listing, the slow ones that are left say that hardly anything sells."""
    cut = since(clean_shop(), SPAN - 90)
    timed = timed_listings(cut, np.arange(len(cut)), UNTIL)
    rate = timed.events.sum() / timed.on_sale.sum()
    assert 1.0 - np.exp(-90.0 * rate) < 0.5 * truth(90.0)


def test_few_goods_listed_since_are_nearer_than_all_that_wait() -> None:
    """Twelve shops of about 20 sales in 90 days, some 13 of them of goods listed in that time."""
    told = [share(fitted(since(clean_shop(seed).take(np.arange(0, 3000, 12)), SPAN - 90))) for seed in range(12)]
    assert np.sqrt(np.mean((np.array(told) - truth(90.0)) ** 2)) < 0.12
    assert abs(np.mean(told) - truth(90.0)) < 0.08


def test_without_goods_listed_since_all_that_are_left_tell_it() -> None:
    cut = since(clean_shop(), SPAN - 90)
    before = cut.take(cut.listed_on < START + np.timedelta64(SPAN - 90, "D"))
    model = fitted(before)
    assert np.isfinite(model.begins)
    timed = timed_listings(before, np.arange(len(before)), UNTIL)
    known = begun(timed)
    assert known.taught is known.seen
    assert len(known.seen.row) == len(before)
    assert (known.seen.start >= model.begins).all()


def test_a_whole_history_is_left_as_it_is() -> None:
    for seed in range(20):
        shop = world(seed, n_products=200)
        timed = timed_listings(shop.sales, shop.product, shop.until)
        known = begun(timed)
        assert np.isnan(known.begins)
        assert known.seen is timed
        assert known.taught is timed


def test_slow_goods_listed_at_once_make_no_beginning() -> None:
    listed = np.zeros(40)
    sold = np.where(np.arange(40) < 12, 60.0 + 20.0 * np.arange(40), np.nan)
    assert np.isnan(first_day(timed_listings(sales_of(listed, sold), np.arange(40), START + np.timedelta64(400, "D"))))


def test_listed_again_counts_as_listed_before() -> None:
    """An export by the last listing: goods listed long ago are in it only because they were listed again."""
    shop = clean_shop()
    kept = shop.take((shop.listed_on >= UNTIL - np.timedelta64(120, "D")) | (~shop.sold))
    old = kept.listed_on < UNTIL - np.timedelta64(120, "D")
    again = replace(
        kept,
        first_listed_on=np.where(old, kept.listed_on, np.datetime64("NaT", "D")),
        listed_on=np.where(old, UNTIL - np.timedelta64(100, "D"), kept.listed_on),
    )
    model = fitted(again)
    assert share(model) == pytest.approx(truth(90.0), abs=0.08)
    assert model.stock.sum() == (~again.sold).sum()


def test_a_mistyped_day_of_sale_does_not_hide_it() -> None:
    cut = since(clean_shop(), SPAN - 90)
    stray = sales_of([3.0], [9.0])
    both = Sales(**{name: np.concatenate([getattr(stray, name), getattr(cut, name)]) for name in vars(cut)})
    assert share(fitted(both)) == pytest.approx(share(fitted(cut)), abs=0.02)


def test_days_waited_since_the_beginning_lower_a_products_own_pace() -> None:
    cut = since(clean_shop(), SPAN - 90)
    model = fitted(cut)
    waiting = np.flatnonzero(~cut.sold & (cut.listed_on < START + np.timedelta64(200, "D")))
    assert (model.expected[waiting] > 1.0).all()
    assert (model.expected[waiting] < 10.0).all()
    assert (model.sales[waiting] == 0).all()


def test_it_is_said_where_the_history_begins() -> None:
    lines = lines_of([1])
    new = Matched(np.array([10**6]), lines.description, np.zeros(1, dtype=bool))
    told = [
        pace_lot(lines, new, fitted(shop), lambda _: Selling(), np.ones(1)).cautions
        for shop in (clean_shop(), since(clean_shop(), SPAN - 90))
    ]
    assert told[0] == ()
    first = told[1][0].what
    assert first.startswith("Your history begins with sales on 27 Sep 2026, but ")
    assert first.endswith("Goods listed earlier are counted from that day on.")


def test_the_demo_shops_last_quarter_tells_the_pace_of_the_whole() -> None:
    data = (DEMO / "sold_history.csv").read_bytes()
    sales = read_history(data, "sold_history.csv", {}, "USD").sales
    cut = sales.take(~sales.sold | (sales.sold_on >= np.datetime64("2026-04-01")))
    data = (DEMO / "manifest_tidy.xlsx").read_bytes()
    lines = read_manifest(data, "manifest_tidy.xlsx", {}, "USD").lines
    shares = []
    for known in (sales, cut):
        book, product = build_book(known.title, known.sku, known.gtin)
        model = fit_tempo(known, product, book.n_products, np.datetime64("2026-07-01"))
        found = match(book, lines.description, lines.sku, lines.gtin)
        lot = pace_lot(lines, found, model, lambda _: Selling(), np.full(len(lines), np.nan))
        shares.append(share_sold(lot, np.full(len(lines), 182.0)).mean())
    assert shares[1] == pytest.approx(shares[0], abs=0.1)
