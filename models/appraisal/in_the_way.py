"""What keeps a lot from a bid?  Each rule and the room by themselves; one told change may not be enough."""

from collections.abc import Mapping
from typing import Any

from models.decide.ceiling import Ceiling
from models.decide.rules import RULES
from models.decide.terms import round_down_to_step
from models.values.money import floor_minor
from models.values.problems import Caution
from models.values.settings import Settings

ROOM = "room"
_WORDS = {
    "expected_return": "the return after pay that you ask for",
    "confidence": "how sure you want to be of your cash",
    "loss_limit": "your loss limit",
    "cash_limit": "your cash limit",
    ROOM: "the room in your backlog",
}


def in_the_way(ceiling: Ceiling, settings: Settings) -> list[str]:
    """Rules whose own highest bid is below the first bid that could be made, and the room; none on a bid."""
    if ceiling.verdict == "bid":
        return []
    least, step = settings.lot.current_bid or 0.0, settings.buying.bid_step
    reached = {
        rule: float(floor_minor(round_down_to_step(bid, step)))
        for rule in RULES
        if (bid := ceiling.by_rule[rule]) is not None
    }
    rules = [rule for rule, bid in reached.items() if bid <= 0 or bid < least]
    return rules if ceiling.room.holds else [*rules, ROOM]


def way_cautions(told: Mapping[str, Any]) -> list[dict[str, Any]]:
    """One caution where no single change would do; `told` is the answer's bid_ceiling."""
    ways = [_WORDS[name] for name in told["in_the_way"]]
    if not ways or told["what_would_change"]:
        return []
    named = ways[0] if len(ways) == 1 else f"{', '.join(ways[:-1])} and {ways[-1]}"
    stand = "stands" if len(ways) == 1 else "stand"
    one = Caution(
        f"No single change would turn this pass into a bid: {named} {stand} in the way.",
        "Leave this lot, or try several changes at once.",
    )
    return [{"what": one.what, "check": one.check}]
