"""How were these letters written down?  Byte order marks first, then UTF-16 by its zero bytes, UTF-8, Windows-1252."""

import codecs
import re

from models.intake.files.damage import GUESSED
from models.values.errors import Unreadable

_MARKS: tuple[tuple[bytes, str], ...] = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF32_LE, "utf-32-le"),
    (codecs.BOM_UTF32_BE, "utf-32-be"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_CONTROLS = re.compile("[\x01-\x08\x0e-\x1f\x7f]")
_SHEETS = (".xlsx", ".xls", ".xlsm", ".ods")
_ZERO_SHARE, _OTHER_ZEROS = 0.15, 0.1  # signs and digits alone, where the words are not Latin ones
_MOST_CONTROLS_SHARE = 0.005  # a table has next to none; a program, a picture or noise has more


def text_of(data: bytes, name: str) -> str:
    """The file's text without byte order mark; control characters stay for its cells to name.

    Raises
    ------
    Unreadable
        If it is not text in any of these encodings.

    Examples
    --------
    >>> text_of("café".encode("cp1252"), "a.csv"), text_of("café".encode("utf-16"), "a.csv")
    ('café', 'café')
    """
    text = _decoded(data).rstrip("\x00")  # what a crash leaves behind the last line
    controls = len(_CONTROLS.findall(text))
    if controls > _MOST_CONTROLS_SHARE * len(text):
        raise Unreadable(_not_text(name))
    return text


def _not_text(name: str) -> str:
    if name.lower().endswith(_SHEETS):
        return (
            f"{name} cannot be opened as a spreadsheet: it is damaged, or another kind of file under that ending. Open"
            " it in your spreadsheet program, save it anew and upload that."
        )
    return f"{name} is not text: it cannot be read as a table. Save it as CSV or XLSX and upload that."


def _decoded(data: bytes) -> str:
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            return data[len(mark) :].decode(encoding, errors="replace")
    utf16 = _unmarked_utf16(data[:4096])
    if utf16:
        return data.decode(utf16, errors="replace")
    return _eight_bit(data)


def _unmarked_utf16(start: bytes) -> str | None:
    """Latin letters, digits and the signs between cells have a zero in every second byte of UTF-16."""
    half = len(start) // 2
    even, odd = start[0::2].count(0), start[1::2].count(0)
    if half and odd > _ZERO_SHARE * half and even < _OTHER_ZEROS * odd:
        return "utf-16-le"
    if half and even > _ZERO_SHARE * half and odd < _OTHER_ZEROS * even:
        return "utf-16-be"
    return None


def _eight_bit(data: bytes) -> str:
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        mended = data.decode("utf-8", errors="windows_letters")
    letters = sum(1 for character in mended if ord(character) > 127 and character != GUESSED)
    bad = len(data.decode("utf-8", errors="replace").split("\ufffd")) - 1
    # One stray byte in a UTF-8 file must not turn all its accents into gibberish.
    return mended if letters > 2 * bad else data.decode("cp1252", errors="replace")


def _windows_letters(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeDecodeError):
        raise error
    letters = error.object[error.start : error.end].decode("cp1252", errors="replace")
    return "".join(GUESSED + letter for letter in letters), error.end


codecs.register_error("windows_letters", _windows_letters)
