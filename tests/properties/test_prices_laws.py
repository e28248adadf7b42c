"""Laws of prices on small histories drawn at random: scale, order, more own sales, tags of known goods."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from models.estimate.fit.prices import fit_prices
from models.estimate.lot_prices import price_lot
from models.estimate.lot_tags import lot_factor
from models.estimate.price_draws import line_price_draws, shared_draws
from models.estimate.products import build_book, match
from models.estimate.tags import read
from models.values.arrays import texts
from models.values.lines import Lines
from models.values.sales import Sales
from models.values.streams import stream

quick = settings(max_examples=8, deadline=None, suppress_health_check=[HealthCheck.too_slow])
seeds = st.integers(0, 10_000)


def history(seed, n=80, money=1.0, own=0):
    """Sales of forty things of five brands in two kinds; `own` more of the first one."""
    rng = stream(seed, "laws")
    thing = np.concatenate([rng.integers(0, 40, n), np.zeros(own, dtype=np.int64)])
    tag = np.exp(rng.normal(8, 0.6, 40))[thing]
    price = 0.4 * tag * np.exp(rng.normal(0, 0.3, 40)[thing] + stream(seed, "noise").normal(0, 0.2, n + own))
    return replace(
        Sales.blank(n + own), title=texts([f"thing {one}" for one in thing]),
        brand=texts([f"b{one % 5}" for one in thing]),
        category=texts([f"kind > sub{one % 2}" for one in thing]), condition=np.full(n + own, 2, dtype=np.int8),
        tag_each=tag * money, sold_price=price * money, sourced=np.ones(n + own, dtype=np.int8),
        sold_on=np.datetime64("2025-01-01") + stream(seed, "days").integers(0, 500, n + own),
    )  # fmt: skip


def manifest(seed, money=1.0, n=12):
    """Lines of those things and of twenty never sold."""
    rng = stream(seed, "manifest")
    thing = rng.integers(0, 60, n)
    return replace(
        Lines.blank(n), description=texts([f"thing {one}" for one in thing]),
        brand=texts([f"b{one % 6}" for one in thing]),
        category=texts([f"kind > sub{one % 3}" for one in thing]), condition=rng.integers(0, 4, n).astype(np.int8),
        quantity=rng.integers(1, 5, n), tag_each=np.exp(rng.normal(8, 0.6, n)) * money,
    )  # fmt: skip


def first_thing(lines):
    """One line turned into the first thing, as it was sold."""
    own = {"description": texts(["thing 0"]), "brand": texts(["b0"]), "category": texts(["kind > sub0"])}
    return replace(lines, **own, condition=np.array([2], np.int8))


def priced(sales, lines):
    book, product = build_book(sales.title, sales.sku, sales.gtin)
    model = fit_prices(sales, book, product, np.datetime64("2100-01-01"), "USD")
    found = match(book, lines.description, lines.sku, lines.gtin)
    return price_lot(lines, found, model, np.full(len(lines), 45.0))


@quick
@given(seed=seeds)
def test_doubling_all_money_doubles_the_total(seed):
    one, two = priced(history(seed), manifest(seed)), priced(history(seed, money=2.0), manifest(seed, 2.0))
    assert float(two.resale.mean) == pytest.approx(2 * float(one.resale.mean), rel=1e-3)
    assert two.log_sd == pytest.approx(one.log_sd, rel=1e-3)


@quick
@given(seed=seeds, order=st.permutations(range(12)))
def test_the_order_of_lines_changes_nothing(seed, order):
    lines = manifest(seed)
    one, other = priced(history(seed), lines), priced(history(seed), lines.take(np.array(order)))
    assert one.unit_price.p10[np.array(order)] == pytest.approx(other.unit_price.p10, rel=1e-5)
    assert float(one.resale.p10) == pytest.approx(float(other.resale.p10), rel=1e-5)


def test_more_own_sales_never_widen_an_items_price_on_average():
    """Single histories may: more sales also teach that the market moves more than was thought."""
    line = first_thing(manifest(1, n=1))
    mean = [np.mean([priced(history(seed, own=own), line).log_var[0] for seed in range(12)]) for own in (0, 40)]
    assert mean[0] > mean[1]


@quick
@given(seed=seeds, times=st.floats(0.01, 100))
def test_a_tag_moves_a_known_item_by_nothing(seed, times):
    lines = manifest(seed, n=1)
    line = first_thing(lines)
    sales = history(seed, own=3)
    moved = replace(line, tag_each=line.tag_each * times)
    assert priced(sales, moved).unit_price.mean[0] == priced(sales, line).unit_price.mean[0]


@given(tag=st.floats(-5, 15), mean=st.floats(0, 10), var=st.floats(0.01, 2))
def test_a_read_tag_lies_between_what_was_expected_and_the_claim(tag, mean, var):
    found = read(np.array([tag]), np.array([mean]), np.array([var]), 0.05)
    assert min(tag, mean) - 1e-9 <= found.mean[0] <= max(tag, mean) + 1e-9
    assert 0 <= found.good[0] <= 1


@given(shift=st.floats(0.5, 3).flatmap(lambda size: st.sampled_from([size, -size])), n=st.integers(3, 20))
def test_known_products_reveal_the_factor_on_all_tags(shift, n):
    known = np.ones(n, dtype=bool)
    factor = lot_factor(np.full(n, 5.0 + shift), np.full(n, 5.0), np.full(n, 0.003), (known, ~known), 0.05)
    assert factor.mean == pytest.approx(shift, abs=0.1)
    assert factor.weight.sum() == pytest.approx(1.0)


@quick
@given(seed=seeds, brand=st.sampled_from(["b0", "b4", "never sold"]))
def test_two_lots_that_share_a_brand_have_correlated_totals(seed, brand):
    """More so than two that share the market only; each keeps a shock and noise of its own."""
    sales = history(seed)
    one, other, apart = (total_draws(sales, of_brand(name, first)) for name, first in (
        (brand, 100), (brand, 200), ("of nobody else", 200)
    ))  # fmt: skip
    shared = np.corrcoef(one, other)[0, 1]
    assert 0.02 < shared < 0.95
    assert shared > np.corrcoef(one, apart)[0, 1] + 0.01


def of_brand(brand, first, n=6):
    """A lot of goods never sold, all of one brand."""
    return replace(
        Lines.blank(n), description=texts([f"piece {first + one}" for one in range(n)]), brand=texts([brand] * n),
        category=texts(["kind > sub0"] * n), condition=np.full(n, 2, dtype=np.int8),
    )  # fmt: skip


def total_draws(sales, lines):
    lot = priced(sales, lines)
    return np.log(lot.quantity @ line_price_draws(lot, shared_draws(lot, 1), np.arange(len(lines)), 1))


WORDINGS = st.sampled_from(["", "b0", "b3", "B0 ", "nobody's", "kind", "kind > sub1", "Other > Things > sub0"])


@quick
@given(seed=seeds, brand=WORDINGS, category=WORDINGS, own=st.integers(1, 12))
def test_what_a_line_calls_a_known_item_moves_its_price_by_nothing(seed, brand, category, own):
    line = first_thing(manifest(seed, n=1))
    sales = history(seed, own=own)
    other = replace(line, brand=texts([brand]), category=texts([category]))
    one, two = priced(sales, line), priced(sales, other)
    assert two.unit_price.mean[0] == one.unit_price.mean[0]
    assert two.unit_price.p10[0] == one.unit_price.p10[0]
    assert one.basis[0] == two.basis[0] == "own_item"
    assert one.sales_like_it[0] == two.sales_like_it[0] >= own


@quick
@given(seed=seeds, words=st.sampled_from(["", "a piece of something", "thing 0 as new thing 17"]))
def test_the_words_of_a_line_known_by_its_number_move_its_price_by_nothing(seed, words):
    sales = history(seed, own=3)
    sales = replace(sales, gtin=texts(["4006381333931" if one == "thing 0" else "" for one in sales.title]))
    line = replace(first_thing(manifest(seed, n=1)), gtin=texts(["4006381333931"]))
    other = replace(line, description=texts([words]))
    assert priced(sales, other).unit_price.mean[0] == priced(sales, line).unit_price.mean[0]
