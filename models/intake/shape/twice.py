"""Does a header stand twice in the file?  Then a second list may stand beside the first, and only one is read."""

from collections.abc import Mapping, Sequence

from models.intake.cells.wordings import plain_words
from models.values.problems import Caution

_FEWEST = 2  # columns that come again, before they look like a second list


def twice_cautions(names: Sequence[str], places: Mapping[str, int]) -> tuple[Caution, ...]:
    """A caution where several columns that were read come again beside them.

    Parameters
    ----------
    names : sequence of str
        All columns' names, numbered where they come again: "Qty (2)"; "" for empty ones.
    places : mapping
        {canonical: position} of those that were read.

    Examples
    --------
    >>> names = ["Item", "Qty", "Item (2)", "Qty (2)"]
    >>> twice_cautions(names, {"description": 0, "quantity": 1})[0].what
    "A second list seems to stand beside the one that was read: 'Item (2)', 'Qty (2)' were not read."
    """
    read = {_plain(names[place].removesuffix(" (2)")) for place in places.values()}
    again = [
        name
        for place, name in enumerate(names)
        if place not in places.values() and _plain(_without_number(name)) in read and name
    ]
    if len(again) < _FEWEST:
        return ()
    listed = ", ".join(f"'{name}'" for name in again)
    what = f"A second list seems to stand beside the one that was read: {listed} were not read."
    return (Caution(what, "Put both lists below each other and upload that."),)


def _plain(name: str) -> str:
    return plain_words(name) or name.casefold()  # in another script no word is plain


def _without_number(name: str) -> str:
    head, opened, number = name.rpartition(" (")
    return head if opened and number.rstrip(")").isdecimal() else name
