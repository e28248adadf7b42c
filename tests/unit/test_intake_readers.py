"""Bytes become grids: by content, in any usual encoding, with the row numbers a spreadsheet shows."""

import datetime as dt
import io
import zipfile

import pytest
from intake_files import delimited, ods, xls, xlsx

from models.intake.files.readers import read_grids
from models.intake.limits import Limits, held_to
from models.values.errors import TooLarge, Unreadable

ROWS = [["Description", "Qty", "Tag"], ["Café mug", "2", "9,50"], ["Jug", "1", "3"]]


@pytest.mark.parametrize("delimiter", [",", ";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
def test_every_delimiter_in_every_encoding(delimiter: str, encoding: str) -> None:
    assert read_grids(delimited(ROWS, delimiter, encoding), "x.csv")[0].rows == ROWS


@pytest.mark.parametrize("end", ["\n", "\r\n", "\r"])
def test_every_line_end(end: str) -> None:
    assert read_grids(delimited(ROWS, end=end), "x.csv")[0].rows == ROWS


@pytest.mark.parametrize("build", [xlsx, ods, xls])
def test_workbooks_keep_numbers_typed_whatever_the_name(build) -> None:
    rows = [["Description", "Qty", "Tag"], ["Café mug", 2, 9.5], ["", "", ""], ["Jug", 1, ""]]
    (grid,) = read_grids(build(rows), "x.csv")
    assert [row + [""] * (3 - len(row)) for row in grid.rows] == rows
    assert grid.first_row == 1


def test_dates_and_switches_of_a_workbook() -> None:
    moment = dt.datetime.fromisoformat("2026-07-01T13:05")
    (grid,) = read_grids(xlsx([["a", moment, dt.date(2026, 7, 2), True, dt.timedelta(minutes=75)]]), "x.xlsx")
    assert grid.rows == [["a", dt.date(2026, 7, 1), dt.date(2026, 7, 2), "TRUE", "1:15:00"]]


def test_a_cell_of_many_lines_counts_as_one_row() -> None:
    rows = read_grids(b'a,b\r\n"one\r\ntwo",2\r\n\r\nx,3\r\n', "x.csv")[0].rows
    assert rows == [["a", "b"], ["one\r\ntwo", "2"], [], ["x", "3"]]


def test_a_declared_delimiter_is_obeyed_and_not_a_row() -> None:
    assert read_grids(b"sep=|\r\na,b|c\r\n", "x.csv")[0].rows == [["a,b", "c"]]


def test_armour_of_exports_is_taken_off() -> None:
    assert read_grids(b'a,b\n"=""007""",\'-5\n', "x.csv")[0].rows[1] == ["007", "-5"]


def test_one_stray_byte_does_not_spoil_the_other_accents() -> None:
    data = "Description,Qty\nCafé crème brûlée,1\nMug ".encode() + b"\xe9,2\n"
    assert [row[0] for row in read_grids(data, "x.csv")[0].rows[1:]] == ["Café crème brûlée", "Mug é"]


def test_an_open_quotation_mark_costs_its_own_row_only() -> None:
    lines = ["Description,Brand,Qty,Tag", '"Big mug,Orrin,1,2', *(f"Jug {i},Orrin,1,2" for i in range(5))]
    (grid,) = read_grids("\n".join(lines).encode(), "x.csv")
    assert [row[0] for row in grid.rows] == ["Description", '"Big mug', *(f"Jug {i}" for i in range(5))]
    assert grid.mended == {2}


def test_an_open_quotation_mark_in_a_long_file() -> None:
    lines = ["Description,Brand,Qty,Tag", '"Big mug,Orrin,1,2', *(f"Jug {i},Orrin,1,2" for i in range(20_000))]
    (grid,) = read_grids("\n".join(lines).encode(), "x.csv")
    assert len(grid.rows) == 20_002
    assert grid.mended == {2}


@pytest.mark.parametrize("count", [199, 200])
def test_open_quotation_marks_throughout_cost_nothing_else(count: int) -> None:
    lines = ["Description,Brand,Qty,Tag", *(f'"Jug {i},Orrin,1,2' for i in range(count))]
    (grid,) = read_grids("\n".join(lines).encode(), "x.csv")
    assert [row[1:] for row in grid.rows[1:]] == [["Orrin", "1", "2"]] * count


def test_going_back_has_an_end(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("models.intake.files.quoting._MOST_REREAD", 0.01)
    lines = ["Description,Brand,Qty,Tag", '"Big mug,Orrin,1,2', *(f"Jug {i},Orrin,1,2" for i in range(2000))]
    with pytest.raises(Unreadable, match="quotation mark"):
        read_grids("\n".join(lines).encode(), "x.csv")


def _junk_zip(name: str = "a.txt") -> bytes:
    data = io.BytesIO()
    with zipfile.ZipFile(data, "w") as archive:
        archive.writestr(name, "junk")
    return data.getvalue()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"", "is empty"),
        (b"  \r\n\t\r\n", "is empty"),
        (b"\xef\xbb\xbf", "is empty"),
        (b",,,\r\n,,\r\n", "is empty"),
        (b"%PDF-1.7\n%\xe2\xe3", "PDF"),
        (b"\x89PNG\r\n\x1a\n" + b"\0" * 40, "picture"),
        (b"\xff\xd8\xff\xe0" + b"\0" * 40, "picture"),
        (b"GIF89a" + b"\0" * 40, "picture"),
        (b"BM\x36\x00\x00\x00\x00\x00", "picture"),
        (b"\x1f\x8b\x08" + b"\0" * 40, "archive"),
        (b"PK\x03\x04 junk", "broken workbook"),
        (_junk_zip("a.jpg"), "archive without a workbook"),
        (_junk_zip("xl/workbook.xml"), "broken workbook"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600, "broken workbook"),
        (bytes(range(256)) * 20, "not text"),
        (b"abc\x00\x01\x02def,\x00\n", "not text"),
        (b"<!DOCTYPE html><html><table></table></html>", "spreadsheet program, save it as XLSX"),
        (b"<!DOCTYPE html><html><form>Sign in</form></html>", "web page or XML, not a table"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\0" * 600 + "EncryptedPackage".encode("utf-16-le"), "password"),
        (b"\xef\xbb\xbf<?xml version='1.0'?><a/>", "XML"),
        (xlsx([[""]]), "is empty"),
    ],
)
def test_what_is_no_table_is_refused_in_one_sentence(data: bytes, says: str) -> None:
    with pytest.raises(Unreadable, match=says) as refused:
        read_grids(data, "load.csv")
    assert refused.value.message.startswith("load.csv")


def test_goods_that_begin_like_a_picture_are_text() -> None:
    assert read_grids(b"BM number,Qty\n1,2\n", "x.csv")[0].rows[0] == ["BM number", "Qty"]


def test_hidden_sheets_say_so() -> None:
    grids = read_grids(xlsx([["a"]], {"Shown": [["b"]], "Hidden": [["c"]]}, ["Hidden"]), "x.xlsx")
    assert [(grid.name, grid.hidden) for grid in grids] == [("Sheet", False), ("Shown", False), ("Hidden", True)]


def test_a_sheet_of_too_many_cells_is_refused() -> None:
    with held_to(Limits(max_cells=5)), pytest.raises(TooLarge, match="cells"):
        read_grids(xlsx([["a", "b"], ["c", "d"], ["e", "f"]]), "x.xlsx")


@pytest.mark.parametrize("build", [delimited, xlsx])
def test_too_many_columns_are_refused_but_blank_ones_are_not(build) -> None:
    with pytest.raises(TooLarge, match="columns"):
        read_grids(build([["a"] * 600]), "x")
    assert len(read_grids(build([["a", *[""] * 598, " "]]), "x")[0].rows[0]) == 500


def test_too_many_rows_are_refused() -> None:
    with held_to(Limits(max_rows=3)), pytest.raises(TooLarge, match="rows"):
        read_grids(delimited([["a", "b"]] * 4), "x.csv")


@pytest.mark.parametrize(("name", "says"), [("lot.XLSX", "damaged"), ("lot.csv", "Save it as CSV or XLSX")])
def test_what_is_no_text_is_told_by_what_its_name_promises(name: str, says: str) -> None:
    with pytest.raises(Unreadable, match=says) as told:
        read_grids(b"\x01\x02\x03\x04" * 500, name)
    assert "is not text" not in str(told.value) or name.endswith(".csv")
