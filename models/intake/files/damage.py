"""Which cells reached us damaged?  Control characters, letters that had to be guessed, cells past the length limit.

What can be mended is mended, and every such cell is named: a number with a hole in it may read well and be wrong.
"""

import re

from models.intake.grid import unwrapped

GUESSED = "\ufdd0"  # before a letter whose byte fitted no encoding; Unicode keeps this code free for such uses
_CONTROLS = re.compile("[\x00-\x08\x0e-\x1f\x7f]")
_LOST_LETTER = "\ufffd"
_ARMOUR = ("=", "'")  # may stand before a cell's own text


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

    def leaves(self, cells: list[str]) -> bool:
        """Whether all of many cells are clean as they stand, as in most files; asked of all together for speed.

        Examples
        --------
        >>> CellCleaner(longest=10).leaves(["Mug", "", "12"]), CellCleaner(longest=10).leaves(["Mug", "'-5"])
        (True, False)
        """
        together = "".join(cells)
        if not together.isprintable() or _LOST_LETTER in together or list(map(str.strip, cells)) != cells:
            return False
        if any(sign in together for sign in _ARMOUR) and any(cell.startswith(_ARMOUR) for cell in cells):
            return False
        return len(together) <= self._longest or max(map(len, cells)) <= self._longest

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
        return plain and not cell.startswith(_ARMOUR) and cell == cell.strip()

    def _without_controls(self, cell: str) -> str:
        if GUESSED in cell:
            self.damage[cell] = ("letters in another encoding than the file's", "guessed")
        elif _LOST_LETTER in cell:
            self.damage[cell] = ("letters that cannot be read", "kept as written")
        clean = _CONTROLS.sub("", cell.replace(GUESSED, ""))
        if len(clean) + cell.count(GUESSED) < len(cell):
            self.damage[cell] = ("control characters in the cell", "dropped them")
        return clean
