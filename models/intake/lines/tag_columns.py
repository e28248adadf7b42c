"""Which tag column is of one unit, which of the whole line?  Header and cells together; else it is asked."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from models.intake.cells.amounts import read_amounts
from models.intake.cells.price_words import says_each, says_line
from models.intake.cells.wordings import plain_words
from models.intake.lines.tag_basis import Basis, basis_of, basis_of_total, basis_question, basis_shown
from models.intake.shape.findings import Findings
from models.intake.shape.table import Table
from models.values.arrays import FloatArray, IntArray, TextArray
from models.values.problems import Caution, StatedTotals
from models.values.questions import TAG_IS, is_recalled

TAG_COLUMNS = ("tag_each", "tag_line")
ROUNDING = 0.5  # minor units that a tag of one unit may be off by rounding

_ENOUGH, _MOST = 3, 0.5  # lines of several units, and the share of them that must show the same
_OURS = frozenset({"tag each", "tag line"})  # canonical names mean what they say
_NAMES: Mapping[Basis, str] = {Basis.UNIT: "tag_each", Basis.LINE: "tag_line"}


@dataclass(frozen=True)
class Told:
    """What is known beside the cells; the seller's mapping wins, `stated` is what the file says of its own sum.

    `goods` are the descriptions as they read.
    """

    given: Mapping[str, str]
    stated: Sequence[StatedTotals]
    currency: str
    goods: TextArray


class TagColumns:
    """The tag columns on their way to what they are; `source` is the canonical name that each was matched by."""

    def __init__(
        self, table: Table, columns: dict[str, FloatArray], quantity: IntArray, told: Told, findings: Findings
    ) -> None:
        self._table, self._quantity, self._findings = table, quantity, findings
        self._given, self._stated, self._currency, self._goods = told.given, told.stated, told.currency, told.goods
        self.columns = columns
        self.source = {name: name for name in columns}

    def settled(self) -> tuple[Caution, ...]:
        """Bring each column to its place; what was decided by the cells is told."""
        if _OURS.intersection(plain_words(self._table.headers[name]) for name in self.columns):
            return ()
        if len(self.columns) == 2:
            return self._two()
        return self._one(next(iter(self.columns))) if self.columns else ()

    def _one(self, name: str) -> tuple[Caution, ...]:
        header = self._table.headers.get(name, name)
        known = self._answer()
        against = self._against_recalled(name, known or _basis(name), TAG_IS if known else name)
        basis = known or (self._basis_named(name) if name in self._given else self._basis_shown(name, header))
        if basis is None or against is not None:
            self._findings.ask(basis_question(f"'{header}'", against))
        elif _NAMES[basis] != name:
            self._move({_NAMES[basis]: name})
            return () if known else (_decided(header, basis),)
        return ()

    def _basis_named(self, name: str) -> Basis | None:
        """What the seller's mapping calls it, which may only repeat what we showed: who contradicts it asks.

        A header does where no cell takes the mapping's side: "EK gesamt" may be the only price to choose.
        """
        shown = {basis for basis in self._shown(name) if basis is not None}
        header = self._table.headers[name]
        said = Basis.LINE if says_line(header) else Basis.UNIT if says_each(header) else _basis(name)
        against = shown or ({said} if (self._quantity > 1).any() else set())
        return _basis(name) if against <= {_basis(name)} else None

    def _against_recalled(self, name: str, said: Basis, key: str) -> Basis | None:
        """What the cells show against an answer that was given for an earlier file; None where they do not."""
        if not is_recalled(self._given, key):
            return None
        shown = [basis for basis in self._shown(name) if basis is not None]
        if self._summed_below(name) is Basis.UNIT:  # a sum made without a thought is never that of quantity x amount
            shown.append(Basis.UNIT)
        return next((basis for basis in shown if basis is not said), None)

    def _basis_shown(self, name: str, header: str) -> Basis | None:
        """A total below the column may be a sum made without a thought: it raises the question, no more."""
        by_goods, by_total = self._shown(name)
        basis = basis_of(header, by_goods, by_total)
        undecided = by_goods is None and by_total is None and not (says_each(header) or says_line(header))
        return None if undecided and self._summed_below(name) is Basis.LINE else basis

    def _summed_below(self, name: str) -> Basis | None:
        outline = self._table.outline
        if outline is None or name not in outline.places:
            return None
        place = outline.places[name]
        rows = [outline.rows[index] for index in outline.sorted_rows.totals if index in outline.rows]
        cells = [row[place] for row in rows if place < len(row)]
        read = read_amounts({name: cells}, self._currency, self._table.comma_likely)[name]
        return basis_of_total(self.columns[name], self._quantity, read.minor[np.isfinite(read.minor)].tolist())

    def _two(self) -> tuple[Caution, ...]:
        each, line, units = self.columns["tag_each"], self.columns["tag_line"], np.maximum(self._quantity, 1)
        several = (self._quantity > 1) & ~np.isnan(each) & ~np.isnan(line) & (each > 0)
        if several.sum() < _ENOUGH:
            return ()
        if (several & (np.abs(each - units * line) <= ROUNDING * (units + 1))).sum() > _MOST * several.sum():
            headers = self._table.headers
            self._move({"tag_each": "tag_line", "tag_line": "tag_each"})
            return (_swapped(headers["tag_each"], headers["tag_line"]),)
        if (several & (each == line)).sum() > _MOST * several.sum():
            return self._same()
        return ()

    def _same(self) -> tuple[Caution, ...]:
        """Both columns repeat one amount although lines have several units: one is not what it is called."""
        shown = {basis for basis in self._shown("tag_each") if basis is not None}
        only = next(iter(shown)) if len(shown) == 1 else None
        known = self._answer()
        against = only if known and only is not known and is_recalled(self._given, TAG_IS) else None
        basis = None if against else known or only
        headers = [f"'{self._table.headers[name]}'" for name in TAG_COLUMNS]
        if basis is None:
            self._findings.ask(basis_question(" and ".join(headers), against))
            return ()
        self._move({_NAMES[basis]: _NAMES[basis]})
        return (_one_of_two(" and ".join(headers), basis),)

    def _move(self, source: dict[str, str]) -> None:
        self.columns = {name: self.columns[was] for name, was in source.items()}
        self.source = source

    def _answer(self) -> Basis | None:
        return Basis(self._given[TAG_IS]) if TAG_IS in self._given else None

    def _shown(self, name: str) -> tuple[Basis | None, Basis | None]:
        """By goods, and by what headings and titles say; sums in rows of totals are another matter."""
        outline = self._table.outline
        below = set() if outline is None else {index + outline.first_row for index in outline.sorted_rows.totals}
        said = [one for one in self._stated if one.row not in below]
        return basis_shown(self.columns[name], self._quantity, self._goods, said)


def _basis(name: str) -> Basis:
    return next(basis for basis, column in _NAMES.items() if column == name)


def _decided(header: str, basis: Basis) -> Caution:
    whose = "of the whole line" if basis is Basis.LINE else "of one unit"
    what = f"The amounts in '{header}' were read as the tag {whose}: the lines and totals of the file show it."
    return Caution(what, "Compare one line of several units with the shop's own tag; if it is wrong, say so.")


def _swapped(each: str, line: str) -> Caution:
    what = f"'{each}' is quantity x '{line}' in most lines, so it was read as the tag of the line, '{line}' of a unit."
    return Caution(what, "Compare one line of several units with the shop's own tag.")


def _one_of_two(headers: str, basis: Basis) -> Caution:
    whose = "the whole line" if basis is Basis.LINE else "one unit"
    what = f"{headers} hold the same amounts although lines have several units; they were read as for {whose}."
    return Caution(what, "Compare one line of several units with the shop's own tag.")
