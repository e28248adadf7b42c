"""What sort of file is this?  Told from its bytes: names lie."""

import re
from enum import StrEnum

from models.values.errors import Unreadable


class FileKind(StrEnum):
    """The two sorts that hold tables."""

    WORKBOOK = "workbook"
    TEXT = "text"


_ASK = "Save the table itself as CSV or XLSX and upload that."
# First bytes of files that are often given a table's name; each format's own specification states them.
_NOT_TABLES: tuple[tuple[bytes, str], ...] = (
    (b"%PDF", "a PDF document"),
    (b"\x89PNG", "a picture"),
    (b"\xff\xd8\xff", "a picture"),
    (b"GIF8", "a picture"),
    (b"RIFF", "a picture or sound"),
    (b"II*\x00", "a picture"),
    (b"MM\x00*", "a picture"),
    (b"BM", "a picture"),
    (b"7z\xbc\xaf", "an archive"),
    (b"Rar!", "an archive"),
    (b"\x7fELF", "a program"),
    (b"MZ\x90", "a program"),
    (b"{\\rtf", "a word-processor document"),
    (b"SQLite format 3", "a database"),
)
_WORKBOOKS = (b"PK\x03\x04", b"PK\x05\x06", b"\xd0\xcf\x11\xe0")  # a zip archive of parts, a compound file
_MARKUP = re.compile(rb"\s*<(!doctype|html|\?xml|table|head|body|svg)", re.IGNORECASE)
_TABLE = re.compile(rb"<(?:\w+:)?(?:table|workbook)\b", re.IGNORECASE)  # a spreadsheet program shows it as one
_PAGE = "a web page or XML with a table in it"
_RESAVE = "Open it in your spreadsheet program, save it as XLSX and upload that."


def kind_of(data: bytes, name: str) -> FileKind:
    """Which reader a file needs.

    Parameters
    ----------
    data : bytes
        The whole file, already taken out of any archive around it.
    name : str
        Its name, for messages only.

    Raises
    ------
    Unreadable
        If it is empty, or known to be no table.

    Examples
    --------
    >>> kind_of(b"title,sold_price", "a.csv").value
    'text'
    """
    if not data.strip(b"\x00 \t\r\n\xef\xbb\xbf\xff\xfe"):
        raise Unreadable(f"{name} is empty.")
    if data.startswith(_WORKBOOKS):
        return FileKind.WORKBOOK
    for start, what in _NOT_TABLES:
        if data.startswith(start) and (start != b"BM" or b"\x00" in data[:16]):
            raise Unreadable(f"{name} is {what}, not a table. {_ASK}")
    if _MARKUP.match(data[:200].removeprefix(b"\xef\xbb\xbf")):
        if _TABLE.search(data):
            raise Unreadable(f"{name} is {_PAGE}, whatever its name says. {_RESAVE}")
        raise Unreadable(f"{name} is a web page or XML, not a table. {_ASK}")
    return FileKind.TEXT
