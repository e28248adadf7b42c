"""One sheet and its header: does it name goods, and does its own name say that they are not in the lot?"""

import re
from dataclasses import dataclass

from models.intake.cells.word_lists import word_list
from models.intake.cells.wordings import plain_words
from models.intake.columns.header_words import header_scores
from models.intake.columns.vocabulary import Vocabulary
from models.intake.grid import Cell, Grid
from models.intake.shape.header import Header

_TAKEN_OUT = re.compile(
    r"\b(?:"
    + "|".join(
        word_list(r"""
    removed; removals?; taken (?:out|off); pulled; not (?:included|in lot|shipped|sent); excluded; exclusions?; missing;
    deleted; withdrawn; rejected; rejects; shorts; shortages?; cancell?ed; entnommen; entfernt; fehlt; fehlende;
    retir[eé]s?; quitados; rimossi; verwijderd
""")
    )
    + r")\b",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class Sheet:
    """One sheet with its header."""

    grid: Grid
    header: Header

    @property
    def taken_out(self) -> bool:
        """True where its name says that its goods are not in the lot."""
        return bool(_TAKEN_OUT.search(re.sub(r"[_\-.]+", " ", self.grid.name)))

    @property
    def below(self) -> list[list[Cell]]:
        """The rows below the header."""
        return self.grid.rows[self.header.index + 1 :]

    def names_goods(self, vocabulary: Vocabulary) -> int | None:
        """Position of the column that names goods; None where the header has none, or nothing stands below it."""
        wanted = vocabulary.required[0]
        scores = [header_scores(plain_words(name), vocabulary).get(wanted, 0) for name in self.header.names]
        best = max(scores, default=0)
        if not self.header.recognised or best == 0 or not any(any(row) for row in self.below):
            return None
        return scores.index(best)
