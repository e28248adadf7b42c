"""What became of the tags of a lot's list?  Said beside their sum, so that nobody takes it for what was used."""

from collections.abc import Iterator, Mapping
from typing import Any

from api.http.pages.words import about, count, number


def tags_words(lot: Mapping[str, Any], currency: str) -> str:
    """`tags of $16,135 (24 gave way to the tags on your own sales, 2 not believed)`; blank for a list without tags."""
    if not float(lot.get("tag_total") or 0):
        return ""
    fates, ignored = lot.get("tags"), lot.get("tags_ignored") or 0
    left_out = list(_left_out(fates)) if fates else [f"{number(ignored)} not believed"] if ignored else []
    total = lot["tag_total_used"] if left_out and "tag_total_used" in lot else lot["tag_total"]
    return f"tags of {about(total, currency)}" + (f" ({', '.join(left_out)})" if left_out else "")


def _left_out(fates: Mapping[str, int]) -> Iterator[str]:
    if replaced := fates.get("replaced", 0):
        yield f"without {count(replaced, 'that gives', 'that give')} way to the tags on your own sales"
    if ignored := fates.get("ignored", 0):
        yield f"{number(ignored)} not believed"
    if not_needed := fates.get("not_needed", 0):
        yield f"{number(not_needed)} not needed"
