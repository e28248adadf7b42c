"""What is a line's own random stream called?  By its content, so that the order of lines changes nothing."""

import hashlib

import numpy as np

from models.estimate.products import Matched, item_name
from models.values.arrays import TextArray, texts
from models.values.lines import Lines


def line_keys(lines: Lines, matched: Matched) -> TextArray:
    """One key a line; lines alike in everything are numbered among themselves.

    Returns
    -------
    ndarray of shape (n_lines,)
        Distinct texts.

    Examples
    --------
    >>> lines = Lines.blank(2)
    >>> matched = Matched(np.zeros(2, dtype=np.int64), texts(["a", "a"]), np.zeros(2, dtype=np.bool_))
    >>> first, second = line_keys(lines, matched)
    >>> first[-1], second[-1]
    ('0', '1')
    """
    seen: dict[str, int] = {}
    found = []
    columns = (
        matched.name,
        lines.condition,
        lines.quantity,
        lines.tag_each,
        lines.description,
        lines.brand,
        lines.category,
    )
    for parts in zip(*(np.asarray(column).tolist() for column in columns), strict=True):
        content = "\x1f".join(str(part) for part in parts)
        seen[content] = seen.get(content, -1) + 1
        found.append(f"{content}\x1f{seen[content]}")
    return texts(found)


def line_items(lines: Lines, matched: Matched) -> TextArray:
    """Stable key of each line's item, shape (n_lines,).

    Examples
    --------
    >>> matched = Matched(np.zeros(1, dtype=np.int64), texts(["w:mug"]), np.zeros(1, dtype=np.bool_))
    >>> line_items(Lines.blank(1), matched).tolist()
    ['w:mug\\x1f0']
    """
    keys: dict[tuple[str, int], str] = {}  # one text an item, however many lines have it
    found = []
    for item in zip(matched.name.tolist(), lines.condition.tolist(), strict=True):
        if item not in keys:
            keys[item] = item_name(*item)
        found.append(keys[item])
    return texts(found)


def lot_key(keys: TextArray) -> str:
    """A short name of the lot's whole content.

    Examples
    --------
    >>> lot_key(texts(["a", "b"])) == lot_key(texts(["b", "a"])) != lot_key(texts(["a"]))
    True
    """
    whole = hashlib.blake2b(digest_size=16)
    for key in sorted(keys.tolist()):
        whole.update(key.encode() + b"\x1e")
    return whole.hexdigest()
