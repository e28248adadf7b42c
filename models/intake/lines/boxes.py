"""Which lines are boxes of one thing?  "Sofa, box 1 of 3" is not a sofa, and is counted as a unit all the same.

Common practice, no source.
"""

import re
from collections.abc import Iterable, Sequence

from models.intake.many import holding
from models.values.arrays import IntArray
from models.values.problems import Caution

_BOX = r"(?:box|carton|ctn|karton|colis)"
_ONE_OF = r"(?P<number>\d{1,2})\s*(?:of|/|von)\s*(?P<all>\d{1,2})(?![\d/\"']|\s*in(?:ch)?\b)"
_BOX_OF = re.compile(rf"\b{_BOX}\s*(?:#|no\.?|nr\.?)?\s*{_ONE_OF}", re.IGNORECASE)
_MOST_BOXES = 12
_STEMS = ("box", "ctn", "arton", "colis")  # few, since each costs a search
_ONE_OF_ALL = re.compile(r"\d\s*(?:[oO][fF]|/|[vV][oO][nN])\s*\d")
_MOST_NAMED = 5


def box_cautions(
    descriptions: Sequence[str], rows: IntArray, pieces: Iterable[tuple[list[str], str]]
) -> tuple[Caution, ...]:
    """One caution for all lines that are one box of several.

    Parameters
    ----------
    descriptions : sequence of str
        One a line.
    rows : ndarray of shape (n_lines,)
        Their row numbers.
    pieces : iterable of (list of str, str)
        The descriptions from `in_small_letters`.

    Examples
    --------
    >>> import numpy as np
    >>> from models.intake.many import in_small_letters
    >>> texts = ["Mug", "Sofa box 1 of 2", "Sofa box 2 of 2"]
    >>> box_cautions(texts, np.array([2, 3, 4]), in_small_letters(texts))[0].what
    "2 lines are one box of several: 'Sofa box 1 of 2' (row 3), 'Sofa box 2 of 2' (row 4). Each counts as a unit."
    """
    near = holding(pieces, _STEMS)
    boxed = {text for text in near if _ONE_OF_ALL.search(text) and says_box_of_several(text)}
    found = [index for index, text in enumerate(descriptions) if text in boxed] if boxed else []
    if not found:
        return ()
    named = ", ".join(f"'{descriptions[index][:60]}' (row {rows[index]})" for index in found[:_MOST_NAMED])
    more = ", ..." if len(found) > _MOST_NAMED else ""
    lines, each = ("1 line is", "It counts") if len(found) == 1 else (f"{len(found):,} lines are", "Each counts")
    what = f"{lines} one box of several: {named}{more}. {each} as a unit."
    check = "Where the boxes make one thing, keep one row of it in the file; where a box is missing, keep none."
    return (Caution(what, check),)


def says_box_of_several(text: str) -> bool:
    """True for words that tell which box of how many it is.

    Examples
    --------
    >>> says_box_of_several("Desk (box 1/2)"), says_box_of_several("Box of 12 pens"), says_box_of_several("Box 3 of 2")
    (True, False, False)
    """
    found = _BOX_OF.search(text)
    return found is not None and 1 < int(found["all"]) <= _MOST_BOXES and 0 < int(found["number"]) <= int(found["all"])
