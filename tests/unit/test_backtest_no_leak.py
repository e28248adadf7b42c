"""What a cut-off says hangs on nothing that came later: change all of it, and every forecast stays as it was."""

from dataclasses import replace

import numpy as np
import pytest
from backtest_shop import history, middle_day, shop

from models.appraisal.backtest.forecast import Forecast, Window, forecast, known_then, window
from models.appraisal.backtest.own_lots import own_lots
from models.values.arrays import texts
from models.values.sales import Sales
from models.values.streams import stream


def with_minutes(sales: Sales) -> Sales:
    """The same shop, every other listing timed and some listed again."""
    rng, n = stream(1, "minutes"), len(sales)
    again = np.where(rng.random(n) < 0.2, 40, 0).astype("timedelta64[D]")
    return replace(
        sales,
        listing_minutes=np.where(rng.random(n) < 0.5, rng.uniform(3, 20, n), np.nan),
        first_listed_on=sales.listed_on,
        listed_on=sales.listed_on + again,
    )


def otherwise_after(sales: Sales, day: np.datetime64) -> Sales:
    """Everything that happened after the day happened differently; what was on sale by then stays on sale."""
    later, started = sales.sold_on > day, sales.first_listed_on > day
    return replace(
        sales,
        sold_price=np.where(later, sales.sold_price * 7 + 100, sales.sold_price),
        sold_on=np.where(later, sales.sold_on + 11, sales.sold_on),
        listed_on=np.where(sales.listed_on > day, sales.listed_on + 3, sales.listed_on),
        listing_minutes=np.where(started, 999.0, sales.listing_minutes),
        fees=np.where(later, 5.0, sales.fees),
        refunded=np.where(later, 5.0, sales.refunded),
        order_ref=texts(["changed" if one else "" for one in later]),
    )


def asked_at(sales: Sales, day: np.datetime64) -> tuple[Window, Forecast]:
    past = history(sales)
    question = window(past, day, own_lots(past, np.array([day]))[0])
    return question, forecast(known_then(past, day), question, "USD", {})


def by_row(found: tuple[Window, Forecast]) -> dict[int, list[float]]:
    """Everything that was said of each row of the file."""
    question, told = found
    said = {}
    for places, prices in zip(question.lots, told.lots, strict=True):
        for at, place in enumerate(places.tolist()):
            total = [prices.total.mean, prices.total.log_var]
            own = [prices.mu[at], prices.unit_price.mean[at], told.minutes[place], *told.sold_by[place], *total]
            said[int(question.listings.row[place])] = own
    return said


@pytest.fixture(scope="module")
def sales() -> Sales:
    return with_minutes(shop())


def test_what_came_later_changes_no_forecast(sales: Sales) -> None:
    day = middle_day(sales)
    before, after = by_row(asked_at(sales, day)), by_row(asked_at(otherwise_after(sales, day), day))
    assert before.keys() == after.keys()
    assert len(before) > 100
    told = np.array([before[row] for row in before])
    assert np.isfinite(told).all()
    np.testing.assert_allclose(np.array([after[row] for row in before]), told, rtol=1e-9)


def test_rows_listed_after_the_question_change_no_forecast(sales: Sales) -> None:
    day = middle_day(sales)
    next_day = day + 28
    past = history(sales)
    question = window(past, day, own_lots(past, np.array([day, next_day]))[0])
    told = forecast(known_then(past, day), question, "USD", {})
    shorter = sales.take(~(sales.first_listed_on > next_day) | np.isin(sales.row, question.listings.row))
    past = history(shorter)
    again = window(past, day, own_lots(past, np.array([day, next_day]))[0])
    assert again.listings.row.tolist() == question.listings.row.tolist()
    found = forecast(known_then(past, day), again, "USD", {})
    assert [lot.total.mean for lot in found.lots] == [lot.total.mean for lot in told.lots]


def test_what_was_known_does_change_it(sales: Sales) -> None:
    day = middle_day(sales)
    dearer = replace(sales, sold_price=np.where(sales.sold_on <= day, sales.sold_price * 2, sales.sold_price))
    before, after = by_row(asked_at(sales, day)), by_row(asked_at(dearer, day))
    ratio = np.median([after[row][1] / before[row][1] for row in before])
    assert 1.5 < ratio < 2.5


def test_the_question_holds_no_outcome(sales: Sales) -> None:
    listings = asked_at(sales, middle_day(sales))[0].listings
    for name in ("sold_price", "fees", "refunded", "shipping_charged", "shipping_paid", "listing_minutes"):
        assert np.isnan(getattr(listings, name)).all(), name
    assert np.isnat(listings.sold_on).all()


def test_what_was_unsold_then_counts_as_unsold(sales: Sales) -> None:
    day = middle_day(sales)
    known = known_then(history(sales), day)
    assert not (known.sold_on > day).any()
    assert not (known.first_listed_on > day).any()
    assert not (known.listed_on > day).any(), "listed again later: nobody knew"
    waiting = (sales.first_listed_on <= day) & ~(sales.sold_on <= day)
    assert int((~known.sold).sum()) == int(waiting.sum()) > 10
