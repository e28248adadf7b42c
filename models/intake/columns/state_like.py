"""Which columns say in what state orders or listings are, whatever their headers?  Told by their cells.

Common practice, no source.
"""

from collections.abc import Collection, Sequence

from models.intake.cells.state_words import is_answer_word, is_state, may_be_of_sale
from models.intake.cells.wordings import plain_words
from models.intake.columns.glances import Glance
from models.intake.columns.header_words import about_people

_MOST = 0.8  # of the cells that say anything
_HALF = 0.5


def looks_like_states(header: str, seen: Glance) -> bool:
    """True for a column of states; of answers where its header is a state itself: "Paid?".

    Parameters
    ----------
    header : str
        As the file has it.
    seen : Glance
        What its cells look like.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> looks_like_states("Zork", glance(["Sold", "Unsold"])), looks_like_states("Gift", glance(["Yes", "No"]))
    (True, False)
    >>> looks_like_states("Paid?", glance(["Yes", "No"])), looks_like_states("Label", glance(["Voided"]))
    (True, False)
    """
    words = plain_words(header)
    if seen.state < _MOST or seen.condition > _HALF or about_people(words) or not may_be_of_sale(words):
        return False
    filled = [text for text in seen.texts if text.strip()]
    said = sum(is_state(text) or (is_answer_word(text) and is_state(words)) for text in filled)
    return said >= _MOST * len(filled)


def state_places(names: Sequence[str], seen: Sequence[Glance], taken: Collection[int]) -> tuple[int, ...]:
    """Positions of columns of states among those that were taken for nothing.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> looks = [glance(["Paid", "Voided"]), glance(["Sold", "Sold"]), glance(["Mug", "Jug"])]
    >>> state_places(["Payment", "Outcome", "Item"], looks, {1, 2})
    (0,)
    """
    return tuple(
        place
        for place, (name, look) in enumerate(zip(names, seen, strict=True))
        if name and place not in taken and look.filled and looks_like_states(name, look)
    )
