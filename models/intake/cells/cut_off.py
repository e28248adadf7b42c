"""Are descriptions cut off?  Many that end at the same length, or with dots: what told goods apart may be gone.

Common practice, no source.
"""

from collections import Counter
from collections.abc import Iterable, Sequence

from models.values.problems import Caution

_DOTS = ("...", "…")
_FEWEST = 4  # different descriptions
_SHARE = 0.03  # of all different ones
_SAMPLE = 4000
_SHORTEST = 15  # characters; short names share their lengths anyway
_NEAR = 5  # lengths below the longest that it is compared with
_TIMES = 3  # as many as at each of those


def cut_off_cautions(descriptions: Sequence[str]) -> tuple[Caution, ...]:
    """A caution where descriptions seem to have lost their ends.

    Parameters
    ----------
    descriptions : sequence of str
        Of the kept lines, as they read.

    Examples
    --------
    >>> goods = [f"{colour} stretch denim jean, straight leg, size 12"[:38] for colour in "ABCDEFGH"]
    >>> cut_off_cautions([*goods, "Mug"])[0].what
    '8 different descriptions end at 38 characters or with dots: their ends may be missing.'
    >>> cut_off_cautions(["Mug", "Desk lamp", "Jug"])
    ()
    """
    if not _may_be_cut(descriptions):
        return ()
    different = dict.fromkeys(descriptions)
    lengths = Counter(map(len, different))
    longest = max(lengths, default=0)
    near = max((lengths[longest - less] for less in range(1, _NEAR + 1)), default=0)
    cut = longest >= _SHORTEST and lengths[longest] > _TIMES * near
    ends = longest if cut else -1
    dotted = [text for text in different if text.endswith(_DOTS)] if _may_end_with_dots(different) else []
    told = lengths[ends] + sum(1 for text in dotted if len(text) != ends)
    if told < max(_FEWEST, _SHARE * len(different)):
        return ()
    where = f"at {longest} characters or with dots" if cut else "with dots"
    return (
        Caution(
            f"{told} different descriptions end {where}: their ends may be missing.",
            "Goods that differ only in what is missing are taken for one; ask for the whole list, or look at the SKU.",
        ),
    )


def _may_be_cut(descriptions: Sequence[str]) -> bool:
    """False where too few end so even if each were counted: telling thousands apart takes long."""
    lengths = Counter(map(len, descriptions))
    at_end = lengths[max(lengths, default=0)]
    fewest = max(_FEWEST, _SHARE * len(set(descriptions[:_SAMPLE])))
    return at_end >= fewest or _may_end_with_dots(descriptions)


def _may_end_with_dots(texts: Iterable[str]) -> bool:
    lines = "\n".join((*texts, ""))
    return any(f"{dots}\n" in lines for dots in _DOTS)
