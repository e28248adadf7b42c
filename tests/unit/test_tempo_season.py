"""A season is what buyers do, not when goods are listed: many units of an item at once, year after year."""

import numpy as np
import pytest
from tempo_world import START, lines_of, sales_of

from models.estimate.fit.tempo import fit_tempo
from models.estimate.fit.tempo_exposure import Timed, stock_days_by_month
from models.estimate.products import Matched
from models.estimate.tempo import in_season, pace_lot, share_sold
from models.estimate.tempo_lot import LotTempo
from models.estimate.tempo_model import TempoModel
from models.values.arrays import texts
from models.values.settings import Selling
from models.values.streams import stream

ITEMS, UNITS, SPAN, WINDOW = 30, 10, 690, 170
WAVE = np.cos(2 * np.pi * (np.arange(12) - 10) / 12)  # best in November
ASKED = tuple(np.datetime64(f"2026-{month}-20") for month in ("02", "05", "08", "11"))


def waves(seed: int, season: float) -> TempoModel:
    """Buyers of each item come once in 30 days; its ten units are listed together in spring, and again a year later."""
    source = stream(seed, "waves")
    month = (START + np.arange(SPAN).astype("timedelta64[D]")).astype("datetime64[M]").astype(int) % 12
    pace = np.exp(season * WAVE[month])
    buyers = np.concatenate([[0.0], np.cumsum(pace / np.mean(pace[:366]))]) / 30.0  # expected by each day
    listed, sold, product = [], [], []
    for item in range(ITEMS):
        free, first = 0.0, int(source.integers(60, 120))
        for day in (first, first + 365):
            comes = max(free, buyers[day]) + np.cumsum(source.standard_exponential(UNITS))
            free = comes[-1]
            ends = np.ceil(np.interp(comes, buyers, np.arange(SPAN + 1.0)))
            listed += [float(day)] * UNITS
            sold += np.where(comes < buyers[-1], ends, np.nan).tolist()
            product += [item] * UNITS
    return fit_tempo(sales_of(listed, sold), np.array(product), ITEMS, START + np.timedelta64(SPAN, "D"))


def ten_of_each(model: TempoModel) -> LotTempo:
    lines = lines_of([UNITS] * ITEMS)
    known = Matched(np.arange(ITEMS), texts([str(item) for item in range(ITEMS)]), np.ones(ITEMS, dtype=bool))
    return pace_lot(lines, known, model, lambda _: Selling(), np.full(ITEMS, np.nan))


@pytest.mark.parametrize("seed", range(4))
def test_many_units_of_an_item_listed_together_are_no_season(seed: int) -> None:
    lot = ten_of_each(waves(seed, 0.0))
    told = [in_season(lot, day, float(WINDOW)) for day in ASKED]
    shares = [np.mean(share_sold(one, np.full(ITEMS, float(WINDOW)))) for one in told]
    assert max(shares) / min(shares) < 1.1
    assert not any(one.cautions for one in told)


@pytest.mark.parametrize("seed", range(4))
def test_a_season_of_their_buyers_is_found_and_said(seed: int) -> None:
    """Truth: exp(.6 cos); shrunk a little, and known from 300 sales only."""
    model = waves(seed, 0.6)
    assert 0.35 < model.month_effect @ WAVE / 6.0 < 0.75
    lot = ten_of_each(model)
    autumn = in_season(lot, np.datetime64("2026-10-01"), 90.0).cautions[-1].what
    spring = in_season(lot, np.datetime64("2026-04-01"), 90.0).cautions[-1].what
    assert "faster than over the whole year" in autumn
    assert "slower than over the whole year" in spring


def test_a_product_has_each_day_once_in_the_month_of_that_day() -> None:
    """Against counting from noon to noon how many of its listings are on sale."""
    source = stream(3, "units together")
    n, days = 60, 800
    product, start = source.integers(0, 5, n), source.integers(0, 700, n).astype(float)
    end = np.minimum(start + source.integers(1, 200, n), days)
    timed = Timed(np.arange(n), product, start, end, np.ones(n, dtype=bool), np.ones(n))
    day = np.arange(days)
    there = (start[:, None] <= day) & (day < end[:, None])
    together = np.array([there[product == one].sum(axis=0) for one in range(5)])
    months = [(day + half).astype("datetime64[D]").astype("datetime64[M]").astype(int) % 12 for half in (0, 1)]
    counted = (there / np.maximum(together, 1)[product]) @ (np.eye(12)[months[0]] + np.eye(12)[months[1]]) / 2
    assert stock_days_by_month(timed) == pytest.approx(counted, abs=1e-9)
