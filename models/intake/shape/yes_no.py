"""Do columns ask of each row whether it works, is sealed, was tested?  Their answers are a condition, or doubt one."""

import re
from collections.abc import Mapping, Sequence

from models.intake.cells.conditions import condition_of, says_condition_alone
from models.intake.cells.word_lists import word_list
from models.intake.grid import Cell, plain_text
from models.intake.many import columns_of, distinct
from models.values.conditions import CONDITIONS, Condition
from models.values.problems import Caution

_YES = frozenset(word_list("yes; y; ja; j; oui; o; si; sí; s; true; tak"))
_NO = frozenset(word_list("no; n; nein; non; not; false; nee; nie"))
_ASIDES = re.compile(r"[?*]|\(?\b(?:y(?:es)? ?/ ?n(?:o)?)\b\)?|^\s*(?:is|was|item|unit)\b", re.IGNORECASE)
_MOST_NAMED = 8


def conditions_answered(
    names: Mapping[int, str],
    rows: Sequence[Sequence[Cell]],
    numbers: Sequence[int],
    given: Sequence[Cell],
) -> tuple[list[Cell], tuple[Caution, ...]]:
    """A wording for each row where no column tells the condition, and what is to be said; [] where none was found.

    A good state is taken only where a row answers all that is asked.

    Parameters
    ----------
    names : mapping
        {position: header} of the columns that nobody has read.
    rows : sequence of sequences of Cell
        The data rows.
    numbers : sequence of int
        Their row numbers.
    given : sequence of Cell
        The condition column; empty where there is none.

    Examples
    --------
    >>> rows = [["Fan", "Y", "N"], ["Pot", "Y", "Y"], ["Jug", "N", ""], ["Mug", "Y", ""]]
    >>> cells, cautions = conditions_answered({1: "Tested", 2: "Working?"}, rows, [2, 3, 4, 5], [])
    >>> cells
    ['Tested, not Working', 'Tested, Working', 'not Tested', '']
    >>> cautions[0].what
    "No column tells the condition: it was taken from the answers under 'Tested', 'Working?'."
    """
    places = {place: asked for place, name in names.items() if (asked := _asked(name))}
    columns = zip(places.values(), columns_of(rows, list(places)), strict=True) if places else ()
    answers = [told for asked, column in columns if (told := _told(asked, column))]
    if not answers:
        return [], ()
    headers = ", ".join(f"'{names[place]}'" for place in places)
    cells: list[Cell] = [_wording(row) for row in zip(*answers, strict=True)]
    if not any(given):
        what = f"No column tells the condition: it was taken from the answers under {headers}."
        return cells, (Caution(what, "Check that a yes there means what the header says."),)
    worse = [place for place, cell in enumerate(cells) if _is_worse(str(cell), plain_text(given[place]))]
    if not worse:
        return [], ()
    listed = ", ".join(str(numbers[place]) for place in worse[:_MOST_NAMED]) + (", ..." if worse[_MOST_NAMED:] else "")
    what = f"The answers under {headers} tell of worse goods than the condition in {len(worse):,} rows ({listed})."
    return [], (Caution(what, "The condition was kept; look at these rows."),)


def _asked(name: str) -> str:
    """What a header asks of the goods, "" where that is no state."""
    asked = " ".join(_ASIDES.sub(" ", name).split())
    works = " " in asked and condition_of(f"not {asked}") is Condition.SALVAGE  # "Powers on"
    return asked if works or says_condition_alone(asked) else ""


def _told(asked: str, column: Sequence[Cell]) -> list[str]:
    """What each row answers, in the header's words; [] where the column holds more than answers."""
    meant: dict[Cell, str] = {}
    for cell in distinct(column):
        answer = plain_text(cell).casefold()
        if answer not in _YES and answer not in _NO and answer:
            return []
        meant[cell] = asked if answer in _YES else f"not {asked}" if answer else ""
    return [meant[cell] for cell in column] if any(meant.values()) else []


def _wording(answers: Sequence[str]) -> str:
    """All answers of a row; a state that needs what was not answered is not taken."""
    wording = ", ".join(filter(None, answers))
    meant = condition_of(wording)
    bad = meant in (Condition.UNTESTED, Condition.SALVAGE)
    return wording if meant is not None and (bad or all(answers)) else ""


def _is_worse(answered: str, given: str) -> bool:
    meant, had = condition_of(answered), condition_of(given)
    return meant is not None and had is not None and CONDITIONS.index(meant) > CONDITIONS.index(had)
