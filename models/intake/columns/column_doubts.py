"""Of which columns are we not sure enough?  Those that would be wrong in silence are asked about."""

from collections.abc import Collection, Mapping, Sequence

from models.intake.columns.column_odds import Odds
from models.intake.columns.vocabulary import Vocabulary

SURE = 0.9  # a doubted column below it is asked about

Doubt = tuple[str, int | None, float]  # column, our guess, how sure


def doubts_of(
    odds: Odds,
    chosen: Mapping[str, int],
    sure: Mapping[str, float],
    settled: Collection[str],
    filled: Sequence[bool],
    vocabulary: Vocabulary,
) -> list[Doubt]:
    """The columns to ask about; one over blank cells can do no harm.

    Parameters
    ----------
    odds : Odds
        Of all pairs.
    chosen : mapping
        {column: position} of the best pairing.
    sure : mapping
        {column: confidence 0 to 1}, also of those that were given.
    settled : collection of str
        Columns of which the seller said which they are, or that there is none.
    filled : sequence of bool
        Whether each position holds anything.
    vocabulary : Vocabulary
        The kind of file.

    Examples
    --------
    >>> from models.intake.columns.column_odds import odds_of
    >>> from models.intake.columns.glances import glance
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> odds = odds_of(["Price"], [glance(["9.99"])], MANIFEST)
    >>> doubts_of(odds, {"tag_each": 0}, {"tag_each": 0.8}, (), [True], MANIFEST)
    [('description', None, 0.0), ('tag_each', 0, 0.8)]
    """
    found: list[Doubt] = []
    for column in dict.fromkeys((*vocabulary.required, *vocabulary.doubted)):
        place = chosen.get(column)
        if place is None:
            if column in vocabulary.required and column not in sure:
                found.append((column, None, 0.0))
            continue
        unsure = column not in settled and filled[place] and sure[column] < SURE
        if unsure and not _is_needless(column, odds, chosen, sure):
            found.append((column, place, sure[column]))
    return found


def mere_guesses(odds: Odds, chosen: Mapping[str, int], sure: Mapping[str, float]) -> set[str]:
    """Columns that only their content speaks for, and not clearly: they are not taken.

    Examples
    --------
    >>> from models.intake.columns.column_odds import odds_of
    >>> from models.intake.columns.glances import glance
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> odds = odds_of(["zzk"], [glance(["9.99"])], MANIFEST)
    >>> mere_guesses(odds, {"tag_each": 0}, {"tag_each": 0.6})
    {'tag_each'}
    """
    return {column for column, place in chosen.items() if odds.is_guess(column, place) and sure[column] < SURE}


def _is_needless(column: str, odds: Odds, chosen: Mapping[str, int], sure: Mapping[str, float]) -> bool:
    """A guess at a unit's tag where the line's is known and gives it, at a day of sale where no sale is known."""
    if not odds.is_guess(column, chosen[column]):
        return False
    if column == "sold_on":
        return sure.get("sold_price", 0.0) < SURE
    return column == "tag_each" and sure.get("tag_line", 0.0) >= SURE
