"""What must a seller be told of a lot's tags and of what its prices rest on?  In their words, with the line."""

import numpy as np

from models.estimate.lot_tag_use import LOT_APART, far_from_own, own_tag
from models.estimate.lot_tags import LotTags
from models.estimate.price_model import PriceModel
from models.values.arrays import FloatArray
from models.values.lines import Lines
from models.values.money import in_words
from models.values.problems import Caution

_IGNORED = "Look at the goods or ask the seller of the lot; the tag was not believed."


def lot_cautions(lines: Lines, tags: LotTags, model: PriceModel) -> tuple[Caution, ...]:
    """Cautions about the lot's tags, those of the whole lot first."""
    if not model.tagged:
        return (*_untagged_history(lines, tags), *_impossible(lines, tags, model.currency))
    own = own_tag(tags, model)
    return (
        *_whole_lot(lines, tags, own),
        *_impossible(lines, tags, model.currency),
        *_unlikely(lines, tags, model.currency),
        *_against_own(lines, tags, own, model.currency),
    )


def _whole_lot(lines: Lines, tags: LotTags, own: FloatArray) -> list[Caution]:
    if not np.any(tags.believable):
        return []
    checked, factor = tags.factor.checked, tags.factor.mean
    if not checked:
        if np.any(tags.remembered >= 0):
            return [Caution("No tag of this lot can be checked against your own sales.", "Look up the dearest lines.")]
        what = "Nothing in this lot was sold before: its tags cannot be checked."
        return [Caution(what, "Look up sold prices of the dearest lines before you bid.")]
    if abs(factor) < LOT_APART:
        return []
    times = np.exp(abs(factor))
    way = "high" if factor > 0 else "low"
    products = "product" if checked == 1 else "products"
    what = f"These tags look {times:.1f} times too {way} ({checked} known {products})."
    return [Caution(what, "Prices were reckoned from tags corrected by that much.")]


def _impossible(lines: Lines, tags: LotTags, currency: str) -> list[Caution]:
    lines_at = np.flatnonzero(~np.isnan(lines.tag_each) & ~tags.believable)
    return [
        Caution(
            f"Tag ignored: {in_words(lines.tag_each[at], currency)} cannot be a price tag.", _IGNORED, int(lines.no[at])
        )
        for at in lines_at
    ]


def _unlikely(lines: Lines, tags: LotTags, currency: str) -> list[Caution]:
    asked = tags.believable & ~np.isnan(tags.good)
    return [_ignored(lines, tags, int(at), currency) for at in np.flatnonzero(asked & ((tags.good < 0.5) | tags.stray))]


def _ignored(lines: Lines, tags: LotTags, at: int, currency: str) -> Caution:
    low, high = in_words(tags.low[at], currency), in_words(tags.high[at], currency)
    against = f"{low} to {high} for such goods"
    if tags.stray[at]:
        against = f"{in_words(tags.agreed[at], currency)} on other lines of the same goods"
    what = f"Tag ignored: {in_words(lines.tag_each[at], currency)} against {against}."
    return Caution(what, _IGNORED, int(lines.no[at]))


def _against_own(lines: Lines, tags: LotTags, own: FloatArray, currency: str) -> list[Caution]:
    return [
        Caution(
            f"Tag ignored: {in_words(lines.tag_each[at], currency)} against {in_words(own[at], currency)}"
            " on your own sales.",
            _IGNORED,
            int(lines.no[at]),
        )
        for at in np.flatnonzero(far_from_own(lines, tags, own))
    ]


def _untagged_history(lines: Lines, tags: LotTags) -> list[Caution]:
    if not np.any(~np.isnan(lines.tag_each)):
        return []
    what = "Your history has no tags to compare with, or too few: the tags of this lot were not used."
    return [Caution(what, "Add the column of tags to your sold history, if you have it, and more sales with one.")]
