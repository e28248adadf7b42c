"""RFC 4180, section 2, held to whole files: any text of its ABNF grammar, read back; and what files in the wild do.

ABNF: file = [header CRLF] record *(CRLF record) [CRLF]; TEXTDATA = %x20-21 / %x23-2B / %x2D-7E;
escaped = DQUOTE *(TEXTDATA / COMMA / CR / LF / 2DQUOTE) DQUOTE.
"""

from hypothesis import given, settings
from hypothesis import strategies as st

from models.intake.files.delimited import delimited_grid

TEXTDATA = "".join(map(chr, [*range(0x20, 0x22), *range(0x23, 0x2C), *range(0x2D, 0x7F)]))
PLAIN = st.text(TEXTDATA, min_size=1, max_size=8)
ESCAPED = st.text(TEXTDATA + ',"\r\n', min_size=1, max_size=8)
FIELD = (st.tuples(PLAIN, st.booleans()) | st.tuples(ESCAPED, st.just(True))).filter(
    lambda field: not field[0].strip().startswith(("'", "="))  # marks by which spreadsheets say that a cell is text
)
WIDTH = 3


def field(cell: str, quoted: bool) -> str:
    """A field as the grammar writes it."""
    return '"' + cell.replace('"', '""') + '"' if quoted else cell


@settings(max_examples=200)
@given(
    st.lists(st.lists(FIELD, min_size=WIDTH, max_size=WIDTH), min_size=1, max_size=5),
    st.booleans(),
)
def test_any_file_of_the_grammar(records: list[list[tuple[str, bool]]], last_break: bool) -> None:
    """`sep=` is kept away: a spreadsheet obeys such a first line; and outer blanks are no part of a cell to us.

    Fields that begin with white space are told apart by quotes alone, so cells are compared without outer blanks.
    """
    header = "first,second,third"
    text = "\r\n".join([header, *[",".join(field(*cell) for cell in record) for record in records]])
    rows = delimited_grid(text + "\r\n" * last_break, "x.csv").rows
    wanted = [[cell.strip() for cell, _ in record] for record in records]
    assert [[str(cell).strip() for cell in row] for row in rows[1:]] == wanted


@given(st.sampled_from(",;\t|"), st.sampled_from(["\r\n", "\n", "\r"]), st.integers(2, 6))
def test_the_same_table_in_other_forms(delimiter: str, end: str, width: int) -> None:
    rows = [[f"h{place}" for place in range(width)], [f"a{delimiter}{place}" for place in range(width)]]
    text = end.join([delimiter.join(rows[0]), delimiter.join(f'"{cell}"' for cell in rows[1])]) + end
    assert delimited_grid(text, "x.csv").rows == rows
