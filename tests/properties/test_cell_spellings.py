"""However a cell is spelled, it says the same: money, weights, dates, and tags of units or of lines."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.intake.cells.amounts import read_amounts
from models.intake.cells.date_orders import date_orders
from models.intake.cells.dates import Order, read_dates
from models.intake.cells.weights import read_weights
from models.intake.manifest import read_manifest

# Above it a lone amount among small ones is taken for a filler, and a row of nines always.
CENTS = st.integers(1, 100_000_000).filter(lambda cents: set(str(cents // 100)) != {"9"})
DAYS = st.dates(dt.date(1990, 1, 1), dt.date(2099, 12, 31))
GROUPED = {"point": (",", "."), "comma": (".", ","), "space": (" ", ","), "apostrophe": ("'", ".")}
AROUND = ("{}", "${}", "{} USD", "USD {}", "{} each", "{}/ea", "{} inc. VAT")


def spelled(cents: int, style: str, around: str) -> str:
    group, decimal = GROUPED[style]
    whole = f"{cents // 100:,}".replace(",", group)
    return around.format(f"{whole}{decimal}{cents % 100:02}")


@given(st.lists(CENTS, min_size=1, max_size=6), st.sampled_from(sorted(GROUPED)), st.sampled_from(AROUND))
def test_an_amount_is_the_same_in_every_spelling(amounts: list[int], style: str, around: str) -> None:
    read = read_amounts({"cost": [spelled(cents, style, around) for cents in amounts]}, "USD", False)["cost"]
    assert read.minor.tolist() == amounts
    assert not any(reading.doubt for reading in read.readings)


@given(st.integers(0, 500), st.integers(0, 15))
def test_pounds_and_ounces_are_one_weight(pounds: int, ounces: int) -> None:
    cells = [f"{pounds} lb {ounces} oz", f"{pounds + ounces / 16} lbs", f"{pounds * 16 + ounces} oz"]
    first, *others = (reading.value for reading in read_weights(cells, "Weight", comma=False))
    assert others == pytest.approx([first] * 2)


@given(st.lists(DAYS, min_size=1, max_size=8), st.sampled_from([("%d/%m/%Y", Order.DAY), ("%m/%d/%Y", Order.MONTH)]))
def test_one_day_above_twelve_decides_for_all(days: list[dt.date], form: tuple[str, Order]) -> None:
    days = [*days, dt.date(2026, 7, 31)]
    cells = [day.strftime(form[0]) for day in days]
    orders, question = date_orders({"sold_on": cells}, (), None)
    assert (orders["sold_on"], question) == (form[1], None)
    assert [reading.value for reading in read_dates(cells, form[1])] == days


@given(
    st.lists(st.integers(200, 50_000), min_size=3, max_size=6),
    st.lists(st.integers(2, 9), min_size=6, max_size=6),
    st.randoms(use_true_random=False),
)
def test_goods_in_several_quantities_tell_units_from_lines(tags: list[int], units: list[int], chance: object) -> None:
    """Whatever the order of the rows."""
    goods = [
        (f"thing number {at}", count, tag)
        for at, (tag, many) in enumerate(zip(tags, units, strict=False))
        for count in (1, many)
    ]
    chance.shuffle(goods)  # type: ignore[attr-defined]
    wanted = [tag for _, _, tag in goods]
    for of_line in (False, True):
        rows = [f"{name},{count},{tag * (count if of_line else 1) / 100:.2f}" for name, count, tag in goods]
        read = read_manifest("\n".join(["Description,Qty,Retail", *rows]).encode(), "m.csv", {}, "USD")
        assert read.lines.tag_each.tolist() == pytest.approx(wanted)
        assert ("tag_line" in read.mapping) == of_line
