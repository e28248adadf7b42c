"""Totals of listing work: one equation on a sum, the goods it stands for, and files that hold them."""

from datetime import date
from pathlib import Path

import numpy as np
import pytest
from tempo_world import START, lines_of, sales_of

from api.cli.work_log_file import read_work_log
from models.estimate.effort import line_minutes
from models.estimate.effort_model import EffortModel
from models.estimate.fit.effort import fit_effort
from models.estimate.fit.effort_rows import effort_rows
from models.estimate.fit.effort_totals import totals_of
from models.estimate.fit.learned import learned_minutes
from models.estimate.products import Matched
from models.values.errors import Rejected
from models.values.in_force import in_force
from models.values.sales import Sales
from models.values.streams import stream
from models.values.work_log import WorkLog

NOBODY = Sales.blank(0), np.empty(0, dtype=np.int64)


def entries(n: int, items: float, hours: float, kind: str = "", category: str = "", first: int = 0) -> WorkLog:
    """n entries, a day each."""
    return WorkLog.of([(START + first + day, items, hours, kind, category) for day in range(n)])


def listed(n: int, condition: int = 2, **given: object) -> Sales:
    """n rows of one unit, four a day."""
    codes = np.full(n, condition, dtype=np.int8)
    return sales_of(np.repeat(np.arange(n / 4), 4), np.full(n, np.nan), condition=codes, **given)


def first_minutes(*args: object) -> float:
    return float(np.exp(fit_effort(*args).ln_minutes[0]))  # type: ignore[arg-type]


def test_forty_items_in_five_hours_are_seven_and_a_half_minutes_each() -> None:
    told = [first_minutes(*NOBODY, entries(n, 40, 5.0)) for n in (1, 5, 40)]
    assert 7.5 < told[2] < told[1] < told[0] < 12.0
    assert told[2] == pytest.approx(7.5, rel=0.02)


def test_a_total_is_read_as_a_sum_of_means_not_of_logs() -> None:
    """Minutes of single listings that vary by .8: their mean is e^.32 times their median; the total tells the mean."""
    log = []
    for week in range(60):
        minutes = 10.0 * np.exp(0.8 * stream(week, "spread").standard_normal(40))
        log.append((START + week, 40.0, float(minutes.sum() / 60), "", ""))
    mean = 10.0 * np.exp(0.8**2 / 2)
    assert first_minutes(*NOBODY, WorkLog.of(log)) == pytest.approx(mean, rel=0.06)


def test_the_days_own_rows_say_which_goods_they_were() -> None:
    """On days of sealed goods ten units are one listing and nine repeats, of usual luck: it takes the median."""
    sealed = sales_of(
        np.arange(40.0), np.full(40, np.nan), quantity=np.full(40, 10), condition=np.zeros(40, dtype=np.int8)
    )
    model = fit_effort(sealed, np.arange(40), entries(40, 10, (20 + 9 * 2) * np.exp(-0.08) / 60))
    ln = model.ln_minutes
    assert np.exp(ln[0]) + 9 * np.exp(ln[1]) == pytest.approx(38.0, rel=0.05)
    assert model.entries == 40
    assert model.unit_minutes == pytest.approx(3.8, rel=0.05)


def test_an_entry_of_one_kind_stands_for_rows_of_that_kind() -> None:
    both = sales_of(
        np.full(80, 300.0), np.full(80, np.nan), condition=np.repeat([0, 2], 40).astype(np.int8),
        quantity=np.full(80, 2),
    )  # fmt: skip
    rows = effort_rows(both, np.arange(80))
    for kind, part in (("sealed", slice(0, 40)), ("used", slice(40, 80)), ("", slice(0, 80))):
        totals = totals_of(entries(1, 500, 60, kind), rows)
        assert totals.mixes[0].row.tolist() == np.arange(80)[part].tolist()
        assert not totals.mixes[0].seen
    assert totals_of(entries(1, 500, 60, "", "Toys"), rows).mixes[0].row.size == 80
    assert totals_of(entries(1, 500, 60, "", "Hats"), rows).mixes[0].row.size == 80  # none such: the usual goods


def test_rows_of_the_week_count_where_the_day_shows_too_few() -> None:
    sales = listed(40)
    rows = effort_rows(sales, np.arange(40))
    by_day = totals_of(entries(1, 4, 1, first=5), rows)
    by_week = totals_of(entries(1, 28, 5, first=6), rows)
    assert by_day.mixes[0].row.tolist() == [20, 21, 22, 23]
    assert by_week.mixes[0].row.tolist() == list(range(28))
    assert by_day.mixes[0].seen
    assert by_week.mixes[0].seen


def test_a_total_of_timed_rows_says_nothing_new() -> None:
    sales = listed(40, listing_minutes=np.full(40, 9.0))
    log = entries(10, 4, 4 * 30 / 60)  # other minutes than the rows themselves say
    assert fit_effort(sales, np.arange(40), log).entries == 0
    half = listed(40, listing_minutes=np.where(np.arange(40) % 4 == 0, 9.0, np.nan))
    assert fit_effort(half, np.arange(40), entries(10, 4, 4 * 12 / 60)).entries == 10


def test_entries_that_cannot_be_meant_are_left_out() -> None:
    log = WorkLog.of([(START, 0, 5, "", ""), (START, 40, 0, "", ""), (START, 1, 25, "", ""), (START, 40, 5, "", "")])
    assert fit_effort(*NOBODY, log).entries == 1


def test_one_absurd_total_does_little() -> None:
    good = entries(12, 40, 5.0)
    wild = WorkLog.of([*((good.on[i], 40.0, 5.0, "", "") for i in range(12)), (START, 40.0, 400.0, "", "")])
    assert first_minutes(*NOBODY, wild) == pytest.approx(first_minutes(*NOBODY, good), rel=0.08)


def test_order_of_entries_and_rows_changes_nothing_that_matters() -> None:
    sales, log = listed(40), WorkLog.of([(START + d, 4.0, 0.5 + 0.1 * d, "", "") for d in range(10)])
    turn = np.random.Generator(np.random.PCG64(1)).permutation(40)
    one = fit_effort(sales, np.arange(40), log)
    two = fit_effort(sales.take(turn), turn, log.take(np.arange(10)[::-1]))
    assert one.ln_minutes == pytest.approx(two.ln_minutes, abs=1e-6)


def test_twenty_items_are_enough_to_be_told() -> None:
    assert learned_minutes(fit_effort(*NOBODY, entries(1, 19, 2.0))) == {}
    assert learned_minutes(fit_effort(*NOBODY, entries(1, 20, 2.0)))["effort"]["minutes_first"] < 12.0


def test_a_file_of_totals_is_read(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("On,Items,Hours,Kind,Category\n2026-03-02,40,5,,\n2026-03-03,25,2.5,Sealed,Toys > Cars\n")
    log = read_work_log(path)
    assert log is not None
    assert log.hours.tolist() == [5.0, 2.5]
    assert log.kind.tolist() == ["", "sealed"]
    assert log.category.tolist() == ["", "toys > cars"]
    assert read_work_log(None) is None


def test_a_file_of_totals_may_be_written_as_sales_files_are(tmp_path: Path) -> None:
    path = tmp_path / "log.csv"
    path.write_text("on;items;hours\n20.11.2026;40;2,5\n03.04.2026;25;2\n\n")
    log = read_work_log(path)
    assert log is not None
    assert log.hours.tolist() == [2.5, 2.0]
    assert log.on.astype(str).tolist() == ["2026-11-20", "2026-04-03"]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("items,hours\n40,5\n", "no heading on"),
        ("on,items,hours\n2026-03-02,40,\n", "row 2"),
        ("on,items,hours\n2026-03-02,40,5\nyesterday,40,5\n", "row 3"),
        ("on,items,hours\n2026-03-02,40,nan\n", "row 2: write a day"),
        ("on,items,hours\n2026-03-02,40,0\n", "hours must be above 0"),
        ("on,items,hours\n2026-03-02,40,5\n2099-01-01,40,5\n", "row 3: on must lie between 2000-01-01 and 2026-11-26"),
        ("on,items,hours\n1850-01-01,40,5\n", "row 2"),
        ("on,items,hours\n2026-03-02,1,24\n", "row 2: hours are a whole day or more an item"),
        ("on,items,hours\n03/04/2026,40,5\n", "row 2: day or month first?"),
        ("on,items,hours\n2026-03-02,2.5,3\n", "items must be a whole number"),
        ("on,items,hours,kind\n2026-03-02,40,5,odd\n", "kind must be sealed or used"),
        ("", "no heading on and no items and no hours"),
    ],
)
def test_a_file_that_cannot_be_meant_names_the_row(tmp_path: Path, text: str, said: str) -> None:
    path = tmp_path / "log.csv"
    path.write_text(text)
    with pytest.raises(Rejected) as error:
        read_work_log(path, date(2026, 11, 26))
    assert said in error.value.message


def test_totals_alone_tell_the_mean_of_goods_whose_kinds_they_cannot_tell_apart() -> None:
    """Goods of many kinds, some of which take twice as long: a lot of them takes what the totals took."""
    n = 400
    kinds = np.arange(n) % 8
    minutes = 8.0 * np.exp(0.35 * (kinds - 3.5) / 2.3)
    sales = listed(n, category=np.array([f"kind {one}" for one in kinds], dtype=object))
    weeks = np.arange(n) // 28
    log = WorkLog.of(
        [(START + 7 * w + 6, float((weeks == w).sum()), minutes[weeks == w].sum() / 60, "", "") for w in range(14)]
    )
    model = fit_effort(sales, np.arange(n), log)
    assert model.unit_minutes == pytest.approx(minutes.mean(), rel=0.04)
    lines = lines_of(np.ones(n), category=sales.category, condition=sales.condition)
    matched = Matched(np.arange(n), lines.description, np.zeros(n, dtype=bool))
    held = in_force([], learned_minutes(model)).settings.effort
    assert line_minutes(lines, matched, model, held, lines.assorted).listing.mean() == pytest.approx(
        minutes.mean(), rel=0.05
    )


@pytest.mark.parametrize("condition", [0, 2])
@pytest.mark.parametrize(("products", "step"), [(1, 2.5), (12, 0.1), (300, 1.0)])
def test_a_popular_item_listed_every_few_days_is_listed_anew_each_time(
    condition: int, products: int, step: float
) -> None:
    n = 300
    sales = sales_of(np.floor(np.arange(n) * step), np.full(n, np.nan), condition=np.full(n, condition, dtype=np.int8))
    model = fit_effort(sales, np.arange(n) % products, entries(12, 40, 5.0, first=5000))
    assert np.exp(model.ln_minutes[0]) == pytest.approx(7.5, rel=0.05)
    assert model.unit_minutes == pytest.approx(7.5, rel=0.05)
    assert np.exp(model.ln_minutes[1]) == pytest.approx(7.5 / 12, rel=0.05)  # of further units nothing was told


def test_a_log_of_unseen_goods_counts_a_batch_as_one_item() -> None:
    batches = sales_of(np.arange(60) * 7.0, np.full(60, np.nan), quantity=np.full(60, 10))
    model = fit_effort(batches, np.arange(60), entries(12, 40, 5.0, first=5000))
    assert np.exp(model.ln_minutes[0]) == pytest.approx(7.5, rel=0.05)


def test_days_whose_listings_match_the_items_are_counted_by_listing() -> None:
    batches = sales_of(np.repeat(np.arange(10.0), 4), np.full(40, np.nan), quantity=np.full(40, 30))
    totals = totals_of(entries(1, 4, 0.5, first=3), effort_rows(batches, np.arange(40)))
    assert totals.mixes[0].row.tolist() == [12, 13, 14, 15]
    assert totals.mixes[0].seen
    assert totals.mixes[0].by_row


def partly_timed(each_hours: float, minutes: float = 10.0) -> tuple[Sales, WorkLog]:
    """400 rows of four kinds, 40 timed and none of them of the last kind; totals of goods that no row shows."""
    kinds = np.array([f"kind {number % 4}" for number in range(400)], dtype=object)
    told = (np.arange(400) < 52) & (kinds != "kind 3")
    return listed(400, category=kinds, listing_minutes=np.where(told, minutes, np.nan)), entries(
        12, 40, each_hours, first=5000
    )


@pytest.mark.parametrize("hours", [2.0, 20.0])
def test_a_log_far_from_the_timed_rows_is_left_out_and_told(hours: float) -> None:
    """It once made goods without a timed row sixteen times as slow, so that the sum came out."""
    sales, log = partly_timed(hours)
    model, without = fit_effort(sales, np.arange(400), log), fit_effort(sales, np.arange(400))
    assert model.ln_minutes.tolist() == without.ln_minutes.tolist()
    assert model.top.effect.tolist() == without.top.effect.tolist()
    assert (model.entries, model.log_left) == (0, 12)
    assert model.evidence["work_log_times"] == pytest.approx(hours * 1.5 / 10, rel=0.1)


def test_a_log_beside_timed_rows_moves_them_by_what_it_can_know() -> None:
    """A habit of counting is shared by all entries: twelve of them tell little more than three."""
    sales, log = partly_timed(9.0)
    many, few = fit_effort(sales, np.arange(400), log), fit_effort(sales, np.arange(400), log.take(np.arange(3)))
    without = fit_effort(sales, np.arange(400)).unit_minutes
    assert without < few.unit_minutes < many.unit_minutes < 1.1 * without
    assert 0.0 < few.log_share < many.log_share < 2.0 * few.log_share < 0.3
    assert many.evidence == {"timings": 39, "work_log_entries": 12, "work_log_share": round(many.log_share, 3)}


def test_what_a_log_beside_timed_rows_told_survives_storage() -> None:
    sales, log = partly_timed(20.0)
    model = fit_effort(sales, np.arange(400), log)
    kept = model.arrays()
    assert EffortModel.from_arrays(kept).evidence == model.evidence
    older = {name: array for name, array in kept.items() if not name.startswith("log_")}
    assert EffortModel.from_arrays(older).evidence == {"timings": 39, "work_log_entries": 0}
