"""A lot's prices: own sales, tags, conditions, what is declared, and what its cautions say.

A tag ten times too high on an item with 60 own sales moves its price by nothing: common practice, no source.
"""

from dataclasses import replace

import numpy as np
import pytest
from price_shop import both, fit, priced
from price_world import DAY_ZERO, Shape, World, make_lines, make_sales

from models.estimate.lot_facts import OwnListings
from models.estimate.lot_prices import price_lot
from models.estimate.price_model import from_arrays
from models.estimate.products import match
from models.values.packing import pack, unpack
from models.values.streams import stream

FAMOUS = {"description": ["famous thing"], "brand": ["brand1"], "category": ["top1 > sub1"], "condition": [2]}
UNHEARD = FAMOUS | {"description": ["unheard of object"], "brand": ["neverbrand"]}


def famous(n: int, price: float = 2000.0, condition: int = 2, tag: float = 4000.0):
    """So many own sales of one thing."""
    rng = stream(9, "famous", str(n))
    return make_sales(
        title=["famous thing"] * n, brand=["brand1"] * n, category=["top1 > sub1"] * n, tag_each=np.full(n, tag),
        sold_price=np.round(price * np.exp(rng.normal(0, 0.2, n))), condition=np.full(n, condition),
        sold_on=(DAY_ZERO + rng.integers(0, 600, n)).astype("datetime64[D]"), sourced=np.ones(n),
    )  # fmt: skip


@pytest.fixture(name="shop", scope="module")
def _shop():
    return fit(both(World(Shape(n_sales=500, n_products=400)).history(), famous(60)))


def one(shop, columns, tag=np.nan, **more):
    return priced(shop, make_lines(**columns, tag_each=np.array([tag]), **more))


def test_a_known_item_is_priced_by_its_own_sales(shop):
    lot = one(shop, FAMOUS)
    assert lot.basis[0] == "own_item"
    assert lot.sales_like_it[0] == 60
    assert lot.unit_price.p50[0] == pytest.approx(2000, rel=0.2)


def test_the_manifests_tag_never_moves_a_known_item(shop):
    plain = one(shop, FAMOUS, 4000.0)
    for tag in (40000.0, 0.0, 1.0, 99999900.0, np.nan):
        other = one(shop, FAMOUS, tag)
        assert other.unit_price.mean[0] == plain.unit_price.mean[0]
        assert other.tag_used[0] == 4000.0
        assert other.basis[0] == "own_item"


def test_impossible_tags_and_blank_give_one_value(shop):
    blank = one(shop, UNHEARD)
    for tag in (0.0, 1.0, 99999900.0):
        other = one(shop, UNHEARD, tag)
        assert other.unit_price.mean[0] == blank.unit_price.mean[0]
        assert np.isnan(other.tag_used[0])
        assert other.cautions[0].line == 1
        assert "tag ignored" in other.cautions[0].what.lower()


def test_an_absurd_tag_of_unheard_goods_is_ignored_and_named(shop):
    lot = one(shop, UNHEARD, 3_000_000.0)
    assert np.isnan(lot.tag_used[0])
    assert any("$30,000 against" in caution.what and caution.line == 1 for caution in lot.cautions)


def test_a_tag_ten_times_too_high_widens_an_unheard_brand_more_than_it_raises_it(shop):
    world = World(Shape(n_sales=500, n_products=400))
    rest, _, _ = world.lot(40, 1.0)
    fair = priced(shop, both(rest, make_lines(**UNHEARD, tag_each=np.array([4000.0]))))
    absurd = priced(shop, both(rest, make_lines(**UNHEARD, tag_each=np.array([40000.0]))))
    assert absurd.unit_price.mean[-1] <= 2.5 * fair.unit_price.mean[-1]
    assert absurd.unit_price.p10[-1] <= 1.3 * fair.unit_price.p10[-1]
    assert np.sqrt(absurd.log_var[-1]) >= 1.5 * np.sqrt(fair.log_var[-1])


@pytest.mark.parametrize("times", [1.5, 3.0, 20.0])
def test_a_whole_manifest_with_tags_too_high_is_corrected_by_what_the_shop_knows(shop, times):
    rest, _, _ = World(Shape(n_sales=500, n_products=400)).lot(30, 0.3)
    fair, dear = priced(shop, rest), priced(shop, replace(rest, tag_each=rest.tag_each * times))
    assert dear.resale.p10 == pytest.approx(float(fair.resale.p10), rel=0.1)
    assert "times too high" in dear.cautions[0].what
    assert not any("times too high" in caution.what for caution in fair.cautions)


def test_a_known_product_in_another_state_keeps_its_tag_and_much_of_its_price(shop):
    lot = one(shop, FAMOUS | {"condition": [0]})
    stranger = one(shop, UNHEARD | {"brand": ["brand1"], "condition": [0]}, 4000.0)
    assert lot.basis[0] != "own_item"
    assert lot.tag_used[0] == 4000.0
    assert lot.log_var[0] < stranger.log_var[0]


def test_an_untested_line_is_priced_as_working_and_an_unknown_state_is_not_own(shop):
    works, untested = one(shop, FAMOUS), one(shop, FAMOUS | {"condition": [4]})
    assert untested.unit_price.mean[0] == works.unit_price.mean[0]
    assert one(shop, FAMOUS | {"condition": [-1]}).basis[0] != "own_item"


def test_sales_made_as_untested_do_not_move_a_working_line():
    history = World(Shape(n_sales=400, n_products=400)).history()
    lot = one(fit(both(history, famous(40, 300.0, condition=4))), FAMOUS)
    assert lot.basis[0] != "own_item"
    assert lot.unit_price.p50[0] > 500


def test_an_assorted_line_never_rests_on_own_sales(shop):
    lot = one(shop, FAMOUS, assorted=np.array([True]))
    assert lot.basis[0] != "own_item"
    assert lot.noise_var[0] > one(shop, FAMOUS).noise_var[0]


def test_bulk_goods_are_not_worth_what_hand_picked_ones_fetched():
    rng = stream(4, "bulk")

    def sold(name, n, price, sourced):
        return make_sales(
            title=[f"{name} {number % 200}" for number in range(n)], brand=["b"] * n, category=["c"] * n,
            sold_price=np.exp(rng.normal(np.log(price * 100), 0.3, n)), sourced=np.full(n, sourced),
            sold_on=(DAY_ZERO + rng.integers(0, 300, n)).astype("datetime64[D]"),
        )  # fmt: skip

    history = both(sold("thing", 800, 40, 0), sold("piece", 60, 22, 1))
    line = {"description": ["new one"], "brand": ["b"], "category": ["c"]}
    assert one(fit(history), line).unit_price.mean[0] <= 2800


@pytest.mark.parametrize("n", [0, 19])
def test_too_few_sales_give_declared_prices_said_loudly(n):
    shop = fit(famous(60).take(np.arange(n)))
    lot = priced(shop, make_lines(description=["a", "b"], tag_each=np.array([10000.0, np.nan]), condition=[2, 2]))
    assert lot.basis.tolist() == ["prior_only"] * 2
    assert lot.unit_price.p50 == pytest.approx([3000.0, 1500.0])
    assert np.sqrt(lot.log_var - 0.04) == pytest.approx([0.7, 1.2])
    assert "declared guess" in lot.cautions[0].what
    assert lot.resale.mean > 0


def test_without_history_a_stray_point_is_not_believed():
    tags = np.array([3000.0, 4000.0, 5000.0, 333_200.0, 6000.0, 1659.0, 165_900.0])
    things = make_lines(description=[*"abcde", "f", "f"], category=["home"] * 7, tag_each=tags, condition=[2] * 7)
    lot = priced(fit(famous(0)), things)
    assert lot.tag_used == pytest.approx([3000, 4000, 5000, np.nan, 6000, 1659, 1659], nan_ok=True)
    assert lot.unit_price.p50[6] == lot.unit_price.p50[5]
    assert [one.line for one in lot.cautions if one.what.startswith("Tag ignored: ")] == [4, 7]


def test_without_history_an_untagged_line_of_another_currency_is_worth_nothing():
    lot = priced(fit(famous(0), "EUR"), make_lines(description=["a"], tag_each=np.array([np.nan])))
    assert lot.unit_price.mean.tolist() == [0.0]
    assert float(lot.resale.mean) == float(lot.resale.p90) == 0.0
    assert "worth nothing" in lot.cautions[1].what


def test_a_history_without_tags_says_that_tags_were_not_used():
    history = World(Shape(n_sales=200, n_products=300, no_tags=1.0)).history()
    lot = one(fit(history), FAMOUS, 4000.0)
    assert np.isnan(lot.tag_used[0])
    assert "no tags to compare" in lot.cautions[0].what


def test_a_lot_of_goods_never_sold_says_so(shop):
    assert "cannot be checked" in one(shop, UNHEARD, 4000.0).cautions[0].what


def test_a_model_survives_being_written_down(shop):
    book, model = shop
    lines, _, _ = World(Shape(n_sales=500, n_products=400)).lot(20)
    again = priced((book, from_arrays(unpack(pack(model.arrays())))), lines)
    assert again.mu.tolist() == priced(shop, lines).mu.tolist()
    assert again.log_var.tolist() == priced(shop, lines).log_var.tolist()


def test_a_declared_model_survives_being_written_down():
    _, model = fit(famous(3))
    again = from_arrays(unpack(pack(model.arrays())))
    assert (again.fitted, again.sales_used, again.currency) == (False, 3, "USD")


def test_days_ahead_must_be_given_for_every_line(shop):
    lines = make_lines(**FAMOUS)
    found = match(shop[0], lines.description, lines.sku, lines.gtin)
    with pytest.raises(ValueError, match="2 entries for 1 lines"):
        price_lot(lines, found, shop[1], np.zeros(2))


def test_sales_without_any_date_still_teach():
    history = World(Shape(n_sales=200, n_products=200)).history()
    blank = replace(history, sold_on=np.full(200, np.datetime64("NaT"), dtype="datetime64[D]"))
    assert one(fit(blank), UNHEARD, 4000.0).unit_price.mean[0] > 0


def test_sales_after_the_end_of_what_is_known_teach_nothing():
    from models.estimate.fit.prices import fit_prices
    from models.estimate.products import build_book

    history = World(Shape(n_sales=300, n_products=200)).history()
    book, product = build_book(history.title, history.sku, history.gtin)
    until = np.datetime64(DAY_ZERO + 300, "D")
    model = fit_prices(history, book, product, until, "USD")
    assert model.sales_used == int(np.sum(history.sold_on <= until))
    assert model.last_sale <= DAY_ZERO + 300


def test_own_listings_are_priced_as_what_they_are_not_as_a_manifests():
    """A single find is dearer than the same thing from a lot; what is listed untested is not priced as working."""
    history = World(Shape(n_sales=600, n_products=300)).history()
    rng = stream(3, "ways in")
    bulk, untested = rng.random(600) < 0.5, rng.random(600) < 0.3
    factor = np.where(bulk, 0.6, 1.0) * np.where(untested, 0.5, 1.0)
    condition = np.where(untested, 4, 2).astype(np.int8)
    told = replace(history, sourced=bulk.astype(np.int8), condition=condition, sold_price=history.sold_price * factor)
    book, model = fit(told)
    lines = make_lines(**{name: values * 4 for name, values in UNHEARD.items()} | {"condition": [2, 2, 4, 4]})
    found = match(book, lines.description, lines.sku, lines.gtin)
    own = price_lot(lines, found, model, np.zeros(4), OwnListings(np.array([1.0, 0.0, 1.0, 0.0])))
    manifest = price_lot(lines, found, model, np.zeros(4))
    single, as_untested = np.exp(own.mu[1] - own.mu[0]), np.exp(own.mu[2] - own.mu[0])
    assert single == pytest.approx(1 / 0.6, rel=0.15)
    assert as_untested == pytest.approx(0.5, rel=0.15)
    assert manifest.mu[0] == pytest.approx(own.mu[0])
    assert manifest.mu == pytest.approx(np.full(4, manifest.mu[0]))
