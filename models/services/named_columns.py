"""Is a mapping {canonical column: header in the file} one we can follow?"""

from collections.abc import Mapping, Sequence

from models.intake.wordings import plain_words
from models.values.errors import Rejected

LONGEST_HEADER = 500
PRICE_BASIS = "sold_price_is"  # its value is "unit" or "row", not a header


def checked_mapping(mapping: Mapping[str, str], columns: Sequence[str]) -> dict[str, str]:
    """The mapping, or Rejected with one reason a key."""
    faults = {name: why for name, header in mapping.items() if (why := _fault(name, header, columns))}
    if faults:
        named = "; ".join(f"{name}: {why}" for name, why in faults.items())
        raise Rejected(f"These columns cannot be used: {named}.", faults)
    return dict(mapping)


def checked_headers(mapping: Mapping[str, str], headers: Sequence[str]) -> None:
    """Rejected naming each header the file does not have; nothing is known of a file that was never read."""
    known = {said for header in headers for said in (header.strip(), plain_words(header)) if said}
    absent = {
        name: f"the file has no heading '{header}'"
        for name, header in mapping.items()
        if known and name != PRICE_BASIS and not known.intersection((header.strip(), plain_words(header)))
    }
    if absent:
        named = "; ".join(f"{name}: {why}" for name, why in absent.items())
        raise Rejected(f"These columns cannot be used: {named}.", absent)


def _fault(name: str, header: str, columns: Sequence[str]) -> str | None:
    if name == PRICE_BASIS and "sold_price" in columns:
        return None if header in ("unit", "row") else "must be unit or row"
    if name not in columns:
        return "no such column; use " + ", ".join(columns)
    usable = header.strip() and len(header) <= LONGEST_HEADER and "\0" not in header
    return None if usable else "must name a header of the file"
