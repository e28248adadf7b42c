"""Columns of the regression: steps of the market, seasons, levels chosen and left out."""

import numpy as np
import pytest

from models.estimate.blocks import Facts, design
from models.estimate.fit.prices_levels import PRICE_BLOCKS, chosen, price_base
from models.estimate.unseen import unseen_levels
from models.values.arrays import texts


def facts(n=4, **given):
    """Rows alike in everything but what is given."""
    zeros = np.zeros(n)
    plain = {
        "condition": np.zeros(n, dtype=np.int8), "top": texts(["home"] * n), "sub": texts(["mugs"] * n),
        "brand": texts(["acme"] * n), "title": texts(["red mug"] * n), "tag": zeros, "no_tag": zeros, "bulk": zeros + 1,
        "age_days": zeros, "day": zeros + np.nan, "purchase": texts([""] * n),
    }  # fmt: skip
    return Facts(**plain | given)


def column(layout, rows, block, name):
    """One column of the design, dense."""
    from models.estimate.blocks import BLOCKS

    at = np.flatnonzero((layout.block == BLOCKS.index(block)) & (layout.name == name))
    assert len(at) == 1, (block, name)
    vector = np.zeros(layout.width)
    vector[at[0]] = 1.0
    return rows.times(vector)


def test_the_market_is_walked_back_from_the_last_sale():
    rows = facts(age_days=np.array([0.0, 45.5, 91.0, 136.5]))
    layout = chosen(rows, PRICE_BLOCKS, ("intercept",))
    assert column(layout, design(layout, rows), "walk", "0").tolist() == [0.0, 0.5, 1.0, 1.0]
    ahead = facts(1, age_days=np.array([-50.0]))
    assert column(layout, design(layout, ahead), "walk", "0").tolist() == [0.0]


def test_a_trend_is_followed_half_a_year_ahead_and_no_further():
    rows = facts(age_days=np.array([500.0, 0.0, -91.3125, -1000.0]), tag=np.arange(4.0))
    layout = chosen(rows, PRICE_BLOCKS, price_base(rows))
    found = column(layout, design(layout, rows), "base", "trend")
    assert found == pytest.approx([-500 / 365.25, 0.0, 0.25, 182 / 365.25])


def test_a_short_history_has_no_trend_and_no_season():
    rows = facts(age_days=np.array([0.0, 10.0, 20.0, 300.0]), day=np.arange(4.0))
    layout = chosen(rows, PRICE_BLOCKS, price_base(rows))
    assert "trend" not in layout.levels("base")
    assert layout.levels("season") == []


def test_seasons_are_waves_of_the_year():
    n = 40
    rows = facts(n, age_days=np.linspace(0, 700, n), day=np.arange(n) * 18.0)
    layout = chosen(rows, PRICE_BLOCKS, price_base(rows))
    wave = column(layout, design(layout, rows), "season", "sin\x1fhome")
    assert wave == pytest.approx(np.sin(2 * np.pi * np.arange(n) * 18.0 / 365.25), abs=1e-12)


def test_one_level_of_category_has_no_top_block():
    rows = facts(top=texts(["mugs"] * 4))
    assert chosen(rows, PRICE_BLOCKS, ("intercept",)).levels("top") == []
    assert chosen(facts(), PRICE_BLOCKS, ("intercept",)).levels("top") == ["home"]


def test_bulk_by_top_needs_both_kinds():
    assert chosen(facts(), PRICE_BLOCKS, ("intercept",)).levels("bulk by top") == []
    mixed = facts(bulk=np.array([1.0, 0.0, 1.0, 0.0]))
    assert chosen(mixed, PRICE_BLOCKS, ("intercept",)).levels("bulk by top") == ["home"]


def test_rare_words_and_rare_pairs_have_no_column():
    rows = facts(title=texts(["red mug", "red mug", "blue cup", "red bowl"]), brand=texts(["a", "a", "a", "b"]))
    layout = chosen(rows, PRICE_BLOCKS, ("intercept",))
    assert layout.levels("words") == ["mug", "red", "red mug"]
    assert layout.levels("brand and sub") == ["a\x1fmugs"]


def test_never_seen_levels_are_named_with_their_rows():
    layout = chosen(facts(), PRICE_BLOCKS, ("intercept",))
    lines = facts(2, brand=texts(["acme", "new"]), sub=texts(["mugs", "mugs"]))
    found = {one.block: (one.row.tolist(), one.name.tolist()) for one in unseen_levels(layout, lines)}
    assert found["brand"] == ([1], ["new"])
    assert found["sub"] == ([], [])
    assert found["brand and sub"] == ([1], ["new\x1fmugs"])
