"""Two lots drawn apart belong together draw by draw: what they share moves both, what is each one's own does not."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from appraisal_world import answer, demo_model, lines_like

from models.appraisal.stored import Stored
from models.decide.arrivals import arrived_units, bad_shares
from models.estimate.fit.effort import fit_effort
from models.estimate.lot_joint import LotPrices
from models.estimate.lot_prices import price_lot
from models.estimate.price_draws import line_price_draws, shared_draws
from models.estimate.products import match
from models.estimate.tempo_draws import sold_draws
from models.estimate.tempo_lot import gamma_pace, of_one_lot
from models.values.arrays import FloatArray, texts
from models.values.sales import Sales
from models.values.settings import LotTerms

NOISE = 4 / np.sqrt(8192)  # four standard errors of a correlation of nothing
FREE: dict[str, Any] = {"backlog": {"hours_per_week": 100}, "buying": {"rivals": "none"}}


def gross(names: list[str], brand: str, category: str = "Home > Lamps", seed: int = 1) -> FloatArray:
    """What a lot of new goods sells for, in every draw."""
    n = len(names)
    lines = lines_like(
        description=names, brand=[brand] * n, category=[category] * n, quantity=[4] * n, tag_each=[4000.0] * n
    )
    return Stored.from_bytes(answer(lines, FREE, seed=seed).components).components.gross_sold


def correlation(one: FloatArray, other: FloatArray) -> float:
    return float(np.corrcoef(one, other)[0, 1])


def lamps(letter: str) -> list[str]:
    return [f"{letter}{no} reading lamp {letter}" for no in range(12)]


def test_lots_of_one_new_brand_move_together_and_lots_of_two_brands_less() -> None:
    one, same, another = gross(lamps("a"), "Vellmar"), gross(lamps("b"), "Vellmar"), gross(lamps("b"), "Quistor")
    assert correlation(one, same) > correlation(one, another) + 0.05
    assert correlation(one, another) > NOISE, "the market and the kind of goods move both"
    assert correlation(one, same) < 0.95, "each lot has a fate of its own"


def test_a_sum_of_lots_spreads_more_than_independent_lots_would() -> None:
    lots = [gross(lamps(letter), "Vellmar") for letter in "abcd"]
    apart = np.sqrt(sum(float(one.var()) for one in lots))
    assert np.sum(lots, axis=0).std() > 1.1 * apart


def test_other_seeds_have_nothing_in_common() -> None:
    assert abs(correlation(gross(lamps("a"), "Vellmar"), gross(lamps("a"), "Vellmar", seed=2))) < NOISE


def test_one_seller_works_at_one_pace_in_all_lots() -> None:
    """All of the doubt where nothing was timed; what timings left open beside each lot's luck where they were."""
    untimed = replace(demo_model(), effort=fit_effort(Sales.blank(0), np.empty(0, dtype=np.int64)))
    for model, least in ((untimed, 0.9), (demo_model(), 2 * NOISE)):
        lots = [answer(lines_like(description=lamps(letter), quantity=[2] * 12), FREE, model) for letter in "ab"]
        hours = [Stored.from_bytes(one.components).components.minutes_listing for one in lots]
        assert correlation(*hours) > least


def priced(kinds: set[str]) -> LotPrices:
    """One line with what is left of its spread: cells of these kinds and its own noise, or cells alone."""
    lines = lines_like(description=["a new lamp"], brand=["Vellmar"], category=["Home > Lamps"], tag_each=[4000.0])
    model = demo_model()
    found = match(model.book, lines.description, lines.sku, lines.gtin)
    lot = price_lot(lines, found, model.prices, np.zeros(1))
    keep = np.isin(lot.cells.kind.astype(str), sorted(kinds))
    cells = replace(lot.cells, var=np.where(keep, lot.cells.var, 0.0))
    rows = replace(lot.rows, value=np.zeros_like(lot.rows.value))
    return replace(lot, cells=cells, rows=rows, noise_var=lot.noise_var * (not kinds))


def drawn(lot: LotPrices, lot_key: str) -> FloatArray:
    own = replace(lot, lot_key=lot_key)
    return np.log(line_price_draws(own, shared_draws(own, 1), np.arange(1), 1)[0])


@pytest.mark.parametrize(
    ("kinds", "is_shared"),
    [(set(), False), ({"lot"}, False), ({"brand"}, True), ({"product", "item"}, True)],
    ids=["noise of single sales", "the lot's own shock", "a new brand", "a new product"],
)
def test_only_what_belongs_to_a_lot_is_drawn_apart(kinds: set[str], is_shared: bool) -> None:
    lot = priced(kinds)
    one, other = drawn(lot, "one lot"), drawn(lot, "another lot")
    assert one.std() > 0
    assert np.array_equal(one, drawn(lot, "one lot"))
    if is_shared:
        assert np.array_equal(one, other)
    else:
        assert abs(correlation(one, other)) < NOISE


def test_lots_do_not_share_what_is_missing_or_dead() -> None:
    terms, condition = LotTerms(), np.array([4], dtype=np.int8)

    def arrived(lot_key: str) -> FloatArray:
        shares = bad_shares(terms, 1, lot_key)
        return arrived_units(np.array([6]), condition, texts(["a lamp"]), shares, 1).saleable[0]

    assert np.array_equal(arrived("one"), arrived("one"))
    assert abs(correlation(arrived("one"), arrived("other"))) < NOISE
    bad = [bad_shares(terms, 1, key).drawn[0] for key in ("one", "other")]
    assert abs(correlation(*bad)) < NOISE


def test_assorted_goods_of_one_name_are_other_goods_in_every_lot() -> None:
    lot = replace(gamma_pace(np.array([0]), np.array([40.0]), np.zeros(1), 1.5, 60.0), apart=np.array([True]))

    def sold(lot_key: str) -> FloatArray:
        return sold_draws(of_one_lot(lot, lot_key), np.arange(1), np.full((1, 8192), 40.0), np.array([60.0]), 1)[0]

    assert np.array_equal(sold("one"), sold("one"))
    assert abs(correlation(sold("one"), sold("other"))) < NOISE
