"""A product is what most of its own sales called it, and lines of it are read so."""

from dataclasses import replace

import numpy as np
import pytest
from price_shop import fit, priced
from price_world import DAY_ZERO, make_lines, make_sales

from models.estimate.fit.own_kinds import own_kinds
from models.estimate.lot_as_sold import as_sold, own_product
from models.estimate.price_model import from_arrays
from models.estimate.products import match
from models.values.arrays import texts
from models.values.packing import pack, unpack
from models.values.sales import Sales
from models.values.streams import stream

GTIN = "4006381333931"


def kinds_of(*rows):
    """Of one product sold as these (title, brand, category)."""
    title, brand, category = (texts(list(column)) for column in zip(*rows, strict=True))
    sold = replace(Sales.blank(len(rows)), title=title, brand=brand, category=category)
    found = own_kinds(sold, np.zeros(len(rows), dtype=np.int64), 1)
    return found.title[0], found.brand[found.of[0]], found.category[found.of[0]]


def test_the_kind_is_what_most_sales_had_and_the_title_one_of_theirs():
    rows = [("red mug", "Acme", "Home > Mugs")] * 2 + [("Mug red", "", "Home > Mugs")] * 3 + [("RED MUG", "Acme", "")]
    assert kinds_of(*rows) == ("Mug red", "", "Home > Mugs")
    assert kinds_of(*rows, *rows[:2]) == ("red mug", "Acme", "Home > Mugs")


def test_of_two_as_common_the_one_that_is_filled_in_counts_whatever_the_order():
    rows = [("mug", "", "Home"), ("mug", "Acme", "Home"), ("mug", "", "")]
    assert kinds_of(*rows) == kinds_of(*rows[::-1]) == ("mug", "Acme", "Home")


def shop(n=60):
    """A history of one thing with a number and of sixty others."""
    rng = stream(3, "kinds")
    thing = np.concatenate([np.zeros(12, dtype=np.int64), 1 + rng.integers(0, 60, n)])
    return fit(make_sales(
        title=[f"thing {one}" for one in thing], brand=[f"b{one % 4}" for one in thing],
        category=[f"kind > sub{one % 3}" for one in thing], condition=np.full(len(thing), 2),
        gtin=[GTIN if one == 0 else "" for one in thing], sold_price=np.exp(rng.normal(8, 0.4, len(thing))),
        sold_on=(DAY_ZERO + rng.integers(0, 300, len(thing))).astype("datetime64[D]"), sourced=np.ones(len(thing)),
    ))  # fmt: skip


LINE = {"description": ["thing 0"], "brand": ["other"], "category": ["elsewhere"], "condition": [2], "gtin": [GTIN]}


def test_a_known_line_is_read_in_the_words_of_its_sales_and_others_as_they_are():
    book, model = shop()
    lines = make_lines(**{name: one * 3 for name, one in LINE.items()})
    lines = replace(
        lines, gtin=texts([GTIN, "", ""]), description=texts(["whatever", "thing 0", "nothing sold"]),
        assorted=np.array([False, True, False]),
    )  # fmt: skip
    matched = match(book, lines.description, lines.sku, lines.gtin)
    assert (own_product(lines, matched, model) >= 0).tolist() == [True, False, False]
    told = as_sold(lines, matched, model)
    assert told.description.tolist() == ["thing 0", "thing 0", "nothing sold"]
    assert told.brand.tolist() == ["b0", "other", "other"]
    assert told.category.tolist() == ["kind > sub0", "elsewhere", "elsewhere"]
    assert lines.brand.tolist() == ["other"] * 3, "the manifest stays as it was"


def test_a_product_listed_and_never_sold_is_read_by_the_lines_own_words():
    sales = make_sales(title=["mug", "pan"], brand=["Acme", "Acme"], sold_price=np.array([np.nan, 900.0]))
    book, model = fit(sales)
    lines = make_lines(description=["mug", "pan"], brand=["other", "other"])
    told = as_sold(lines, match(book, lines.description, lines.sku, lines.gtin), model)
    assert told.brand.tolist() == ["other", "Acme"]


def test_a_history_of_one_product_has_one_price_whatever_the_line_says():
    """27 sales at 90: a blank brand once made it 75, a filled one 117."""
    n = 27
    sales = make_sales(
        title=["red mug"] * n, brand=["Acme"] * n, category=["Home > Mugs"] * n, sold_price=np.full(n, 9000.0),
        sold_on=(DAY_ZERO + np.arange(n)).astype("datetime64[D]"), condition=np.full(n, 2), sourced=np.ones(n),
    )  # fmt: skip
    wordings = [("", ""), ("Acme", "Home > Mugs"), ("Other", "Home > Mugs"), ("Acme", "Garden > Hoses"), ("", "Home")]
    lines = make_lines(
        description=["red mug"] * 5, brand=[brand for brand, _ in wordings], category=[text for _, text in wordings],
        condition=np.full(5, 2),
    )  # fmt: skip
    mean = priced(fit(sales), lines).unit_price.mean
    assert len(set(mean.tolist())) == 1
    assert mean[0] == pytest.approx(9000, rel=0.1)


def test_a_model_kept_before_products_had_kinds_can_still_be_read():
    book, model = shop()
    kept = {name: array for name, array in unpack(pack(model.arrays())).items() if not name.startswith("kinds.")}
    old = from_arrays(kept)
    line = make_lines(**LINE)
    assert as_sold(line, match(book, line.description, line.sku, line.gtin), old).brand.tolist() == ["other"]
    assert priced((book, old), line).unit_price.mean[0] > 0
    now = from_arrays(unpack(pack(model.arrays())))
    assert priced((book, now), line).unit_price.mean[0] == priced((book, model), line).unit_price.mean[0]
