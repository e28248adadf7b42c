"""Three hundred spoilt files: none crashes or hangs; what keeps the meaning keeps the table, what does not is named."""

import time

import pytest

from models.bench.files.mutations import BYTES, CELLS, KEEPING, WAYS, Spoilt, spoilt
from models.bench.files.sheets import COLUMNS, HISTORY, MANIFEST, small_sheet
from models.bench.files.trials import SLOW
from models.bench.files.verdicts import faults_of, read
from models.bench.files.writing import delimited_file, workbook_file
from models.intake.confined import read_history_confined, read_manifest_confined
from models.values.errors import Rejected
from models.values.streams import stream

FILES = 300


@pytest.mark.parametrize("first", range(0, FILES, 50))
def test_spoilt_files(first: int) -> None:
    for seed in range(first, first + 50):
        started = time.perf_counter()
        assert faults_of(spoilt(seed)) == [], f"seed {seed}"
        assert time.perf_counter() - started < SLOW, f"seed {seed}"


def test_there_are_as_many_of_each_way() -> None:
    ways = [spoilt(seed).way for seed in range(FILES)]
    assert {way: ways.count(way) for way in WAYS} == {KEEPING: 100, CELLS: 100, BYTES: 100}


@pytest.mark.parametrize("kind", [MANIFEST, HISTORY])
def test_the_clean_file_is_clean(kind: str) -> None:
    """Else nothing above would mean anything."""
    sheet = small_sheet(kind, 3)
    for data in (delimited_file([sheet.header, *sheet.rows]), workbook_file([sheet.header, *sheet.rows])):
        found = read(kind, data, "m")
        assert (found.problems.rows, found.problems.items) == (len(sheet.rows), ())
        assert set(COLUMNS[kind]) <= set(found.mapping)


def test_the_verdict_sees_what_is_wrong() -> None:
    """A file in which a cell was changed, said to be one whose meaning was kept; and one changed in secret."""
    sheet = small_sheet(MANIFEST, 3)
    clean = delimited_file([sheet.header, *sheet.rows])
    rows = [list(row) for row in sheet.rows]
    rows[4][5] = "77"
    data, places = delimited_file([sheet.header, *rows]), tuple(range(2, len(rows) + 2))
    for way in (KEEPING, CELLS):
        (fault,) = faults_of(Spoilt(sheet, way, data, "m.csv", clean, places))
        assert "row 6" in fault
    assert faults_of(Spoilt(sheet, CELLS, data, "m.csv", clean, places, {(4, 5): "77"})) == []
    del rows[7]
    short = delimited_file([sheet.header, *rows])
    assert faults_of(Spoilt(sheet, CELLS, short, "m.csv", clean, places, {(4, 5): "77"})) != []


@pytest.mark.parametrize("seed", range(6))
def test_broken_workbooks_cost_one_refusal(seed: int) -> None:
    """Bytes of a workbook are only broken where its reader cannot take us with it: in the limited child."""
    rng = stream(seed, "broken workbook")
    kind = (MANIFEST, HISTORY)[seed % 2]
    sheet = small_sheet(kind, seed)
    raw = bytearray(workbook_file([sheet.header, *sheet.rows]))
    for _ in range(int(rng.integers(1, 6))):
        place = int(rng.integers(len(raw)))
        raw[place : place + int(rng.integers(0, 30))] = rng.bytes(int(rng.integers(0, 30)))
    confined = read_manifest_confined if kind == MANIFEST else read_history_confined
    try:
        found = confined(bytes(raw), "m.xlsx", {}, "USD")
    except Rejected:
        return
    assert found.problems.rows == found.problems.kept + found.problems.set_aside
