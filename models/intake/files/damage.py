"""Which cells reached us damaged?  Control characters, letters that had to be guessed, cells past the length limit.

What can be mended is mended, and every such cell is named: a number with a hole in it may read well and be wrong.
"""

import re

from models.intake.grid import unwrapped

GUESSED = "\ufdd0"  # before a letter whose byte fitted no encoding; Unicode keeps this code free for such uses
_CONTROLS = re.compile("[\x00-\x08\x0e-\x1f\x7f]")
_LOST_LETTER = "\ufffd"
_ARMOUR = "='"  # may stand before a cell's own text; a blank cell is in it too


# White space as `str.strip` sees it, but for line ends; inside character classes.
_SPACES = " \t\x0b\x0c\x1c-\x1f\x85\xa0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000"


def spot_of(delimiter: str) -> re.Pattern[str]:
    """Where delimited lines may hold a cell that is not yet as it should be: padded, armoured, damaged.

    Parameters
    ----------
    delimiter : str
        The sign between cells.

    Examples
    --------
    >>> bool(spot_of(",").search("\\na,b c,d\\n")), bool(spot_of(",").search("\\na, b\\n"))
    (False, True)
    """
    edge = f'["\n\r{re.escape(delimiter)}]'
    spaces = _SPACES.replace(delimiter, "")
    return re.compile(
        f"{edge}[{spaces}='\ufeff]|[{spaces}]{edge}|[\x00-\x08\x0e-\x1f\x7f\xad\u200b\u200e\u200f\u202a-\u202e"
        f"\u2060\u2066-\u2069\ufeff{GUESSED}{_LOST_LETTER}]"
    )


class CellCleaner(dict[str, str]):
    """Each distinct text is cleaned and kept once, since long files repeat themselves; `damage` says what was wrong.

    Examples
    --------
    >>> cleaner = CellCleaner(longest=10)
    >>> cleaner[" Mug "], cleaner["1\\x002"], cleaner.damage
    ('Mug', '12', {'1\\x002': ('control characters in the cell', 'dropped them')})
    """

    def __init__(self, longest: int) -> None:
        self.damage: dict[str, tuple[str, str]] = {}
        self._longest = longest

    def __missing__(self, cell: str) -> str:
        if self._is_plain(cell):
            self[cell] = cell
            return cell
        clean = cell
        if not cell.isprintable():
            clean = self._without_controls(cell)
        elif _LOST_LETTER in cell:
            self.damage[cell] = ("letters that cannot be read", "kept as written")
        clean = unwrapped(clean)
        if len(clean) > self._longest:
            clean = clean[: self._longest]
            self.damage[cell] = (f"longer than {self._longest:,} characters", "cut off there")
        self[cell] = clean
        return clean

    def _is_plain(self, cell: str) -> bool:
        """Nothing about it needs a second look; most cells are so, and these lines run once for each."""
        plain = cell.isascii() and cell.isprintable() and len(cell) <= self._longest
        return plain and cell[:1] not in _ARMOUR and cell == cell.strip()

    def _without_controls(self, cell: str) -> str:
        if GUESSED in cell:
            self.damage[cell] = ("letters in another encoding than the file's", "guessed")
        elif _LOST_LETTER in cell:
            self.damage[cell] = ("letters that cannot be read", "kept as written")
        clean = _CONTROLS.sub("", cell.replace(GUESSED, ""))
        if len(clean) + cell.count(GUESSED) < len(cell):
            self.damage[cell] = ("control characters in the cell", "dropped them")
        return clean
