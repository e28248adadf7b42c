"""The bench's sellers: their truth is what it says, and the trial measures what it names."""

import numpy as np
import pytest

from models.bench.effort.lots import lot_of
from models.bench.effort.trial import run_effort
from models.bench.effort.world import STRANGE, SUBS, EffortShape, Seller
from models.bench.plan import QUICK
from models.bench.workloads.effort import SIZES, TOLD, shapes, tables, tasks
from models.values.streams import stream


@pytest.fixture(scope="module")
def seller() -> Seller:
    return Seller(EffortShape(3, 3000, "all", 4))


def test_noise_has_mean_one(seller: Seller) -> None:
    assert seller.noise(stream(1, "noise"), 400_000).mean() == pytest.approx(1.0, abs=0.01)


def test_rows_take_what_their_means_say(seller: Seller) -> None:
    """Over all rows, weeks of one seller apart."""
    mean = seller.mean_minutes(seller.goods, seller.first)
    assert seller.minutes.sum() / mean.sum() == pytest.approx(1.0, abs=0.1)
    doubled = seller.of_first(seller.goods) + (seller.goods.quantity - 1) * seller.of_further(seller.goods)
    assert mean[seller.first] == pytest.approx(doubled[seller.first])


def test_a_lots_lines_share_their_items_listing(seller: Seller) -> None:
    lot = lot_of(seller, 0)
    again = lot_of(seller, 0)
    assert lot.minutes.tolist() == again.minutes.tolist()
    assert (lot.minutes > 0).all()
    assert lot.strange.tolist() == [int(one.split("sub")[1]) >= SUBS - STRANGE for one in lot.lines.category.tolist()]
    assert lot.hours == pytest.approx(lot.minutes.sum() / 60, rel=0.6)


def test_what_a_history_tells_is_what_the_shape_says() -> None:
    told = {name: Seller(EffortShape(1, 300, name, 1)) for name in TOLD}
    timed = {name: float(np.isfinite(one.history().listing_minutes).mean()) for name, one in told.items()}
    assert (timed["all"], timed["totals"], timed["dates"]) == (1.0, 0.0, 0.0)
    assert 0.4 < timed["half"] < 0.6
    assert {name: len(one.log()) > 0 for name, one in told.items()} == {
        "all": False, "half": False, "totals": True, "dates": False,
    }  # fmt: skip


def test_an_entry_holds_all_of_its_week() -> None:
    seller = Seller(EffortShape(1, 300, "totals", 1))
    log = seller.log()
    for on, items in zip(log.on, log.items, strict=True):
        week = seller.week[seller.day == int((on - np.datetime64("2022-01-03")).astype(int))][0]
        assert items == seller.goods.quantity[seller.week == week].sum()


def test_a_trial_beats_the_plain_ways_where_rows_are_timed() -> None:
    found = run_effort(EffortShape(2, 300, "all", 8))
    assert found["mape/ours"] < min(found["mape/Gamma GLM"], found["mape/mean minutes"], found["mape/settings"])
    assert 0 <= found["holds 80"] <= 1
    assert run_effort(EffortShape(2, 50, "dates", 2))["mape/ours"] == pytest.approx(
        run_effort(EffortShape(2, 50, "dates", 2))["mape/settings"]
    )


def test_tables_hold_every_size_and_kind_of_history() -> None:
    measures = {"mape/ours": 0.1, "never listed/ours": 0.2, "holds 80": 0.8, "width": 1.5, "hours": 1.0, "pace": 0.1}
    measures |= {"timings": 1.0, "entries": 0.0}
    results = {shape: measures for size in SIZES for told in TOLD for shape in shapes(QUICK, size, told)}
    timed = next(task for task in tasks(QUICK) if task.alone)
    told, speed = tables(QUICK, results | {timed.argument: {"effort": 1.0, "tempo": 2.0, "prices": 10.0}})
    assert len(told.rows) == len(SIZES) * len(TOLD)
    assert speed.rows[0].figures["both / prices"].mean == pytest.approx(0.3)
    assert told.rows[0].figures["ours"].verdict == "met"
