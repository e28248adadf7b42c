"""What do the lines' own words call for?  Cautions of single lines, and of the lot one a kind with its lines.

No word that matches is told as just that, never as safe.
"""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from models.appraisal.prepare import Prepared
from models.appraisal.question import Question
from models.decide.never import is_not_listed, own_never
from models.values.conditions import CONDITIONS, UNKNOWN
from models.values.goods_kinds import GOODS_KINDS, GoodsKind
from models.values.goods_matching import goods_named

OWN_NEVER = "own_never"
LINES_NAMED = 200  # of one kind in the lot's own cautions; the lines themselves all carry theirs
_LISTED = ("list", "bundle")
_OWN = GoodsKind(
    "On your own list", "you said that such goods are not sold here.",
    "Change the list in your settings, or choose for the line if it is meant to be sold.", "your settings",
)  # fmt: skip


@dataclass(frozen=True)
class Named:
    """One kind on one line; `words` named it, `held` says that the line is not listed for it."""

    no: int
    kind: str
    words: str
    held: bool
    chosen: bool  # the seller lists it all the same


def goods_of_lines(question: Question, lot: Prepared) -> dict[int, list[dict[str, Any]]]:
    """Every line's cautions by its number, as the contract writes them; lines without any are not in it."""
    found: defaultdict[int, list[dict[str, Any]]] = defaultdict(list)
    for one in _named(question, lot):
        kind = _kind(one.kind)
        words = f" Its words: {one.words}." if one.words else ""
        what = f"{kind.title}: {kind.what}{_not_listed(one)}{words}"
        found[one.no].append({"kind": one.kind, "what": what, "check": kind.check})
    return dict(found)


def goods_of_lot(question: Question, lot: Prepared) -> list[dict[str, Any]]:
    """One caution a kind, naming its lines, and how many lines no word matched on."""
    by_kind: dict[str, list[Named]] = {kind: [] for kind in (OWN_NEVER, *GOODS_KINDS)}
    for one in sorted(_named(question, lot), key=lambda one: one.no):
        by_kind[one.kind].append(one)
    told = [_of_kind(_kind(kind), kind, found) for kind, found in by_kind.items() if found]
    matched = {one.no for found in by_kind.values() for one in found}
    return told + _unmatched(len(lot.lines) - len(matched), len(lot.lines))


def _of_kind(kind: GoodsKind, key: str, found: list[Named]) -> dict[str, Any]:
    about: dict[str, Any] = {"kind": key, "check": kind.check, "source": kind.source, "count": len(found)}
    if len(found) == 1:
        return {"line": found[0].no, "what": f"{kind.title}: {kind.what}{_not_listed(found[0])}"} | about
    held = sum(one.held and not one.chosen for one in found)
    held_back = f" {held} of them are not listed here unless you choose to." if held else ""
    what = f"{kind.title} on {len(found)} lines: {kind.what}{held_back}"
    return {"lines": [one.no for one in found[:LINES_NAMED]], "what": what} | about


def _not_listed(one: Named) -> str:
    if not one.held:
        return ""
    return " You chose to list it all the same." if one.chosen else " Not listed here unless you choose to."


def _unmatched(count: int, of_lines: int) -> list[dict[str, Any]]:
    if not count:
        return []
    what = f"No word of our cautions matched on {count} of {of_lines} lines: that does not mean that they are safe."
    check = "Look at the goods yourself; local rules and a licensed adviser decide what you may sell and post."
    return [{"what": what, "check": check}]


def _kind(key: str) -> GoodsKind:
    return _OWN if key == OWN_NEVER else GOODS_KINDS[key]


def _named(question: Question, lot: Prepared) -> list[Named]:
    lines, never = lot.lines, question.held.settings.never
    own = own_never(lines, never)
    found = []
    for at, no in enumerate(lines.no.tolist()):
        chosen = question.chosen.get(no) in _LISTED
        if own[at]:
            found.append(Named(no, OWN_NEVER, "", True, chosen))
        condition = int(lines.condition[at])
        for kind, words in _cautioned(lines.description[at], lines.category[at], condition).items():
            held = kind not in never.listed_anyway and is_not_listed(kind, condition)
            found.append(Named(no, kind, words, held, chosen))
    return found


def _cautioned(description: str, category: str, condition: int) -> Mapping[str, str]:
    named = goods_named(description, category)
    if condition == UNKNOWN or not named:
        return named
    held = CONDITIONS[condition]
    return {kind: words for kind, words in named.items() if held in GOODS_KINDS[kind].cautioned}
