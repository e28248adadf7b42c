"""How are cautions shown?  The lot's own first; those of single lines counted by what they begin with, or by kind."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Final

from models.services.recalled_words import READ_WITH
from models.values.cautions import STANDING_CAUTIONS

STANDING: Final = frozenset(one.what for one in STANDING_CAUTIONS)
LINES_SHOWN: Final = 30  # links beside one kind of goods


@dataclass(frozen=True)
class LineCautions:
    """Cautions of several lines that say the same kind of thing; `what` is how each of them begins."""

    what: str
    items: tuple[Mapping[str, Any], ...]


@dataclass(frozen=True)
class GoodsCaution:
    """One kind of goods that a lot holds; `lines` are the first of all `count`."""

    title: str
    says: str
    check: str
    source: str
    lines: tuple[int, ...]
    count: int


@dataclass(frozen=True)
class Parted:
    """`own` are about the whole lot."""

    own: tuple[Mapping[str, Any], ...]
    of_lines: tuple[LineCautions, ...]
    goods: tuple[GoodsCaution, ...]
    always: tuple[Mapping[str, Any], ...]  # what is true of every lot


def parted(cautions: Iterable[Mapping[str, Any]]) -> Parted:
    """Cautions in their order; kinds of goods apart, others of lines by the words before the first colon."""
    own: list[Mapping[str, Any]] = []
    groups: dict[str, list[Mapping[str, Any]]] = {}
    goods: list[GoodsCaution] = []
    for one in cautions:
        if one.get("kind"):
            goods.append(_goods(one))
        elif one.get("line") is None:
            own.append(one)
        else:
            groups.setdefault(one["what"].partition(":")[0].rstrip("."), []).append(one)
    of_lines = (LineCautions(what, tuple(items)) for what, items in groups.items())
    always = tuple(one for one in own if one["what"] in STANDING)
    # that earlier answers were used stands on top: everything below rests on it
    own = sorted(own, key=lambda one: not one["what"].startswith(READ_WITH))
    return Parted(tuple(one for one in own if one not in always), tuple(of_lines), tuple(goods), always)


def _goods(one: Mapping[str, Any]) -> GoodsCaution:
    title, _, says = one["what"].partition(": ")
    lines = one.get("lines") or [one["line"]]
    title = title if "lines" in one else f"{title} on line {lines[0]}"
    says = says[:1].upper() + says[1:]
    return GoodsCaution(title, says, one["check"], one.get("source", ""), tuple(lines[:LINES_SHOWN]), one["count"])
