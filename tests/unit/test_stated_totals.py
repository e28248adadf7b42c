"""A file's own totals stand beside ours; where they do not agree it is said, with both figures."""

from dataclasses import replace

import numpy as np
import pytest

from models.intake.answers import manifest_of, packed_reading
from models.intake.manifest import ReadManifest, read_manifest
from models.values.lines import Lines
from models.values.packing import unpack
from models.values.problems import Problems, StatedTotals
from models.values.stated_totals import counted, disagreements, problems_document, tags_agree, units_agree

TAGS = np.array([100.0, np.nan, 250.0])
LINES = replace(Lines.blank(3), quantity=np.array([2, 3, 4]), tag_each=TAGS, row=np.array([2, 3, 6]))


def total(units: float | None = None, tags: float | None = None, covers: tuple[int, int] | None = None) -> StatedTotals:
    [one] = counted((StatedTotals(units, tags, 9, "Grand total", covers),), LINES)
    return one


@pytest.mark.parametrize(
    ("covers", "units", "tags"),
    [(None, 9, 1200), ((2, 3), 5, 200), ((6, 6), 4, 1000), ((3, 5), 3, None), ((7, 8), 0, None)],
)
def test_lines_used_from_its_rows_are_counted(covers: tuple[int, int] | None, units: float, tags: float | None) -> None:
    one = total(covers=covers)
    assert (one.counted_units, one.counted_tags) == (units, tags)


@pytest.mark.parametrize(
    ("one", "agree"),
    [
        (total(9, 1200), (True, True)),
        (total(10, 1200), (False, True)),
        (total(9, 1201), (True, True)),
        (total(9, 1300), (True, False)),
        (total(None, None), (True, True)),
        (total(12, None, (3, 5)), (False, True)),
        (StatedTotals(9, 1300, 9, "not counted yet"), (True, True)),
    ],
)
def test_agreement(one: StatedTotals, agree: tuple[bool, bool]) -> None:
    assert (units_agree(one), tags_agree(one)) == agree
    assert bool(list(disagreements((one,), "USD"))) == (not all(agree))


def test_a_total_under_others_sums_its_part_or_all_above() -> None:
    grand, part = (StatedTotals(units, None, 7, "Total", (6, 6)) for units in (10, 4))
    [one, other] = counted((grand, part), LINES)
    assert (one.covers, one.counted_units) == (None, 9), "nearer to everything above than to its own part"
    assert (other.covers, other.counted_units) == ((6, 6), 4)
    [heading] = counted((StatedTotals(9, None, 1, "PALLET 1 - 9 UNITS", (2, 3)),), LINES)
    assert (heading.covers, heading.counted_units) == ((2, 3), 5), "a heading speaks of what follows it"


def test_a_read_file_is_held_against_its_own_totals() -> None:
    data = b"Item,Qty,Ext. Retail\nBlue mug,2,$19.00\nJug,3,5\nKettle,4,40\nBroken,-1,5\nGrand total,10,69\n"
    read = read_manifest(data, "m.csv", {}, "USD")
    [one] = read.problems.stated
    assert (one.units, one.tags, one.counted_units, one.counted_tags) == (10, 6900, 9, 6400)
    assert any("says 10 units and tags of $69; the lines used make 9 and $64." in told.what for told in read.cautions)
    assert (read.problems.rows, read.problems.kept, read.problems.set_aside) == (4, 3, 1), "a total is no row"


def test_both_figures_are_told() -> None:
    [one] = disagreements((replace(total(10, 1300), row=0, where="LOT 7 - 10 UNITS"),), "USD")
    assert "'LOT 7 - 10 UNITS' says 10 units and tags of $13; the lines used make 9 and $12." in one.what


def test_documents_write_money() -> None:
    [one] = problems_document(Problems(3, 3, 0, (), (total(9, 1200, (2, 6)),)), "USD")["stated"]
    assert one == {
        "units": 9, "tags": "12.00", "row": 9, "where": "Grand total", "covers": [2, 6], "counted_units": 9.0,
        "counted_tags": "12.00", "part": False, "cases": None, "counted_cases": None, "agrees": True,
    }  # fmt: skip


def test_they_come_back_from_the_child() -> None:
    problems = Problems(3, 3, 0, (), (total(9, 1200, (2, 6)), total(9)))
    read = ReadManifest(LINES, problems, (), {})
    assert manifest_of(unpack(packed_reading(read))).problems == problems
