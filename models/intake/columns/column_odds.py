"""How likely is each position each column?  What the header says, what the cells say, and how columns fit together."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from models.intake.cells.money_words import may_say_line, only_says_total
from models.intake.cells.price_words import PriceSort, price_sort, says_line
from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.columns.cell_odds import by_cells
from models.intake.columns.evidence import NEVER, content_fit, says_answers_only
from models.intake.columns.glances import Glance
from models.intake.columns.header_words import EXACT, header_odds, header_scores, may_be_guessed
from models.intake.columns.leanings import ELSEWHERE, leaning
from models.intake.columns.vocabulary import Vocabulary
from models.intake.grid import Cell, written_cell

_GUESS = -1.0  # log-odds of a column that its header does not name
_LEAST_FIT = -4.0  # of a canonical name: whoever writes it means it, whatever stands below
_EMPTY = -1.0  # a header over nothing gives way to one over something
_LEFT_FIRST = 1e-6
_LINE_TAG, _LINE_PRICE = 2.5, 0.3  # of "UVP netto gesamt", of "VK gesamt": a tag of the line, or some price of it
_FITS_TOGETHER = 3.0  # quantity x tag of one unit = tag of the line, row by row
_ENOUGH_ROWS, _ENOUGH_SHARE, _ROUNDING = 2, 0.8, 0.02
_A_SUM = 4.0  # a count that is the sum of two others, row by row
_FEWEST_SUMS = 3  # rows
_HALF = 0.5
_TOTALS = frozenset(word_list("total; totals; sum; all; gesamt; summe; totale; totaal; suma; razem"))
_EACH, _LINE, _UNITS = "tag_each", "tag_line", "quantity"

Pair = tuple[str, int]


@dataclass(frozen=True)
class Odds:
    """`gains` {(column, position): log-odds}; `guesses` those that no header names; `rivalled` as the vocabulary."""

    gains: Mapping[Pair, float]
    guesses: frozenset[Pair]
    headers: tuple[str, ...]
    rivalled: tuple[str, ...]

    def without(self, columns: Collection[str], places: Collection[int]) -> "Odds":
        """What is left when these are spoken for."""
        kept = {pair: gain for pair, gain in self.gains.items() if pair[0] not in columns and pair[1] not in places}
        return replace(self, gains=kept)

    def is_guess(self, column: str, place: int) -> bool:
        """True where only the content speaks for it."""
        return (column, place) in self.guesses

    def rivals_of(self, chosen: Mapping[str, int]) -> dict[Pair, float]:
        """The gains that make a choice unsure; of two headers that both name a harmless column either will do."""

        def is_rival(column: str, place: int) -> bool:
            if column not in chosen or column in self.rivalled or (column, place) in self.guesses:
                return True
            return self.headers[place] == self.headers[chosen[column]]

        return {pair: gain for pair, gain in self.gains.items() if is_rival(*pair)}


def odds_of(headers: Sequence[Cell], seen: Sequence[Glance], vocabulary: Vocabulary) -> Odds:
    """The odds of every pair that anything speaks for.

    Parameters
    ----------
    headers : sequence of Cell
        The header row.
    seen : sequence of Glance
        What each column looks like.
    vocabulary : Vocabulary
        The kind of file.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> from models.intake.columns.vocabulary import MANIFEST
    >>> odds = odds_of(["State", "State"], [glance(["new", "used"]), glance(["TX", "OH"])], MANIFEST)
    >>> {pair for pair, gain in odds.gains.items() if gain > 0}
    {('condition', 0)}
    """
    words = tuple(map(plain_words, headers))
    gains: dict[Pair, float] = {}
    guesses: set[Pair] = set()
    for place, (header, look) in enumerate(zip(words, seen, strict=True)):
        scores = _no_counts(headers[place], header_scores(header, vocabulary))
        for column, score in scores.items():
            named = header_odds(column, header, score, vocabulary)
            fit = content_fit(column, look) if look.filled else _EMPTY
            named += leaning(column, header)
            meant = score > EXACT and not says_answers_only(column, look)
            gains[column, place] = named + (max(fit, _LEAST_FIT) if meant else fit) - _LEFT_FIRST * place
        if not scores and look.filled and may_be_guessed(header):
            for column in vocabulary.guessed:
                lean = leaning(column, header) - _LEFT_FIRST * place
                gains[column, place] = _GUESS + content_fit(column, look) + lean
                guesses.add((column, place))
        for column, odds in by_cells(header, look, scores).items() if vocabulary.kind == "manifest" else ():
            gains[column, place] = odds - _LEFT_FIRST * place
            guesses.add((column, place))
        if _LINE in vocabulary.wordings and _LINE not in scores and look.filled:
            gains[_LINE, place] = _line_odds(headers[place], look) + content_fit(_LINE, look) - _LEFT_FIRST * place
    if _LINE in vocabulary.wordings:
        gains = _summed(gains, words, seen)
    gains = _fitting_together(_once(gains, seen), seen)
    return Odds(gains, frozenset(guesses), words, vocabulary.rivalled)


def _no_counts(header: Cell, scores: dict[str, int]) -> dict[str, int]:
    """A price of a piece counts no pieces: "Wert/Stk" holds a word for units, and is none."""
    if scores.get(_UNITS, EXACT) < EXACT and price_sort(written_cell(header)):
        return {column: score for column, score in scores.items() if column != _UNITS}
    return scores


def _line_odds(header: Cell, look: Glance) -> float:
    """Log-odds of a header that puts a word of prices and one of totals together, in whatever order."""
    words = written_cell(header)
    if may_say_line(words):
        return _LINE_PRICE
    if not says_line(words):
        return NEVER
    if only_says_total(words):
        return _LINE_PRICE if look.cents > _HALF else NEVER
    sort = price_sort(words)
    if sort in (PriceSort.TAG, PriceSort.ORIGINAL):
        return _LINE_TAG
    return _LINE_PRICE if sort is PriceSort.VAGUE else NEVER


def _once(gains: Mapping[Pair, float], seen: Sequence[Glance]) -> dict[Pair, float]:
    """Without a column's candidates that repeat a better one cell by cell: which of them is taken does not matter."""
    kept: dict[Pair, float] = {}
    held: set[tuple[str, tuple[object, ...]]] = set()
    for (column, place), gain in sorted(gains.items(), key=lambda item: -item[1]):
        content = (column, seen[place].content)
        if content not in held:
            kept[column, place] = gain
        if seen[place].filled:
            held.add(content)
    return kept


def _summed(gains: dict[Pair, float], headers: Sequence[str], seen: Sequence[Glance]) -> dict[Pair, float]:
    """A total that is the sum of two counts counts the whole; not where units may be only ordered, or missing."""
    here = [place for place, words in enumerate(headers) if not ELSEWHERE.intersection(words.split())]
    totals = [place for place in here if _TOTALS.intersection(headers[place].split())]
    parts = [place for place in here if gains.get((_UNITS, place), NEVER) > NEVER / 2]
    for first, second in combinations(parts, 2):
        whole = next((place for place in totals if _adds_up(seen, first, second, place)), None)
        if whole is not None:
            gains[_UNITS, whole] = max(gains.get((_UNITS, whole), 0.0), 0.0) + _A_SUM
            gains |= {(_UNITS, part): gains[_UNITS, part] - _A_SUM for part in (first, second)}
            return gains
    return gains


def _adds_up(seen: Sequence[Glance], first: int, second: int, whole: int) -> bool:
    if whole in (first, second) or seen[whole].units <= _HALF or any(seen[at].rising for at in (first, second, whole)):
        return False
    rows = list(zip(seen[first].numbers, seen[second].numbers, seen[whole].numbers, strict=False))
    told = [(one or 0, two or 0, all_) for one, two, all_ in rows if all_]
    mixed = any(one for one, _, _ in told) and any(two for _, two, _ in told)
    return mixed and len(told) >= _FEWEST_SUMS and all(one + two == all_ for one, two, all_ in told)


def _fitting_together(gains: dict[Pair, float], seen: Sequence[Glance]) -> dict[Pair, float]:
    """Quantity x tag of one unit = tag of the line tells both columns apart, whatever their headers say."""
    units = max((pair for pair in gains if pair[0] == _UNITS), key=lambda pair: gains[pair], default=None)
    if units is None or gains[units] <= 0:
        return gains
    tags = {place for column, place in gains if column in (_EACH, _LINE) and gains[column, place] > NEVER / 2}
    fitting = [
        (each, line) for each in tags for line in tags if each != line and _multiplies(seen, units[1], each, line)
    ]
    for each, line in fitting[:1]:
        for pair in ((_EACH, each), (_LINE, line)):
            gains[pair] = max(gains.get(pair, 0.0), 0.0) + _FITS_TOGETHER
    return gains


def _multiplies(seen: Sequence[Glance], units: int, each: int, line: int) -> bool:
    rows = [
        (count, one, whole)
        for count, one, whole in zip(seen[units].numbers, seen[each].numbers, seen[line].numbers, strict=False)
        if count is not None and one and whole is not None and count != 1
    ]
    right = sum(1 for count, one, whole in rows if abs(count * one - whole) <= _ROUNDING * abs(count) + _ROUNDING)
    return len(rows) >= _ENOUGH_ROWS and right >= _ENOUGH_SHARE * len(rows)
