"""Long delimited files are read a piece at a time: where a piece ends changes nothing, wherever odd rows stand."""

import csv
import io
import zipfile
from collections.abc import Mapping

import pytest
from intake_files import ods, xlsx

from models.intake.files import quoting
from models.intake.files.quoting import QuotedRows
from models.intake.files.readers import read_grids
from models.intake.files.sheet_marks import NO_RESULT, Marks
from models.intake.files.workbook_marks import marks_of
from models.intake.manifest import read_manifest


def marks_in(book: bytes) -> Mapping[str, Marks]:
    marks = marks_of(book)
    assert marks is not None
    return marks


LINES = [f"Mug {number},Orrin,{number},2.50" for number in range(40)]


@pytest.mark.parametrize("piece", [1, 2, 3, 7, 40, 4096])
@pytest.mark.parametrize("place", [0, 5, 6, 20, 38, 39])
@pytest.mark.parametrize(
    "odd",
    [
        '"Cup\nand ""lid""",Vell,1,3',
        '"Cup, blue",Vell,1,3',
        '"Cup,Vell,1,3',
        "",
        ' Cup , Vell ,"1" ,3',
        "Cup\x00,Vell,1,3",
    ],
)
def test_where_a_piece_ends_changes_nothing(monkeypatch: pytest.MonkeyPatch, piece: int, place: int, odd: str) -> None:
    text = "\n".join(["Item,Brand,Qty,Tag", *LINES[:place], odd, *LINES[place:]]) + "\n"
    (whole,) = read_grids(text.encode(), "x.csv")
    monkeypatch.setattr(quoting, "_PIECE", piece)
    (grid,) = read_grids(text.encode(), "x.csv")
    assert (grid.rows, grid.mended, grid.notes) == (whole.rows, whole.mended, whole.notes)
    assert [row for row in grid.rows if row[:1] and str(row[0]).startswith("Mug")] == [
        line.split(",") for line in LINES
    ]
    assert len(grid.rows) == 42


def test_pieces_agree_with_the_plain_reader_on_sound_text() -> None:
    text = "\n".join(['a,"b\nc",d', *["x,y,z"] * 10_000, '"p ""q""",r,s']) + "\n"
    assert list(QuotedRows(text, ",", 3)) == list(csv.reader(io.StringIO(text, newline="")))


def changed(book: bytes, part: str, old: str, new: str) -> bytes:
    source, out = zipfile.ZipFile(io.BytesIO(book)), io.BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name in source.namelist():
            content = source.read(name)
            archive.writestr(name, content.replace(old.encode(), new.encode()) if name == part else content)
    return out.getvalue()


SHEET = "xl/worksheets/sheet1.xml"


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('<c r="B2" t="n"><v>2</v></c>', '<c r="B2"><f>1+1</f></c>'),
        ('<c r="B2" t="n"><v>2</v></c>', '<c r="B2"><f>1+1</f><v/></c>'),
        ('<c r="B2" t="n"><v>2</v></c>', '<c r="B2"><f>1+1</f><v></v></c>'),
        ('<c r="B2" t="n"><v>2</v></c>', '<c r="B2" s="1"><f t="shared" si="0"/></c>'),
    ],
)
def test_formulas_without_a_result_as_programs_write_them(old: str, new: str) -> None:
    marks = marks_in(changed(xlsx([["Item", "Qty"], ["Mug", 2]]), SHEET, old, new))["Sheet"]
    assert [(note.row, note.place, note.reason) for note in marks.notes] == [(2, 1, NO_RESULT)]


def test_formulas_with_a_result_are_not_noted() -> None:
    book = changed(xlsx([["Item", "Qty"], ["Mug", 2]]), SHEET, '<c r="B2" t="n">', '<c r="B2"><f>1+1</f>')
    assert marks_in(book)["Sheet"].notes == []


def test_rows_without_numbers_are_counted() -> None:
    book = changed(xlsx([["Item"], ["Mug"], ["Jug"]]), SHEET, '<row r="3">', '<row hidden="true">')
    assert marks_in(book)["Sheet"].hidden_rows == {3}


def test_repeated_rows_and_formulas_of_an_open_document() -> None:
    book = ods([["Item", "Qty"], ["Mug", 2], ["Jug", 1]], hidden_rows=[3])
    book = changed(
        book,
        "content.xml",
        "<table:table-row><table:table-cell",
        '<table:table-row table:number-rows-repeated="2"><table:table-cell',
    )
    book = changed(book, "content.xml", 'office:value-type="float" office:value="1"', 'table:formula="of:=1"')
    marks = marks_in(book)["Lines"]
    assert marks.hidden_rows == {5}
    assert [(note.row, note.reason) for note in marks.notes] == [(5, NO_RESULT)]


@pytest.mark.parametrize("data", [b"", b"PK\x03\x04", xlsx([["a"]])[:300], xlsx([["a"]])[:-30]])
def test_what_cannot_be_looked_into_has_no_marks(data: bytes) -> None:
    assert marks_of(data) is None


def test_a_lone_cell_beside_the_goods_is_a_row_without_its_name() -> None:
    data = (
        b"description,quantity,tag_each,sku,gtin,brand\nMug,1,5,s1,,Ostrewell\nJug,2,7,s2,,Ostrewell\n"
        b",,500,,,\n,4,,,,\n,,,sk9,,\n,,,,4006381333931,\n,,,,,Ostrewell\n"
        b",,Thank you for bidding,,,\n\xc3\x9cbertrag,3,19,,,\n"
    )
    problems = read_manifest(data, "thin.csv", {}, "USD").problems
    assert (problems.rows, problems.kept, problems.set_aside) == (7, 2, 5)
    assert [one.row for one in problems.items] == [4, 5, 6, 7, 8]
