"""How is it said what a line's price rests on?  Words only: every figure is the evaluation's."""

from collections.abc import Mapping
from typing import Any, Final

from api.http.pages.words import count

MUCH_ALIKE: Final = 0.7  # of 1, the words of both; common practice, no source
ALIKE: Final = 0.4
SAME: Final = 0.02  # a smaller difference between bulk goods and single finds is not worth a sentence


def rests_on(evidence: Mapping[str, Any]) -> str:
    """`your 12 sales of this very item and 3 in other conditions`."""
    basis, like_it = evidence.get("basis"), evidence.get("sales_like_it") or 0
    of_product = evidence.get("sales_of_product") or 0
    if basis == "own_item":
        beside = of_product - like_it
        return f"your {count(like_it, 'sale', 'sales')} of this very item" + (
            f" and {beside:,} of it in other conditions" if beside > 0 else ""
        )
    known = f"your {count(of_product, 'sale', 'sales')} of it in other conditions, and " if of_product else ""
    return known + _of_kind(str(basis), like_it)


def _of_kind(basis: str, like_it: int) -> str:
    sales = f"your {count(like_it, 'sale', 'sales')}"
    words = {
        "brand_and_category": f"{sales} of this brand and category",
        "category": f"{sales} in this category",
        "tag_only": "its tag: you have sold nothing of its kind",
        "prior_only": "no sale of yours and no tag: it is a guess",
    }
    return words.get(basis, basis.replace("_", " "))


def nearness(comp: Mapping[str, Any]) -> str:
    """How like the line a sale is."""
    if comp.get("same"):
        return "this very item" if comp["same"] == "item" else "the same in another condition"
    likeness = comp.get("likeness") or 0.0
    return "much alike" if likeness >= MUCH_ALIKE else "alike" if likeness >= ALIKE else "a little alike"


def bulk_words(evidence: Mapping[str, Any]) -> str:
    """Why the price is not simply that of the sales shown; blank where it makes no difference."""
    factor = evidence.get("bulk_against_single")
    if factor is None or abs(factor - 1) < SAME:
        return ""
    way = "less" if factor < 1 else "more"
    return (
        f"A piece from a bulk lot is expected to fetch about {abs(factor - 1):.0%} {way} than one that you picked "
        "singly; sales that do not say which they were lie between."
    )


FILTERS: Final[Mapping[str, Any]] = {"rests_on": rests_on, "nearness": nearness, "bulk_words": bulk_words}
