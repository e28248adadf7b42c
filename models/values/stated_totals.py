"""Do a file's own totals agree with the lines read from it?  Its totals rows and headings beside our sums."""

from collections.abc import Iterator
from dataclasses import asdict, replace
from typing import Any

import numpy as np

from models.values.arrays import BoolArray, FloatArray
from models.values.lines import Lines
from models.values.money import in_words, written
from models.values.problems import Caution, Problems, StatedTotals

_NEAR = 0.0001  # of a total: printed tags are rounded, and so are their sums


def counted(
    stated: tuple[StatedTotals, ...], lines: Lines, cases: FloatArray | None = None
) -> tuple[StatedTotals, ...]:
    """The same totals with what the lines used from their rows add up to.

    Parameters
    ----------
    stated : tuple of StatedTotals
        What the file says; `covers` tells of which rows.
    lines : Lines
        The lines that were kept.
    cases : ndarray of shape (n_lines,) or None
        Cases of each line, where the file counts cases.

    Returns
    -------
    tuple of StatedTotals
        With `counted_units`, with `counted_cases` where cases are told, and `counted_tags` [minor units] where any
        line has a tag.

    Examples
    --------
    >>> from dataclasses import replace
    >>> lines = replace(Lines.blank(3), quantity=np.array([2, 3, 4]), tag_each=np.array([100.0, 200.0, np.nan]))
    >>> [one] = counted((StatedTotals(6, 800, row=9, where="Sub-total", covers=(2, 3)),), lines)
    >>> one.counted_units, one.counted_tags
    (5.0, 800.0)
    """
    return tuple(_nearest(one, lines, cases) for one in stated)


def _nearest(one: StatedTotals, lines: Lines, cases: FloatArray | None) -> StatedTotals:
    """A total under others may sum its own part, or everything above it: its words tell, else what comes nearer."""
    part = _counted(one, lines, cases)
    if one.part or one.covers is None or one.covers[1] >= one.row:
        return part
    below = bool((lines.row > one.row).any())
    above = _counted(replace(one, covers=(1, one.row - 1) if below else None), lines, cases)
    return above if _gap(above) < _gap(part) else part


def _gap(one: StatedTotals) -> float:
    pairs = (one.units, one.counted_units), (one.tags, one.counted_tags), (one.cases, one.counted_cases)
    return sum(abs(said - (ours or 0.0)) / max(1.0, said) for said, ours in pairs if said is not None)


def _counted(one: StatedTotals, lines: Lines, cases: FloatArray | None) -> StatedTotals:
    here = _within(one, lines)
    tags = (lines.tag_each * lines.quantity)[here]
    known = None if np.isnan(tags).all() else float(np.nansum(tags))
    held = None if cases is None or one.cases is None else float(cases[here].sum())
    return replace(one, counted_units=float(lines.quantity[here].sum()), counted_tags=known, counted_cases=held)


def _within(one: StatedTotals, lines: Lines) -> BoolArray:
    first, last = one.covers or (0, np.iinfo(np.int64).max)
    inside: BoolArray = (lines.row >= first) & (lines.row <= last)
    return inside


def disagreements(stated: tuple[StatedTotals, ...], currency: str) -> Iterator[Caution]:
    """One caution for every counted total that the lines do not add up to.

    Examples
    --------
    >>> told = StatedTotals(100, 5000, row=9, where="Total", counted_units=97, counted_tags=5000)
    >>> [one] = disagreements((told,), "USD")
    >>> one.what
    "The file's own total does not agree with its lines: row 9, 'Total', says 100 units; the lines used make 97."
    """
    for one in stated:
        pairs = [
            (f"{one.units:,.0f} units", f"{one.counted_units or 0:,.0f}") if not units_agree(one) else None,
            (f"{one.cases:,.0f} cases", f"{one.counted_cases or 0:,.0f}") if not cases_agree(one) else None,
            _tags(one, currency) if not tags_agree(one) else None,
        ]
        said = [pair for pair in pairs if pair is not None]
        if said:
            place = f"row {one.row}, '{one.where}'," if one.row else f"'{one.where}'"
            theirs, ours = (" and ".join(parts) for parts in zip(*said, strict=True))
            yield Caution(
                "The file's own total does not agree with its lines: "
                f"{place} says {theirs}; the lines used make {ours}.",
                "Look at the rows set aside, and ask the seller which is right.",
            )


def _tags(one: StatedTotals, currency: str) -> tuple[str, str]:
    return f"tags of {in_words(one.tags or 0.0, currency)}", in_words(one.counted_tags or 0.0, currency)


def stated_documents(stated: tuple[StatedTotals, ...], currency: str) -> list[dict[str, Any]]:
    """The totals in a document's form: money as decimal strings in major units, null where nothing is said.

    Examples
    --------
    >>> told = StatedTotals(100, 5000, row=9, where="Total", counted_units=97, counted_tags=5000)
    >>> stated_documents((told,), "USD")[0]["tags"], stated_documents((told,), "USD")[0]["agrees"]
    ('50.00', False)
    """
    return [_document(one, currency) for one in stated]


def problems_document(problems: Problems, currency: str) -> dict[str, Any]:
    """A file's problems in a document's form: {rows, kept, set_aside, items, stated}.

    Examples
    --------
    >>> problems_document(Problems(2, 2, 0, ()), "USD")
    {'rows': 2, 'kept': 2, 'set_aside': 0, 'items': [], 'stated': []}
    """
    items = [asdict(one) for one in problems.items]
    return asdict(problems) | {"items": items, "stated": stated_documents(problems.stated, currency)}


def _document(one: StatedTotals, currency: str) -> dict[str, Any]:
    money = {name: getattr(one, name) for name in ("tags", "counted_tags")}
    return {
        **asdict(one),
        **{name: None if amount is None else written(amount, currency) for name, amount in money.items()},
        "covers": None if one.covers is None else list(one.covers),
        "agrees": units_agree(one) and cases_agree(one) and tags_agree(one),
    }


def units_agree(one: StatedTotals) -> bool:
    """Whether the units counted are the units stated; True where either is not known.

    Examples
    --------
    >>> units_agree(StatedTotals(3, None, 9, "Total", counted_units=3))
    True
    """
    return _same_count(one.units, one.counted_units)


def cases_agree(one: StatedTotals) -> bool:
    """Whether the cases counted are the cases stated; True where either is not known.

    Examples
    --------
    >>> cases_agree(StatedTotals(None, None, 9, "Total cases", cases=3, counted_cases=4))
    False
    """
    return _same_count(one.cases, one.counted_cases)


def _same_count(said: float | None, ours: float | None) -> bool:
    return said is None or ours is None or round(said) == round(ours)


def tags_agree(one: StatedTotals) -> bool:
    """Whether the tags counted are the tags stated, but for rounding; True where either is not known.

    Examples
    --------
    >>> tags_agree(StatedTotals(None, 10_000, 9, "Total", counted_tags=12_000))
    False
    """
    if one.tags is None or one.counted_tags is None:
        return True
    return abs(one.tags - one.counted_tags) <= max(1.0, _NEAR * abs(one.tags))
