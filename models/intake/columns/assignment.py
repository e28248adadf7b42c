"""Which pairing of columns and positions is best as a whole, and how much worse is the next best without each pair?

Small and sparse, so solved here: importing an optimiser would cost the parsing child more than the whole search.
"""

from collections.abc import Hashable, Mapping, Sequence
from math import exp, inf
from typing import TypeVar

R = TypeVar("R", bound=Hashable)
Gains = Mapping[tuple[R, int], float]


def best_assignment(gains: Mapping[tuple[R, int], float]) -> dict[R, int]:
    """The one-to-one pairing of most gain; a row may stay unpaired, which gains nothing.

    Parameters
    ----------
    gains : mapping
        {(row, position): gain}; pairs that are not there, or gain nothing, are never made.

    Returns
    -------
    dict
        {row: position}.

    Notes
    -----
    Shortest augmenting paths over a square of costs in which every row has a place of its own to stay unpaired.

    References
    ----------
    Kuhn, The Hungarian method for the assignment problem, 1955, doi:10.1002/nav.3800020109.

    Examples
    --------
    >>> best_assignment({("a", 0): 5.0, ("a", 1): 4.0, ("b", 0): 4.5, ("c", 2): -1.0})
    {'a': 1, 'b': 0}
    """
    useful = {pair: gain for pair, gain in gains.items() if gain > 0}
    rows = list(dict.fromkeys(row for row, _ in useful))
    places = sorted({place for _, place in useful})
    costs = [[-useful.get((row, place), 0.0) for place in places] + [0.0] * len(rows) for row in rows]
    chosen = _solved(costs)
    pairs = {row: places[at] for row, at in zip(rows, chosen, strict=True) if at < len(places)}
    return {row: place for row, place in pairs.items() if (row, place) in useful}


def confidences(gains: Mapping[tuple[R, int], float], chosen: Mapping[R, int]) -> dict[R, float]:
    """How sure each pair of the best pairing is, 0 to 1.

    Parameters
    ----------
    gains : mapping
        {(row, position): log-odds that they belong together}.
    chosen : mapping
        What `best_assignment` made of them.

    Notes
    -----
    1 / (1 + exp(-m)), where m is what the whole loses if this one pair may not be made.

    Examples
    --------
    >>> gains = {("a", 0): 5.0, ("b", 0): 4.0, ("b", 1): 3.0}
    >>> {row: round(sure, 3) for row, sure in confidences(gains, best_assignment(gains)).items()}
    {'a': 0.982, 'b': 0.953}
    """
    sure: dict[R, float] = {}
    for row, place in chosen.items():
        near = _connected(gains, row)
        best = _total(near, {other: at for other, at in chosen.items() if (other, at) in near})
        without = {pair: gain for pair, gain in near.items() if pair != (row, place)}
        loss = best - _total(without, best_assignment(without))
        sure[row] = 1 / (1 + exp(-min(loss, 700.0)))
    return sure


def _total(gains: Mapping[tuple[R, int], float], chosen: Mapping[R, int]) -> float:
    return sum(gains[row, place] for row, place in chosen.items())


def _connected(gains: Mapping[tuple[R, int], float], row: R) -> dict[tuple[R, int], float]:
    """The useful pairs that can matter to a row's."""
    useful = {pair: gain for pair, gain in gains.items() if gain > 0}
    rows, places = {row}, {place for other, place in useful if other == row}
    while True:
        more = {other for other, place in useful if place in places} - rows
        if not more:
            return {pair: gain for pair, gain in useful.items() if pair[0] in rows}
        rows |= more
        places |= {place for other, place in useful if other in more}


def _solved(costs: Sequence[Sequence[float]]) -> list[int]:
    """The column of each row in the cheapest complete assignment; at least as many columns as rows."""
    width = len(costs[0]) if costs else 0
    row_price, place_price = [0.0] * (len(costs) + 1), [0.0] * (width + 1)
    held = [0] * (width + 1)  # the row, from 1, of each column, from 1; column 0 is where a search starts
    for row in range(1, len(costs) + 1):
        held[0] = row
        end, came_from = _cheapest_path(costs, held, row_price, place_price)
        while end:
            held[end] = held[came_from[end]]
            end = came_from[end]
    chosen = [0] * len(costs)
    for place, row in enumerate(held[1:]):
        if row:
            chosen[row - 1] = place
    return chosen


def _cheapest_path(
    costs: Sequence[Sequence[float]], held: Sequence[int], row_price: list[float], place_price: list[float]
) -> tuple[int, list[int]]:
    """A free column, and the way to it from column 0; prices are raised so that no pair in use becomes dear."""
    width = len(place_price)
    nearest, came_from, seen = [inf] * width, [0] * width, [False] * width
    at = 0
    while held[at]:
        seen[at] = True
        row, onward, step = held[at], 0, inf
        for place in range(1, width):
            if seen[place]:
                continue
            away = costs[row - 1][place - 1] - row_price[row] - place_price[place]
            if away < nearest[place]:
                nearest[place], came_from[place] = away, at
            if nearest[place] < step:
                step, onward = nearest[place], place
        for place in range(width):
            if seen[place]:
                row_price[held[place]] += step
                place_price[place] -= step
            else:
                nearest[place] -= step
        at = onward
    return at, came_from
