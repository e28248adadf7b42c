"""One table inside a gzip or zip archive is read; anything else about archives is refused in one sentence.

Outside check: RFC 1952 (gzip) and APPNOTE 6.3 (zip), as Python's own writers follow them.
"""

import gzip
import io
import zipfile
from collections.abc import Mapping

import pytest
from intake_files import delimited, ods, xls, xlsx

from models.intake.files.archives import unpacked
from models.intake.files.readers import read_grids
from models.intake.limits import Limits, held_to, limits_of
from models.intake.manifest import read_manifest
from models.values.errors import Rejected, TooLarge, Unreadable

ROWS = [["Description", "Qty"], ["Café mug", "2"]]
TABLE = delimited(ROWS)


def zipped(files: Mapping[str, bytes]) -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in files.items():
            archive.writestr(name, content)
    return data.getvalue()


@pytest.mark.parametrize("build", [delimited, xlsx, ods, xls])
@pytest.mark.parametrize("pack", [gzip.compress, lambda data: zipped({"inside/load.csv": data})])
def test_one_table_of_any_kind_in_an_archive(build, pack) -> None:
    assert read_grids(pack(build(ROWS)), "load.bin")[0].rows == ROWS


@pytest.mark.parametrize("encoding", ["utf-16", "utf-16-be", "cp1252"])
def test_encodings_inside_an_archive(encoding: str) -> None:
    assert read_grids(gzip.compress(delimited(ROWS, ";", encoding)), "load.csv.gz")[0].rows == ROWS


def test_leftovers_of_packing_are_not_tables() -> None:
    files = {"__MACOSX/._load.csv": b"\0\5\26\7", ".hidden.csv": b"x", "readme.pdf": b"%PDF", "load.csv": TABLE}
    assert read_grids(zipped(files), "load.zip")[0].rows == ROWS


def test_a_gzip_inside_a_zip_is_one_table() -> None:
    data, name = unpacked(zipped({"load.csv.gz": gzip.compress(TABLE)}), "week.zip")
    assert (data, name) == (TABLE, "load.csv.gz in week.zip")


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (zipped({}), "without a workbook or table"),
        (zipped({"photo.jpg": b"\xff\xd8"}), "without a workbook or table"),
        (zipped({"a.csv": TABLE, "b.csv": TABLE}), "2 tables"),
        (gzip.compress(gzip.compress(gzip.compress(TABLE))), "inside an archive"),
        (gzip.compress(TABLE)[:20], "broken gzip"),
        (gzip.compress(TABLE)[:-4] + b"\0\0\0\0", "broken gzip"),
        (zipped({"a.csv": TABLE})[:60], "broken"),
        (gzip.compress(b""), "empty"),
        (gzip.compress(b"%PDF-1.7"), "PDF"),
    ],
)
def test_refusals(data: bytes, says: str) -> None:
    with pytest.raises(Unreadable, match=says):
        read_grids(data, "load.bin")


def test_a_locked_zip_is_refused() -> None:
    locked = bytearray(zipped({"a.csv": TABLE}))
    locked[6] |= 1  # general purpose bit 0 of the local header, then of the central directory
    locked[locked.index(b"PK\x01\x02") + 8] |= 1
    with pytest.raises(Unreadable, match="password"):
        read_grids(bytes(locked), "load.zip")


@pytest.mark.parametrize("pack", [gzip.compress, lambda data: zipped({"load.csv": data})])
def test_a_bomb_is_stopped_while_it_unpacks(pack) -> None:
    bomb = pack(b"a,b\n" * 1_000_000)
    assert len(bomb) < 20_000
    with held_to(Limits(max_uncompressed_mib=2)), pytest.raises(TooLarge, match="more than 2 MiB"):
        read_grids(bomb, "load.bin")


def test_a_zip_that_lies_about_its_size_is_stopped_too() -> None:
    bomb = bytearray(zipped({"load.csv": b"a,b\n" * 1_000_000}))
    place = bomb.index(b"PK\x01\x02") + 24
    bomb[place : place + 4] = (100).to_bytes(4, "little")
    with held_to(Limits(max_uncompressed_mib=2)), pytest.raises((TooLarge, Unreadable)):
        read_grids(bytes(bomb), "load.zip")


def test_a_workbook_that_unpacks_too_far_is_refused_unopened() -> None:
    book = xlsx([["a" * 30_000 + str(row)] for row in range(80)])
    with held_to(Limits(max_uncompressed_mib=1)), pytest.raises(TooLarge, match="unpacks"):
        read_grids(book, "x.xlsx")


def test_goods_that_begin_like_an_archive_are_text() -> None:
    assert read_grids(b"PK number,Qty\n1,2\n", "x.csv")[0].rows[0] == ["PK number", "Qty"]


def test_limits_come_from_the_environment() -> None:
    limits = limits_of({"LOTWRIGHT_MAX_ROWS": "5000", "LOTWRIGHT_MAX_UNCOMPRESSED_MIB": "7", "OTHER": "x"})
    assert (limits.max_rows, limits.uncompressed_bytes, limits.max_columns) == (5000, 7 << 20, Limits.max_columns)


@pytest.mark.parametrize("text", ["", "many", "-5", "1", "1.5"])
def test_a_limit_that_makes_no_sense_is_refused_by_name(text: str) -> None:
    with pytest.raises(Rejected, match="LOTWRIGHT_MAX_ROWS"):
        limits_of({"LOTWRIGHT_MAX_ROWS": text})


def test_a_text_beside_the_one_table_is_passed_over_and_told() -> None:
    done = read_manifest(
        zipped({"lot/manifest.csv": TABLE, "lot/READ ME.txt": b"Pick up by Friday."}), "x.zip", {}, "USD"
    )
    assert len(done.lines)
    assert any("READ ME.txt" in one.what for one in done.cautions)


def test_several_texts_alone_are_still_refused() -> None:
    with pytest.raises(Unreadable):
        read_manifest(zipped({"a.txt": TABLE, "b.txt": TABLE}), "x.zip", {}, "USD")
