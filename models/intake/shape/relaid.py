"""A second header inside the table that orders its columns anew: rows below it are put into the first one's order.

Without this a sheet of two stacked lists would be read with its units as names and its tags as units.
"""

from collections.abc import Callable, Mapping, Sequence

from models.intake.cells.wordings import plain_words
from models.intake.grid import Cell
from models.intake.many import columns_of

_FEWEST = 2  # columns that a row must name to be a header
_PROBES = ("quantity", "tag_each", "tag_line", "sold_price")


class Layouts:
    """Sees the rows in order; `relaid` are the positions of headers that changed the order."""

    def __init__(
        self, names: Sequence[Cell], places: Mapping[str, int], reads_as: Callable[[Cell], str | None]
    ) -> None:
        self._places = places
        self._reads_as = reads_as
        columns = {place: column for column, place in places.items()}
        # The first header's own words mean what they mean there, or nothing.
        self._known = {plain_words(name): columns.get(place) for place, name in enumerate(names) if name != ""}
        self._probe = next((places[column] for column in _PROBES if column in places), None)
        self._now: Mapping[str, int] | None = None
        self.relaid: list[int] = []

    def in_order(self, row: list[Cell]) -> list[Cell]:
        """The row as it would stand under the first header."""
        if self._now is None:
            return row
        moved: list[Cell] = [""] * max(len(row), 1 + max(self._places.values()))
        for column, place in self._now.items():
            if column in self._places and place < len(row):
                moved[self._places[column]] = row[place]
        return moved

    @property
    def changed(self) -> bool:
        """Whether rows stand in another order now."""
        return self._now is not None

    def surely_no_headers(self, rows: Sequence[Sequence[Cell]]) -> list[bool]:
        """Which rows `is_header` would not take for one by a single cell, told of all together."""
        if self._probe is None:
            return [True] * len(rows)
        [cells] = columns_of(rows, [self._probe])
        words = {cell for cell in set(cells) if _may_name_column(cell)}
        return [cell not in words for cell in cells]

    def is_header(self, index: int, row: Sequence[Cell]) -> bool:
        """True for another header; from then on its order counts."""
        if self._probe is None or self._probe >= len(row) or not _may_name_column(row[self._probe]):
            return False
        named = self._named(row)
        if named is None:
            return False
        same = all(named.get(column, place) == place for column, place in self._places.items())
        if not same or self._now is not None:
            self.relaid.append(index)
        self._now = None if same else named
        return True

    def _named(self, row: Sequence[Cell]) -> dict[str, int] | None:
        """{canonical: position} if the row is words that name columns, at least half of them."""
        words = [(place, cell) for place, cell in enumerate(row) if cell != ""]
        if not all(isinstance(cell, str) and not any(map(str.isdigit, cell)) for _, cell in words):
            return None
        named: dict[str, int] = {}
        for place, cell in words:
            words_alone = plain_words(cell)
            column = self._known[words_alone] if words_alone in self._known else self._reads_as(cell)
            if column is not None:
                named.setdefault(column, place)
        return named if len(named) >= max(_FEWEST, len(words) / 2) else None


def _may_name_column(cell: Cell) -> bool:
    return isinstance(cell, str) and cell != "" and not any(map(str.isdigit, cell))
