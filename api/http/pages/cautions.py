"""How are cautions shown?  The lot's own first; those of single lines counted by what they begin with."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class LineCautions:
    """Cautions of several lines that say the same kind of thing; `what` is how each of them begins."""

    what: str
    items: tuple[Mapping[str, Any], ...]


@dataclass(frozen=True)
class Parted:
    """`own` are about the whole lot."""

    own: tuple[Mapping[str, Any], ...]
    of_lines: tuple[LineCautions, ...]


def parted(cautions: Iterable[Mapping[str, Any]]) -> Parted:
    """Cautions in their order, those of lines grouped by the words before the first colon or figure."""
    own: list[Mapping[str, Any]] = []
    groups: dict[str, list[Mapping[str, Any]]] = {}
    for one in cautions:
        if one.get("line") is None:
            own.append(one)
        else:
            groups.setdefault(one["what"].partition(":")[0].rstrip("."), []).append(one)
    return Parted(tuple(own), tuple(LineCautions(what, tuple(items)) for what, items in groups.items()))
