"""What is asked about looked-up prices that look like slips?  In a seller's words, with the line and the amounts."""

from collections.abc import Iterator, Sequence

import numpy as np

from models.estimate.looked_up_doubt import PriceDoubt
from models.values.lines import Lines
from models.values.money import in_words
from models.values.problems import Caution


def looked_up_cautions(doubts: Sequence[PriceDoubt], lines: Lines, currency: str) -> Iterator[Caution]:
    """One for each doubted line."""
    tags = dict(zip(lines.no.tolist(), lines.tag_each.tolist(), strict=True))
    for one in doubts:
        yield _far(one, tags[one.line], currency) if one.is_far else _apart(one, currency)


def _far(one: PriceDoubt, tag: float, currency: str) -> Caution:
    typed = ", ".join(in_words(price, currency) for price in one.ignored or one.prices)
    low, high = in_words(one.low, currency), in_words(one.high, currency)
    tagged = "" if np.isnan(tag) else f", and its tag is {in_words(tag, currency)}"
    said = f"You typed {typed} for line {one.line}; by your own sales 9 of 10 such goods fetch {low} to {high}{tagged}."
    if not one.ignored:
        counted = "That counts only in part" if one.in_part else "It was counted"
        return Caution(
            f"{said} {counted}.", "Is that the price of one unit of these goods, in their condition?", one.line
        )
    rest = ", and the others only in part" if one.in_part else ""
    return Caution(
        f"{said} It was not counted{rest}.",
        "Is that one unit, with the point in its place? If it is right, give a second sale at about that price.",
        one.line,
    )


def _apart(one: PriceDoubt, currency: str) -> Caution:
    low, high = in_words(one.prices[0], currency), in_words(one.prices[-1], currency)
    return Caution(
        f"The prices you typed for line {one.line} run from {low} to {high}. All were counted.",
        "Are they all of one unit, of the same goods in the same condition?",
        one.line,
    )
