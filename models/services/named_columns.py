"""Is a mapping {canonical column: header in the file} one we can follow?"""

from collections.abc import Mapping, Sequence

from models.intake.columns.column_names import named_twice, place_of, places_together
from models.intake.columns.vocabulary_beside import BESIDE
from models.values.errors import Rejected
from models.values.questions import NO_COLUMN, fault_of, is_answer

LONGEST_HEADER = 500
_BESIDE = frozenset({*BESIDE, "status"})  # read from a history, though no columns of ours
PRICE_IS = "sold_price_is"  # says nothing of a manifest


def checked_mapping(mapping: Mapping[str, str], columns: Sequence[str]) -> dict[str, str]:
    """The mapping, or Rejected with one reason a key."""
    faults = {name: why for name, header in mapping.items() if (why := _fault(name, header, columns))}
    _refuse(faults or named_twice(mapping))
    return dict(mapping)


def checked_headers(mapping: Mapping[str, str], headers: Sequence[str]) -> None:
    """Rejected naming each header that the file does not have, or that is to be two columns of it.

    Nothing is known of a file that was never read.
    """
    absent = {
        name: f"the file has no heading '{header}'"
        for name, header in mapping.items()
        if headers and not is_answer(name) and header.strip() != NO_COLUMN and not _is_there(name, header, headers)
    }
    _refuse(absent, f" The headings are: {', '.join(headers)}.")
    _refuse(named_twice(mapping, headers))


def _refuse(faults: Mapping[str, str], more: str = "") -> None:
    if faults:
        named = "; ".join(f"{name}: {why}" for name, why in faults.items())
        raise Rejected(f"These columns cannot be used: {named}.{more}", faults)


def _is_there(name: str, header: str, headers: Sequence[str]) -> bool:
    summed = name == "quantity" and bool(places_together(header, headers))
    return summed or place_of(header, headers) is not None


def _fault(name: str, header: str, columns: Sequence[str]) -> str | None:
    usable = bool(header.strip()) and len(header) <= LONGEST_HEADER and "\0" not in header
    if is_answer(name) and (name != PRICE_IS or "sold_price" in columns):
        return fault_of(name, header) or (None if usable else "is too long")
    if name not in columns and not (name in _BESIDE and "sold_price" in columns):
        return "no such column; use " + ", ".join(columns)
    return None if usable else "must name a header of the file"
