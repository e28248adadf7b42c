"""How are a backtest's figures written?  One rounding for all of them, so that no two sentences differ."""

import datetime as dt
import math
from collections.abc import Iterable


def within(ratio: float) -> str:
    """The same figure that is told as too high or too low, and never nothing."""
    return f"{max(1, points(abs(ratio - 1.0)))}%"


def points(share: float) -> int:
    """Whole percent, half up: one rounding for every figure, so that no two sentences differ."""
    return math.floor(round(share * 100, 6) + 0.5)


def counted(number: float, word: str) -> str:
    """1 lot, 2 lots."""
    written = f"{number:,.0f}"
    return f"{written} {word if written == '1' else word + 's'}"


def sentence(text: str) -> str:
    """With a capital."""
    return text[:1].upper() + text[1:]


def day_words(written: str) -> str:
    """2026-07-01 as 1 Jul 2026."""
    date = dt.date.fromisoformat(written)
    return f"{date.day} {date:%b %Y}"


def off_words(ratio: float) -> str:
    """How many hours too many or too few."""
    if points(abs(ratio - 1.0)) == 0:
        return "as good as even"
    return f"{percent(abs(ratio - 1.0))} too {'many' if ratio > 1 else 'few'}"


def percent(share: float) -> str:
    """A share as whole percent."""
    return f"{points(share)}%"


def finely(share: float) -> str:
    """A share as percent with one decimal."""
    return f"{share:.1%}".replace(".0%", "%")


def tenths(share: float) -> str:
    """A share as so many in 10."""
    return f"{share * 10:.1f}".removesuffix(".0")


def in_a_row(texts: Iterable[str]) -> str:
    """a, b and c."""
    *first, last = texts
    return f"{', '.join(first)} and {last}"
