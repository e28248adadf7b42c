"""The Unicode Standard, section 5.8 (newline guidelines), and its annex 14: VT, FF, NEL, LS and PS break lines of text.

RFC 4180, section 2: records of a CSV file end in CRLF; files in the wild add bare LF and bare CR, nothing else.
Python's str.splitlines cuts at VT, FF, FS, GS, RS, NEL, LS and PS too; none of them may split a row of a file.
"""

import pytest
from unit.intake_files import delimited, ods, xlsx

from models.intake.files.delimited import delimited_grid
from models.intake.history import read_history
from models.intake.manifest import read_manifest

BREAKS = {
    "VT": "\x0b", "FF": "\x0c", "FS": "\x1c", "GS": "\x1d", "RS": "\x1e", "NEL": "\x85", "LS": "\u2028", "PS": "\u2029",
}  # fmt: skip
OF_UNICODE = ("VT", "FF", "NEL", "LS", "PS")
ROWS = 3


@pytest.mark.parametrize("name", BREAKS)
def test_python_would_split_there(name: str) -> None:
    """Else the tests below would show nothing."""
    assert len(f"a{BREAKS[name]}b".splitlines()) == 2


@pytest.mark.parametrize("name", BREAKS)
@pytest.mark.parametrize("end", ["\r\n", "\n", "\r"])
def test_no_row_of_a_text_is_split(name: str, end: str) -> None:
    text = end.join(["description,sku", *[f"mug{BREAKS[name]}blue,K{row}" for row in range(ROWS)]]) + end
    rows = delimited_grid(text, "x.csv").rows
    assert [len(row) for row in rows] == [2] * (ROWS + 1)
    assert [row[1] for row in rows] == ["sku", "K0", "K1", "K2"]


@pytest.mark.parametrize("name", OF_UNICODE)
@pytest.mark.parametrize("encoding", ["utf-8", "utf-16"])
@pytest.mark.parametrize("quoted", [False, True])
def test_no_line_of_a_manifest_is_split(name: str, encoding: str, quoted: bool) -> None:
    cell = f"mug{BREAKS[name]}blue"
    cell = f'"{cell}"' if quoted else cell
    data = ("description,quantity\n" + f"{cell},4\n" * ROWS).encode(encoding)
    lines = read_manifest(data, "x.csv", {}, "USD").lines
    assert lines.quantity.tolist() == [4] * ROWS
    assert lines.row.tolist() == [2, 3, 4]
    assert {"".join(words.replace(BREAKS[name], " ").split()) for words in lines.description} == {"mugblue"}


@pytest.mark.parametrize("name", ["NEL", "LS", "PS"])
def test_nor_a_row_of_a_workbook(name: str) -> None:
    rows = [["description", "quantity"], *[[f"mug{BREAKS[name]}blue", 4]] * ROWS]
    for data in (xlsx(rows), ods(rows)):
        assert read_manifest(data, "x", {}, "USD").lines.quantity.tolist() == [4] * ROWS


@pytest.mark.parametrize("name", OF_UNICODE)
def test_nor_a_sale(name: str) -> None:
    rows = [
        ["title", "sold_price", "place"],
        *[[f"mug{BREAKS[name]}no. {row}", "8.00", "shelf"] for row in range(ROWS)],
    ]
    sales = read_history(delimited(rows), "x.csv", {}, "USD").sales
    assert sales.sold_price.tolist() == [800.0] * ROWS
    assert sales.place.tolist() == ["shelf"] * ROWS


def test_breaks_of_the_rfc_inside_quotes_belong_to_the_cell() -> None:
    for inside in ("\r\n", "\n", "\r"):
        rows = delimited_grid(f'a,b\r\n"mug{inside}blue",K1\r\n', "x.csv").rows
        assert rows[1] == [f"mug{inside}blue", "K1"]
