"""How well do a column's cells speak for what it may be?  Log-odds to be added to what its header says.

The weights are rules of thumb, common practice, no source; tests hold what they decide, not their size.
"""

from collections.abc import Callable, Mapping

from models.intake.cells.quantities import counts_by
from models.intake.cells.state_words import is_answer_word
from models.intake.columns.glances import Glance

NEVER = -9.0  # outweighs every header but a canonical name
_AGAINST = -4.0
_HALF, _MOST = 0.5, 0.8
_MANY_WORDS = 4.0


def content_fit(column: str, seen: Glance) -> float:
    """What the cells add for a column; 0 where there are none, or where any cell would do.

    Parameters
    ----------
    column : str
        Canonical column.
    seen : Glance
        What its cells look like.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> content_fit("condition", glance(["New", "Used", "New"])) > 0 > content_fit("condition", glance(["TX", "NY"]))
    True
    """
    rule = _RULES.get(column)
    return rule(seen) if rule is not None and seen.filled else 0.0


def says_answers_only(column: str, seen: Glance) -> bool:
    """True where a column of money would hold nothing but yes and no: whatever it is called, it has no amount.

    Examples
    --------
    >>> from models.intake.columns.glances import glance
    >>> says_answers_only("refunded", glance(["Yes", "", "No"])), says_answers_only("refunded", glance(["No", "5"]))
    (True, False)
    """
    filled = [text for text in seen.texts if text.strip()] if column in MONEY_COLUMNS else []
    return bool(filled) and all(map(is_answer_word, filled))


def _goods(seen: Glance) -> float:
    if seen.text < _HALF or max(seen.link, seen.region, seen.date) > _HALF:
        return NEVER
    fit = 0.5 * min(seen.words, _MANY_WORDS) + 0.5 * (seen.distinct > _HALF) + seen.filled / max(len(seen.texts), 1)
    return fit + (_AGAINST if max(seen.condition, seen.state) > _MOST and seen.distinct < _HALF else 0.0)


def _maker(seen: Glance) -> float:
    if seen.text < _HALF or max(seen.link, seen.region) > _HALF:
        return NEVER
    return 0.5 * (seen.words < _MANY_WORDS) + (_AGAINST if max(seen.condition, seen.state) > _MOST else 0.0)


def _group(seen: Glance) -> float:
    if max(seen.link, seen.region, seen.date) > _HALF or seen.condition > _MOST:
        return _AGAINST
    return 0.5 * (seen.distinct < _HALF)


def _condition(seen: Glance) -> float:
    if seen.region > _HALF and seen.region >= seen.condition:
        return NEVER
    return 5.0 * seen.condition - 1.0


def _units(seen: Glance) -> float:
    if seen.number < _HALF or max(seen.gtin, seen.date, seen.cents) > _HALF:
        return NEVER
    return 2.0 * seen.units - 1.5 * seen.rising


def _count(seen: Glance) -> float:
    """Units that sold or are left: whole and rarely many."""
    return NEVER if seen.number < _HALF or max(seen.date, seen.cents) > _HALF else 1.0 - 1.5 * seen.rising


def _money(seen: Glance) -> float:
    if seen.number < _HALF or max(seen.gtin, seen.date) > _HALF:
        return NEVER
    return 0.5 + seen.cents - 3.0 * seen.rising


def _gtin(seen: Glance) -> float:
    return 6.0 * seen.gtin - 0.5 + (_AGAINST - 2.0 if seen.date > _HALF else 0.0)  # some days pass as numbers


def _day(seen: Glance) -> float:
    return NEVER if seen.date < _HALF else 2.0


def _code(seen: Glance) -> float:
    return _AGAINST if max(seen.link, seen.cents, seen.words >= _MANY_WORDS) > _HALF else 0.5 * seen.distinct


def _size(seen: Glance) -> float:
    filled = [text for text in seen.texts if text]
    return NEVER if sum(any(map(str.isdigit, text)) for text in filled) < _HALF * len(filled) else 0.0


def _measure(seen: Glance) -> float:
    """Words that a count has beside it: "EA", "CS"."""
    words = [text for text in seen.texts if text]
    return NEVER if sum(counts_by(text) for text in words) < _HALF * len(words) else 2.0


def _state(seen: Glance) -> float:
    return NEVER if seen.cents > _HALF else 5.0 * seen.state - 1.0


MONEY_COLUMNS = (
    "tag_each", "tag_line", "sold_price", "asking_price", "cost", "fees", "shipping_charged", "shipping_paid",
    "refunded",
)  # fmt: skip
_RULES: Mapping[str, Callable[[Glance], float]] = {
    "description": _goods, "title": _goods, "brand": _maker, "category": _group, "condition": _condition,
    "quantity": _units, "gtin": _gtin, "sku": _code, "listing_ref": _code, "order_ref": _code, "status": _state,
    "sold_count": _count, "listed_on": _day, "first_listed_on": _day, "sold_on": _day, "pack_size": _size,
    "counted_in": _measure,
    **dict.fromkeys((*MONEY_COLUMNS, "accepted_offer", "discount"), _money),
}  # fmt: skip
