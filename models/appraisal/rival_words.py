"""What does the ceiling hold for once the lot is WON?  A few sentences, worded from the bench's table of auctions.

`lotwright bench --only auctions`, full run at a confidence of .80; lots won that lost cash, rising and sealed:
.12 to .17 and .19 to .21 among as many equal rivals as told; .20 to .23 and .26 to .37 with more of them, better
informed ones or ones who do not hold back; .21 and .34 with three where none were told; .50 and .58, of few lots won,
where the others pay all that they expect.
"""

from dataclasses import dataclass
from typing import Final

from models.values.problems import Caution

_SURE = 0.95  # above it tenths are too coarse
_TRIED = "in our trials with bids meant to lose cash 1 time in 5"


@dataclass(frozen=True)
class _Trials:
    """Lots won that lost cash, in words."""

    when: str
    misjudged: str
    all_they_expect: str
    untold: str


_TRIALS: Final = {
    "rising": _Trials("If the price rises to this limit and you win", "up to 1 in 4", "about half", "about 1 in 5"),
    "sealed": _Trials("If you bid this much and win", "1 in 4 to more than 1 in 3", "more than half", "about 1 in 3"),
}


def rivals_caution(rivals: float, bidding: str, chance_of_cash_loss: float, shaded: float) -> Caution:
    """What to expect of a lot won at the ceiling, given the rivals told and the kind of auction.

    `shaded`: the share of 1 that every price is counted lower by because of them.
    """
    trials = _TRIALS[bidding]
    back = f"{trials.when}, expect your cash back {_times(1 - chance_of_cash_loss)}."
    if rivals == 0:
        return Caution(
            "This counts on no other bidder who knows these goods as you do: nothing is taken off for rivals. "
            f"{back} If there are such bidders, you mostly win the lots you overpaid for: {_TRIED}, {trials.untold} "
            "of the lots won from 3 of them did.",
            "Enter how many serious bidders you expect.",
        )
    return Caution(
        f"This counts on {_others(rivals)} these goods no better than you; every price is counted {_lower(shaded)} "
        f"lower for that. {back} If there are more, or they know more, you mostly win the lots you overpaid for: "
        f"{_TRIED}, {trials.misjudged} of the lots won did, and {trials.all_they_expect} of the few won from bidders "
        "who pay all that they expect.",
        "Enter their real number, and leave lots that others know better.",
    )


def _others(rivals: float) -> str:
    return "about 1 other bidder who knows" if rivals == 1 else f"about {rivals:g} other bidders who know"


def _lower(shaded: float) -> str:
    return f"{shaded:.0%}" if shaded >= 0.01 else "less than 1%"


def _times(chance: float) -> str:
    return "more than 19 times in 20" if chance > _SURE else f"about {10 * chance:.0f} times in 10"
