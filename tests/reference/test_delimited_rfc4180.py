"""RFC 4180, section 2: the seven rules of comma-separated values, after the RFC's own examples."""

import pytest

from models.intake.files.delimited import delimited_grid


@pytest.mark.parametrize(
    ("text", "rows"),
    [
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]),  # 1: lines end in CRLF
        ("aaa,bbb,ccc\r\nzzz,yyy,xxx", [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]),  # 2: the last may not
        ("field_name,other\r\naaa,bbb\r\n", [["field_name", "other"], ["aaa", "bbb"]]),  # 3: a header looks like a row
        ("aaa,b b,ccc\r\n", [["aaa", "b b", "ccc"]]),  # 4: spaces inside a field are kept
        ('"aaa","bbb","ccc"\r\nzzz,yyy,xxx\r\n', [["aaa", "bbb", "ccc"], ["zzz", "yyy", "xxx"]]),  # 5: quotes
        (
            '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
            [["aaa", "b\r\nbb", "ccc"], ["zzz", "yyy", "xxx"]],
        ),  # 6: breaks inside
        ('"aaa","b""bb","ccc"\r\n', [["aaa", 'b"bb', "ccc"]]),  # 7: a doubled quote is one
        ('"a,b",c\r\nd,"e,f"\r\n', [["a,b", "c"], ["d", "e,f"]]),  # 6: commas inside
    ],
)
def test_the_rules(text: str, rows: list[list[str]]) -> None:
    assert delimited_grid(text, "x.csv").rows == rows


def test_where_we_deviate() -> None:
    """The RFC counts a field's outer spaces as part of it; no column of ours means anything by them."""
    assert delimited_grid('a , "b, c"\r\nd,e\r\n', "x.csv").rows == [["a", "b, c"], ["d", "e"]]
