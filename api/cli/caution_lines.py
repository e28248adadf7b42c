"""What must the seller check before bidding?  The lot's own cautions, and those that hold for every lot."""

import textwrap
from collections.abc import Mapping
from typing import Any

from models.values.cautions import STANDING_CAUTIONS

WIDTH = 110  # letters a line


def own_caution_lines(document: Mapping[str, Any]) -> list[str]:
    """What this lot alone calls for; of single lines only how many there are."""
    standing = {one.what for one in STANDING_CAUTIONS}
    whole_lot = [one for one in document["cautions"] if one.get("line") is None]
    of_lines = len(document["cautions"]) - len(whole_lot)
    said = [f"{one['what']} {one['check']}" for one in whole_lot if one["what"] not in standing]
    if of_lines:
        named = "1 caution about a single line" if of_lines == 1 else f"{of_lines} cautions about single lines"
        said.append(f"{named}: --json FILE has them all.")
    return _listed(said)


def standing_caution_lines() -> list[str]:
    """What holds for every lot."""
    return ["Before you bid:", *_listed([f"{one.what} {one.check}" for one in STANDING_CAUTIONS])]


def _listed(texts: list[str]) -> list[str]:
    wrapped = (textwrap.wrap(text, WIDTH, initial_indent="  - ", subsequent_indent="    ") for text in texts)
    return [line for lines in wrapped for line in lines]
