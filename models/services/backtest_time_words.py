"""What does a backtest say of how soon things sold, told against happened?"""

from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final

from models.services.backtest_figures import finely, percent, sentence

Document = Mapping[str, Any]
Amount = Callable[[str], str]

NEAR_SHARE: Final = 0.05  # of units sold in time, expected against happened
FAR_SHARE: Final = 0.15


def soon_words(backtest: Document, amount: Amount) -> str:
    """How soon things sold, or why that is not judged."""
    return backtest.get("time_why") or _soon(backtest["time"], amount)


def _soon(time: Document | None, amount: Amount) -> str:
    if time is None:
        return (
            "It cannot be tested how soon things sell: your history does not show what did not sell, or when things"
            " were listed."
        )
    said = [
        f"within {one['days']} days of listing {percent(one['happened'])} of {one['units']:,} units had sold"
        f" (expected {percent(one['told'])})"
        for one in time["within"]
    ]
    text = f"{'; '.join(said)}. {_in_time(time['within'])}"
    half = time["half_sold_days"]
    if half["told"] is not None and half["happened"] is not None:
        text += f" Half had sold after {half['happened']:.0f} days (expected {half['told']:.0f})."
    text += _later(time["later_sales"])
    if time["takings"]:
        taken = time["takings"]
        text += (
            f" In the first {taken['days']} days they brought {amount(taken['happened'])} (expected"
            f" {amount(taken['told'])}), what did not sell counted as nothing."
        )
    return sentence(text)


def _in_time(within: Sequence[Document]) -> str:
    """The judgement, on the days that came out worst."""
    off = max((one["told"] - one["happened"] for one in within), key=abs)
    if abs(off) < NEAR_SHARE:
        return "That is near."
    if abs(off) < FAR_SHARE:
        return f"It expected {abs(off) * 100:.0f} in 100 too {'many' if off > 0 else 'few'}."
    if off > 0:
        return "That is far too hopeful: on your goods count on much longer waits than it tells, and bid lower."
    return "That is far too cautious: on your goods count on much shorter waits than it tells."


def _later(one: Document | None) -> str:
    """Do late sales bring less?  The forecasts hold one price for all of a lot's sales."""
    if one is None:
        return ""
    if one["low"] <= 0 <= one["high"]:
        return " Pieces that sold late brought about the same as pieces that sold soon."
    least, most = (finely(end) for end in sorted((abs(one["low"]), abs(one["high"]))))
    less = "less" if one["change"] < 0 else "more"
    return (
        f" Inside a lot, what sold {one['days']} days later brought {finely(abs(one['change']))} {less} ({least} to"
        f" {most}); forecasts do not count that."
    )
