"""What became of the tags of a lot's list?  Said beside their sum, so that nobody takes it for what prices rest on."""

from collections.abc import Iterator, Mapping
from typing import Any

from api.http.pages.words import about, number


def tags_words(lot: Mapping[str, Any], currency: str) -> str:
    """`tags of $35,134 in the list, priced by tags of $16,135 (2 not believed)`; blank for a list without tags."""
    if not float(lot.get("tag_total") or 0):
        return ""
    fates, ignored = lot.get("tags"), lot.get("tags_ignored") or 0
    left_out = list(_left_out(fates)) if fates else [f"{number(ignored)} not believed"] if ignored else []
    said = f"tags of {about(lot['tag_total'], currency)}"
    if not left_out:
        return said
    used = about(lot.get("tag_total_used"), currency)
    return f"{said} in the list{f', priced by tags of {used}' if used else ''} ({', '.join(left_out)})"


def _left_out(fates: Mapping[str, int]) -> Iterator[str]:
    if replaced := fates.get("replaced", 0):
        yield f"{number(replaced)} gave way to those on your own sales"
    if ignored := fates.get("ignored", 0):
        yield f"{number(ignored)} not believed"
    if not_needed := fates.get("not_needed", 0):
        yield f"{number(not_needed)} not needed"
