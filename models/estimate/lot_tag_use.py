"""What became of each line's tag?  Used, set aside for the product's own, not believed, or not needed."""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from models.estimate.declared_prices import not_believed
from models.estimate.lot_tags import LotTags
from models.estimate.price_model import PriceModel
from models.values.arrays import BoolArray, CodeArray, FloatArray
from models.values.lines import Lines

APART = np.log(2.0)  # a known product's tag that is off by more than this is told as not believed
LOT_APART = np.log(1.25)  # a factor on all tags of a lot beyond this is told of the lot


class TagFate(IntEnum):
    """Of a line's tag."""

    NONE = 0  # the manifest gives none
    USED = 1  # the price was read from it
    AGREES = 2  # the tag on own sales was used, and this one agrees with it
    REPLACED = 3  # the tag on own sales was used instead: this one is far off
    IGNORED = 4  # not believed
    NOT_NEEDED = 5  # own sales, made without a tag, say what the product fetches
    NOT_COMPARED = 6  # the history has no tags to compare with


FOLLOWED = (TagFate.NONE, TagFate.USED, TagFate.AGREES)


@dataclass(frozen=True)
class TagUse:
    """Arrays of shape (n_lines,)."""

    used: FloatArray  # the tag each line was priced by [minor units], NaN none
    own: FloatArray  # median tag of the product's own rows [minor units], NaN none
    fate: CodeArray  # `TagFate` of the manifest's tag


def tag_use(lines: Lines, tags: LotTags, model: PriceModel) -> TagUse:
    """Of every line: its product's own tag before the manifest's, the manifest's where it is believed."""
    believed = tags.believable & (np.nan_to_num(tags.good) >= 0.5) & ~tags.stray
    own, remembered = own_tag(tags, model), tags.remembered >= 0
    fates = [
        (np.isnan(lines.tag_each), TagFate.NONE),
        (~tags.believable, TagFate.IGNORED),
        (np.full(len(lines), not model.tagged), TagFate.NOT_COMPARED),
        (remembered & np.isnan(own), TagFate.NOT_NEEDED),
        (np.abs(_apart(lines, tags, own)) > APART, TagFate.REPLACED),
        (remembered, TagFate.AGREES),
        (believed, TagFate.USED),
    ]
    fate = np.select([case for case, _ in fates], [int(fate) for _, fate in fates], int(TagFate.IGNORED))
    claimed = np.where(believed, lines.tag_each, np.nan)
    return TagUse(np.where(remembered, own, claimed), own, fate.astype(np.int8))


def declared_use(lines: Lines, tag: FloatArray) -> TagUse:
    """Without a fitted model `tag` is what the manifest's own lines agree on.

    Examples
    --------
    >>> declared_use(Lines.blank(1), np.array([np.nan])).fate.tolist() == [TagFate.NONE]
    True
    """
    fate = np.where(not_believed(lines, tag), TagFate.IGNORED, TagFate.USED)
    fate = np.where(np.isnan(lines.tag_each), TagFate.NONE, fate)
    return TagUse(tag, np.full(len(lines), np.nan), fate.astype(np.int8))


def own_tag(tags: LotTags, model: PriceModel) -> FloatArray:
    """Median tag of each line's own product [minor units], NaN where there is none; shape (n_lines,)."""
    if not len(model.products.own_tag):
        return np.full(len(tags.remembered), np.nan)
    return np.where(tags.remembered >= 0, model.products.own_tag[tags.remembered], np.nan)


def far_from_own(lines: Lines, tags: LotTags, own: FloatArray) -> BoolArray:
    """Lines whose tag is more than twice or less than half their product's own, beside a factor told of the lot."""
    apart, factor = _apart(lines, tags, own), tags.factor.mean
    told = factor if abs(factor) >= LOT_APART else 0.0
    return np.asarray((np.abs(apart) > APART) & (np.abs(apart - told) > APART), dtype=np.bool_)


def _apart(lines: Lines, tags: LotTags, own: FloatArray) -> FloatArray:
    """Ln of each line's tag over its product's own, 0 where either is not there to compare."""
    known = tags.believable & (tags.remembered >= 0) & ~np.isnan(own)
    return np.log(np.where(known, lines.tag_each, 1.0)) - np.log(np.where(known, own, 1.0))
