"""What became of each tag: used, agreed with, set aside for the product's own, not believed, or not needed."""

import numpy as np
import pytest
from price_shop import both, fit, priced
from price_world import DAY_ZERO, Shape, World, make_lines, make_sales

from models.estimate.lot_tag_use import TagFate

KNOWN = {"description": ["famous thing"], "brand": ["brand1"], "category": ["top1 > sub1"], "condition": [2]}
PLAIN = KNOWN | {"description": ["untagged thing"]}
UNHEARD = KNOWN | {"description": ["unheard of object"], "brand": ["neverbrand"]}


def sold(columns, tag, n=8):
    return make_sales(
        title=columns["description"] * n, brand=columns["brand"] * n, category=columns["category"] * n,
        tag_each=np.full(n, tag), sold_price=np.full(n, 2000.0), condition=np.full(n, 2),
        sold_on=(DAY_ZERO + np.arange(n) * 30).astype("datetime64[D]"), sourced=np.ones(n),
    )  # fmt: skip


@pytest.fixture(name="shop", scope="module")
def _shop():
    return fit(
        both(World(Shape(n_sales=300, n_products=300)).history(), both(sold(KNOWN, 4000.0), sold(PLAIN, np.nan)))
    )


@pytest.mark.parametrize(
    ("columns", "tag", "fate", "used"),
    [
        (KNOWN, np.nan, TagFate.NONE, 4000.0),
        (KNOWN, 4400.0, TagFate.AGREES, 4000.0),
        (KNOWN, 39000.0, TagFate.REPLACED, 4000.0),
        (KNOWN, 1000.0, TagFate.REPLACED, 4000.0),
        (KNOWN, 0.0, TagFate.IGNORED, 4000.0),
        (PLAIN, 5000.0, TagFate.NOT_NEEDED, np.nan),
        (PLAIN, np.nan, TagFate.NONE, np.nan),
        (UNHEARD, 5000.0, TagFate.USED, 5000.0),
        (UNHEARD, 9_000_000.0, TagFate.IGNORED, np.nan),
        (UNHEARD, np.nan, TagFate.NONE, np.nan),
    ],
)
def test_the_fate_of_a_tag(shop, columns, tag, fate, used):
    use = priced(shop, make_lines(**columns, tag_each=np.array([tag]))).tag_use
    assert TagFate(int(use.fate[0])) == fate
    assert use.used[0] == pytest.approx(used, nan_ok=True)
    assert use.own[0] == pytest.approx(4000.0 if columns is KNOWN else np.nan, nan_ok=True)


def test_a_tag_that_was_replaced_is_told_unless_the_lot_is(shop):
    """A factor too small to tell of the lot explains no line's tag away."""
    rest, _, _ = World(Shape(n_sales=300, n_products=300)).lot(30, 0.8)
    rest.tag_each[:] *= 1.1
    lot = priced(shop, both(rest, make_lines(**KNOWN, tag_each=np.array([8100.0]))))
    assert not any("times too" in caution.what for caution in lot.cautions)
    assert lot.tag_use.fate[-1] == TagFate.REPLACED
    assert any("81 against" in caution.what for caution in lot.cautions), [caution.what for caution in lot.cautions]


def test_a_tag_off_like_all_of_its_lot_is_set_aside_without_a_caution_of_its_own(shop):
    rest, _, _ = World(Shape(n_sales=300, n_products=300)).lot(30, 0.8)
    rest.tag_each[:] *= 3
    lot = priced(shop, both(rest, make_lines(**KNOWN, tag_each=np.array([12000.0]))))
    assert lot.tag_use.fate[-1] == TagFate.REPLACED
    assert "times too high" in lot.cautions[0].what
    assert not any("120 against" in caution.what for caution in lot.cautions)


def test_a_tag_that_agrees_is_not_told_off_for_a_twin_that_is_wrong(shop):
    twins = both_of(KNOWN, KNOWN)
    lot = priced(shop, make_lines(**twins, tag_each=np.array([40000.0, 3900.0])))
    assert lot.tag_use.fate.tolist() == [TagFate.REPLACED, TagFate.AGREES]
    assert {caution.line for caution in lot.cautions} <= {1, None}


def test_without_own_tags_none_is_compared():
    shop = fit(both(World(Shape(n_sales=200, n_products=200, no_tags=1.0)).history(), sold(PLAIN, np.nan)))
    lines = make_lines(**both_of(PLAIN, UNHEARD), tag_each=np.array([5000.0, 5000.0]))
    use = priced(shop, lines).tag_use
    assert use.fate.tolist() == [TagFate.NOT_COMPARED] * 2
    assert np.isnan(use.used).all()


def test_with_too_few_sales_a_tag_is_used_as_it_stands():
    shop = fit(sold(KNOWN, 4000.0))
    lines = make_lines(**both_of(KNOWN, both_of(UNHEARD, UNHEARD)), tag_each=np.array([8000.0, 0.0, np.nan]))
    use = priced(shop, lines).tag_use
    assert use.fate.tolist() == [TagFate.USED, TagFate.IGNORED, TagFate.NONE]
    assert use.used.tolist()[0] == 8000.0


def both_of(one, other):
    return {name: one[name] + other[name] for name in one}


@pytest.mark.parametrize("order", [[0, 1], [1, 0]])
def test_a_stray_point_on_one_line_leaves_the_other_of_the_same_goods_its_tag(shop, order):
    lines = both(
        make_lines(**UNHEARD, tag_each=np.array([5000.0])), make_lines(**UNHEARD, tag_each=np.array([500_000.0]))
    )
    lot, alone = (
        priced(shop, lines.take(np.array(order))),
        priced(shop, make_lines(**UNHEARD, tag_each=np.array([5000.0]))),
    )
    fates = dict(zip(order, lot.tag_use.fate.tolist(), strict=True))
    assert (fates[0], fates[1]) == (TagFate.USED, TagFate.IGNORED)
    assert lot.unit_price.mean == pytest.approx(np.repeat(alone.unit_price.mean, 2), rel=0.01)
    (said,) = [one.what for one in lot.cautions if one.line is not None]
    assert said == "Tag ignored: $5,000 against $50 on other lines of the same goods."


def test_things_called_alike_keep_their_tags(shop):
    """A list that says "ladies' top" for many things: tags of one name may honestly differ."""
    lines = both(make_lines(**UNHEARD, tag_each=np.array([4000.0])), make_lines(**UNHEARD, tag_each=np.array([9000.0])))
    lot = priced(shop, lines)
    assert lot.tag_use.fate.tolist() == [TagFate.USED, TagFate.USED]
    assert lot.unit_price.mean[0] == pytest.approx(lot.unit_price.mean[1], rel=1e-9)
