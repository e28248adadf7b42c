"""Own sales beside a line: its item first, then its product, then the nearest words; condition and day break ties."""

from dataclasses import replace

import numpy as np
import pytest

from models.estimate.comp_sheets import OLDEST_DAYS
from models.estimate.fit.own_comps import fit_comps
from models.estimate.lot_comps import ALIKE, BANDS, SAME_ITEM, SAME_PRODUCT, nearest_sales
from models.estimate.own_comps import MOST, OwnComps
from models.values.arrays import texts
from models.values.lines import Lines
from models.values.packing import pack, unpack
from models.values.sales import Sales
from models.values.streams import stream

LAST = np.datetime64("2026-06-30")
LAST_DAY = float(LAST.astype(np.int64))


def sold(*rows, **more):
    """Sales of (title, condition, days before the last one)."""
    title, condition, ago = zip(*rows, strict=True)
    plain = Sales.blank(len(rows))
    return replace(
        plain, title=texts(list(title)), condition=np.array(condition, dtype=np.int8),
        sold_on=LAST - np.array(ago), sold_price=1000.0 + np.arange(len(rows)), **more,
    )  # fmt: skip


def line(description, condition=0, n=1, **more):
    return replace(
        Lines.blank(n), description=texts([description] * n), condition=np.full(n, condition, dtype=np.int8), **more
    )


def shown(sales, product, lines, own=-1):
    """Rows of the history beside the first line, best first, and how each was found."""
    comps = fit_comps(sales, np.array(product))
    found = nearest_sales(lines, np.full(len(lines), own), comps, LAST_DAY)
    keep = found.sale[0] >= 0
    return [int(comps.price[at] - 1000) for at in found.sale[0][keep]], found.tier[0][keep].tolist()


def test_the_item_goes_before_the_product_and_the_product_before_what_is_alike():
    sales = sold(("red mug", 3, 5), ("red mug", 0, 400), ("red mug big", 0, 1), ("iron pan", 0, 1))
    rows, tier = shown(sales, [0, 0, 1, 2], line("red mug", 0), own=0)
    assert rows == [1, 0, 2]
    assert tier == [SAME_ITEM, SAME_PRODUCT, ALIKE]


def test_a_product_known_by_its_number_is_found_whatever_its_words():
    rows, tier = shown(sold(("crimson cup", 0, 5), ("red mug", 0, 5)), [0, 1], line("red mug"), own=0)
    assert (rows, tier) == ([0, 1], [SAME_ITEM, ALIKE])


def test_of_equal_words_the_nearer_condition_goes_first_then_the_newer_day():
    sales = sold(("blue mug", 0, 1), ("blue mug", 3, 9), ("blue mug", 3, 2), ("blue mug", 2, 3))
    assert shown(sales, [0] * 4, line("green mug", 3))[0] == [2, 1, 3, 0]


def test_an_untested_line_is_compared_as_a_working_one():
    sales = sold(("blue mug", 0, 1), ("blue mug", 2, 9))
    assert shown(sales, [0, 0], line("green mug", 4))[0] == [1, 0]


def test_nearer_words_go_before_a_nearer_condition():
    sales = sold(("steel mug", 0, 1), ("steel mug tall", 3, 1), ("pan", 0, 1))
    assert shown(sales, [0, 1, 2], line("steel mug tall thin", 0))[0] == [1, 0]


def test_old_sales_are_shown_of_the_product_only():
    sales = sold(("red mug", 0, OLDEST_DAYS + 1), ("red mug tall", 0, OLDEST_DAYS + 1), ("red mug low", 0, OLDEST_DAYS))
    assert shown(sales, [0, 1, 2], line("red mug"), own=0)[0] == [0, 2]


def test_sales_without_a_day_are_shown_last():
    sales = sold(("red mug", 0, 9), ("red mug", 0, 1), ("red mug", 0, 500))
    sales = replace(sales, sold_on=np.where([True, False, False], np.datetime64("NaT", "D"), sales.sold_on))
    assert shown(sales, [0] * 3, line("red mug"), own=0)[0] == [1, 2, 0]


def test_what_did_not_sell_or_fetched_nothing_is_never_shown():
    sales = sold(*[("red mug", 0, 1)] * 3)
    sales = replace(sales, sold_price=np.array([np.nan, 0.0, 1002.0]))
    assert shown(sales, [0] * 3, line("red mug"), own=0)[0] == [2]


def test_goods_that_share_no_telling_word_are_not_shown():
    many = [(f"thing {number} of the shop", 0, 1) for number in range(60)]
    assert shown(sold(*many), list(range(60)), line("an iron pan of cast"))[0] == []


def test_a_history_without_a_sale_shows_nothing():
    comps = fit_comps(Sales.blank(3), np.zeros(3, dtype=np.int64))
    assert nearest_sales(line("mug", n=2), np.full(2, -1), comps, LAST_DAY).sale.tolist() == [[-1] * MOST] * 2
    assert nearest_sales(Lines.blank(0), np.zeros(0, dtype=np.int64), comps, LAST_DAY).sale.shape == (0, MOST)


def test_lines_and_sales_without_a_word_do_no_harm():
    assert shown(sold(("???", 0, 1), ("red mug", 0, 1)), [0, 1], line("!!!"))[0] == []


def test_the_reference_is_the_orders_then_the_listings_then_the_row():
    sales = sold(*[("red mug", 0, 1)] * 3)
    sales = replace(sales, order_ref=texts(["O7", "", ""]), listing_ref=texts(["L1", "L2", ""]))
    assert sorted(fit_comps(sales, np.zeros(3, dtype=np.int64)).ref) == ["L2", "O7", "row 4"]


def test_days_to_sell_run_from_the_first_listing():
    first, again = LAST - np.array([50]), LAST - np.array([20])
    sales = sold(("red mug", 0, 10), first_listed_on=first, listed_on=again)
    assert fit_comps(sales, np.array([0])).days.tolist() == [40.0]
    sales = replace(sales, first_listed_on=LAST + np.array([5]))
    assert np.isnan(fit_comps(sales, np.array([0])).days).all(), "a listing after its sale tells nothing"


def of_seed(seed, n=200):
    rng = stream(seed, "comps")
    title = [" ".join(f"w{one}" for one in rng.integers(0, 40, 5)) for _ in range(n)]
    rows = list(zip(title, rng.integers(-1, 6, n).tolist(), rng.integers(0, 900, n).tolist(), strict=True))
    product = np.unique([" ".join(sorted(one.split())) for one in title], return_inverse=True)[1]
    return sold(*rows), product


@pytest.mark.parametrize("seed", [1, 2])
def test_every_line_gets_what_it_gets_alone(seed):
    """Slices, repeated lines and the order of the lot change nothing."""
    sales, product = of_seed(seed)
    comps = fit_comps(sales, product)
    rng = stream(seed, "lines")
    condition = rng.integers(-1, 6, 60).astype(np.int8)
    lines = replace(Lines.blank(60), description=sales.title[rng.integers(0, 80, 60)], condition=condition)
    own = np.where(rng.random(60) < 0.5, rng.integers(0, product.max() + 1, 60), -1)
    together = nearest_sales(lines, own, comps, LAST_DAY)
    for at in range(60):
        alone = nearest_sales(lines.take(np.array([at])), own[at : at + 1], comps, LAST_DAY)
        assert alone.sale[0].tolist() == together.sale[at].tolist()


def test_nearness_is_what_comparing_every_pair_gives():
    sales, product = of_seed(3)
    comps = fit_comps(sales, product)
    wanted = sales.title[:30]
    found = nearest_sales(replace(Lines.blank(30), description=wanted), np.full(30, -1), comps, LAST_DAY)
    idf = {word: float(value) for word, value in zip(comps.word, comps.idf, strict=True)}

    def near(one, other):
        one, other = set(one.split()), set(other.split())
        length = np.sqrt(sum(idf[word] ** 2 for word in one) * sum(idf[word] ** 2 for word in other))
        return sum(idf[word] ** 2 for word in one & other) / length

    fresh = sales.sold_on >= LAST - OLDEST_DAYS
    for text, likeness in zip(wanted, found.likeness, strict=True):
        every = sorted((near(text, title) for title in sales.title[fresh]), reverse=True)
        bands = [np.digitize(ones, BANDS).tolist() for ones in (np.sort(likeness)[::-1], every[:MOST])]
        assert bands[0] == bands[1]
        assert all(np.min(np.abs(np.array(every) - one)) < 1e-4 for one in likeness)


def test_the_order_of_the_history_changes_nothing():
    sales, product = of_seed(4)
    mixed = stream(4, "mixed").permutation(len(sales))
    one, other = (fit_comps(sales.take(order), product[order]) for order in (np.arange(len(sales)), mixed))
    lines = replace(Lines.blank(30), description=sales.title[:30])
    near = [nearest_sales(lines, np.full(30, -1), comps, LAST_DAY) for comps in (one, other)]
    assert np.array_equal(near[0].likeness, near[1].likeness)


def test_what_is_kept_survives_storage():
    comps = fit_comps(*of_seed(5))
    back = OwnComps.from_arrays(unpack(pack(comps.arrays())))
    for name, array in comps.arrays().items():
        assert np.array_equal(back.arrays()[name], array, equal_nan=array.dtype == np.float64), name


def test_only_the_newest_few_of_a_product_in_each_condition_are_kept():
    sales = sold(*[("red mug", condition, ago) for ago in range(9) for condition in (0, 3)])
    comps = fit_comps(sales, np.zeros(18, dtype=np.int64))
    assert len(comps.price) == 2 * MOST
    assert comps.sold_on.min() == LAST_DAY - (MOST - 1)


def test_sales_of_the_brand_and_category_go_before_likelier_words() -> None:
    titles = ["oak lamp tall", "oak lamp tall", "oak stool", "iron stool"]
    sales = sold(*((title, 2, 5) for title in titles))
    sales = replace(
        sales, brand=texts(["Other", "Acme", "Acme", "Other"]), category=texts(["Home > Lamps"] * 3 + ["Toys"])
    )
    asked = line("oak lamp tall red", 2, brand=texts(["Acme"]), category=texts(["Home > Lamps"]))
    assert shown(sales, [0, 1, 2, 3], asked)[0][:3] == [1, 2, 0]


def test_about_as_near_the_same_condition_goes_first() -> None:
    sales = sold(("oak lamp tall red", 4, 1), ("oak lamp tall blue", 2, 90), ("oak lamp tall grey", 2, 80))
    found = shown(sales, [0, 1, 2], line("oak lamp tall green", 2))[0]
    assert found == [2, 1, 0]
    few = [("oak lamp tall red", 4, day) for day in range(8)] + [("oak lamp tall grey", 2, 80)]
    assert shown(sold(*few), list(range(9)), line("oak lamp tall green", 2))[0][0] == 8


def test_a_model_kept_before_kinds_were_still_shows_sales() -> None:
    comps = fit_comps(sold(("red mug", 0, 5)), np.array([0]))
    former = {name: array for name, array in comps.arrays().items() if name not in ("brand", "kind")}
    read = OwnComps.from_arrays(former)
    assert read.brand.tolist() == [""]
    assert nearest_sales(line("red mug"), np.array([-1]), read, LAST_DAY).sale[0, 0] == 0
