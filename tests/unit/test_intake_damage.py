"""Files that arrive damaged: every cell that was mended is named, and nothing else changes.

Outside checks: RFC 4180 (quoting), Unicode Standard Annex 9 (marks of direction) and core specification 23.7.
"""

import pytest
from intake_files import delimited, xlsx

from models.intake.files.readers import read_grids
from models.intake.limits import Limits, held_to
from models.intake.manifest import ReadManifest, read_manifest

TABLE = "Item,Qty,Retail,Brand\nCafé mug,2,5.00,Orrin\nJug,12,4.00,Vell\nPot,3,6.00,Quib\n"


def read(data: bytes) -> ReadManifest:
    return read_manifest(data, "load.csv", {}, "USD")


def told(done: ReadManifest) -> list[tuple[int, str, str, str]]:
    return [(item.row, item.column, item.reason, item.done) for item in done.problems.items]


def test_nul_bytes_inside_cells_are_dropped_and_named() -> None:
    done = read(TABLE.replace(",12,", ",1\x002,").replace("Pot", "P\x00ot").encode())
    assert done.lines.quantity.tolist() == [2, 12, 3]
    assert done.lines.description.tolist() == ["Café mug", "Jug", "Pot"]
    assert told(done) == [
        (3, "quantity", "control characters in the cell", "dropped them"),
        (4, "description", "control characters in the cell", "dropped them"),
    ]


def test_nul_bytes_behind_the_last_line_are_no_row() -> None:
    done = read(TABLE.encode() + b"\x00" * 4000)
    assert (done.problems.rows, told(done)) == (3, [])


def test_a_truncated_last_line_is_kept_and_named() -> None:
    done = read(TABLE.encode()[:-12])
    assert done.lines.description.tolist() == ["Café mug", "Jug", "Pot"]
    assert (4, "", "the file ends in the middle of this row", "kept as written") in told(done)


def test_a_whole_last_line_without_a_line_end_is_not_named() -> None:
    assert told(read(TABLE.rstrip("\n").encode())) == []


def test_a_stray_byte_is_guessed_and_named() -> None:
    done = read(TABLE.encode().replace(b"Jug", b"Jug \xfc") + "Crème brûlée dish,1,3.00,Orrin\n".encode())
    assert done.lines.description.tolist() == ["Café mug", "Jug ü", "Pot", "Crème brûlée dish"]
    assert told(done) == [(3, "description", "letters in another encoding than the file's", "guessed")]


def test_a_windows_file_is_no_damage() -> None:
    done = read(TABLE.encode("cp1252"))
    assert (done.lines.description[0], told(done)) == ("Café mug", [])


@pytest.mark.parametrize("build", [delimited, xlsx])
def test_a_cell_past_the_limit_is_cut_and_named(build) -> None:
    rows = [["Item", "Qty"], ["x" * 150 + " mug", "2"], ["Jug", "1"]]
    with held_to(Limits(max_cell_characters=100)):
        done = read(build(rows))
    assert done.lines.description.tolist() == ["x" * 100, "Jug"]
    assert told(done) == [(2, "description", "longer than 100 characters", "cut off there")]


def test_a_monstrous_cell_is_no_crash() -> None:
    done = read(delimited([["Item", "Qty"], ["m" * 400_000, "2"], ["Jug", "1"]]))
    assert len(done.lines.description[0]) == 32_767
    assert done.lines.quantity.tolist() == [2, 1]


def test_cells_of_many_lines_entities_emoji_and_right_to_left_text() -> None:
    rows = [
        ["Item", "Qty"], ["Cups &amp;\r\nsaucers", "2"], ["Toy 👨‍👩‍👧 set", "1"], ["\u200fכוס כחולה\u200f", "\u200e3"],
        ["\u202bطقم أكواب\u202c", "4"],
    ]  # fmt: skip
    for data in (delimited(rows), delimited(rows, ";", "utf-16"), delimited(rows, "\t", "utf-16-le"), xlsx(rows)):
        done = read(data)
        assert done.lines.description.tolist() == ["Cups & saucers", "Toy 👨‍👩‍👧 set", "כוס כחולה", "طقم أكواب"]
        assert done.lines.quantity.tolist() == [2, 1, 3, 4]
        assert done.lines.row.tolist() == [2, 3, 4, 5]


@pytest.mark.parametrize("words", ["чашка синяя", "青いマグカップ", "كوب أزرق"])
@pytest.mark.parametrize("encoding", ["utf-16-le", "utf-16-be"])
def test_unmarked_utf16_whose_words_are_not_latin(words: str, encoding: str) -> None:
    rows = [["Item", "Qty", "Retail"], *[[words, str(row), "5.00"] for row in range(20)]]
    assert read_grids(delimited(rows, encoding=encoding), "x.csv")[0].rows == rows
