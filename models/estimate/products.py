"""Which rows are the same product?  Same GTIN, same SKU with the same words, or the same words: any shared key joins.

A product is the thing whatever its state; an item is a product in one condition.  Names are stable: they depend on the
keys alone, never on the order of rows, so that random streams keyed by them do not either.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from models.estimate.words import sorted_words
from models.values.arrays import BoolArray, IntArray, TextArray, texts

_GAP = "\x1f"


@dataclass(frozen=True)
class ProductBook:
    """Every key the history has seen and the product it belongs to."""

    key: TextArray  # (n_keys,) sorted, distinct
    product: IntArray  # (n_keys,) index in `name`
    name: TextArray  # (n_products,) the product's first key in sorted order

    @property
    def n_products(self) -> int:
        """Number of products."""
        return len(self.name)


@dataclass(frozen=True)
class Matched:
    """The product of each line: below `n_products` where the history knows it."""

    product: IntArray  # (n_lines,) ids from n_products on are this manifest's own
    name: TextArray  # (n_lines,) stable key of the product
    known: BoolArray  # (n_lines,)


def build_book(title: TextArray, sku: TextArray, gtin: TextArray) -> tuple[ProductBook, IntArray]:
    """Group rows into products.

    Parameters
    ----------
    title, sku, gtin : ndarray of shape (n_rows,)
        Texts, "" for blank; a GTIN is blank or valid.

    Returns
    -------
    ProductBook
        Keys and products.
    ndarray of shape (n_rows,)
        Product of each row.

    Examples
    --------
    >>> book, product = build_book(texts(["Red mug", "mug, red", "Blue mug"]), texts(["", "7", ""]), texts([""] * 3))
    >>> product.tolist(), book.n_products
    ([0, 0, 1], 2)
    """
    keys = _keys(title, sku, gtin)
    root = _joined(keys)
    known = sorted(root)
    first: dict[str, str] = {}
    for key in known:
        first.setdefault(root[key], key)
    names = sorted(first.values())
    place = {name: number for number, name in enumerate(names)}
    of_key = np.array([place[first[root[key]]] for key in known], dtype=np.int64)
    of_row = np.array([place[first[root[own[0]]]] for own in keys], dtype=np.int64)
    return ProductBook(texts(known), of_key, texts(names)), of_row


def match(book: ProductBook, title: TextArray, sku: TextArray, gtin: TextArray) -> Matched:
    """Find each line's product; lines nobody sold before are grouped among themselves.

    A line takes the product of its GTIN, else of its SKU with its words, else of its words, else that of another line
    it shares a key with.

    Parameters
    ----------
    title, sku, gtin : ndarray of shape (n_lines,)
        Texts, "" for blank.

    Examples
    --------
    >>> book, _ = build_book(texts(["Red mug"]), texts([""]), texts([""]))
    >>> found = match(book, texts(["RED mug", "plate", "Plate."]), texts([""] * 3), texts([""] * 3))
    >>> found.product.tolist(), found.known.tolist()
    ([0, 1, 1], [True, False, False])
    """
    keys = _keys(title, sku, gtin)
    seen = dict(zip(book.key.tolist(), book.product.tolist(), strict=True))
    root = _joined(keys)
    direct = [next((seen[key] for key in own if key in seen), -1) for own in keys]
    shared: dict[str, int] = {}
    for own, product in zip(keys, direct, strict=True):
        if product >= 0:
            shared[root[own[0]]] = min(product, shared.get(root[own[0]], product))
    first = _first_keys(keys, root, shared)
    new = {name: book.n_products + number for number, name in enumerate(sorted(first.values()))}
    product, name = [], []
    for own, found in zip(keys, direct, strict=True):
        found = found if found >= 0 else shared.get(root[own[0]], -1)
        name.append(book.name[found] if found >= 0 else first[root[own[0]]])
        product.append(found if found >= 0 else new[name[-1]])
    products = np.array(product, dtype=np.int64)
    return Matched(products, texts(name), products < book.n_products)


def item_name(product_name: str, condition_code: int) -> str:
    """Stable key of a product in one condition.

    Examples
    --------
    >>> item_name("w:mug red", 2) == item_name("w:mug red", 3)
    False
    """
    return f"{product_name}{_GAP}{condition_code}"


def _keys(title: TextArray, sku: TextArray, gtin: TextArray) -> list[list[str]]:
    """Keys of each row, the surest first; never none."""
    words: dict[str, str] = {}
    found = []
    for text, number, code in zip(title.tolist(), sku.tolist(), gtin.tolist(), strict=True):
        if text not in words:
            words[text] = sorted_words(text)
        own = [f"g:{code.zfill(14)}"] if code else []  # one number, whatever length it is written in
        own += [f"s:{number.strip().casefold()}{_GAP}{words[text]}"] if number.strip() else []
        own += [f"w:{words[text]}"] if words[text] else []
        found.append(own or [f"t:{text.strip().casefold()}"])
    return found


def _joined(keys: Iterable[list[str]]) -> dict[str, str]:
    """Union-find over keys that appear on one row: each key's representative."""
    parent: dict[str, str] = {}

    def top(key: str) -> str:
        while parent[key] != key:
            parent[key] = key = parent[parent[key]]
        return key

    for own in keys:
        for key in own:
            parent.setdefault(key, key)
        for key in own[1:]:
            one, other = sorted((top(own[0]), top(key)))
            parent[other] = one
    return {key: top(key) for key in parent}


def _first_keys(keys: list[list[str]], root: dict[str, str], known: dict[str, int]) -> dict[str, str]:
    """The first key, in sorted order, of each group of lines that touches no known product."""
    first: dict[str, str] = {}
    for key in sorted({key for own in keys for key in own}):
        if root[key] not in known:
            first.setdefault(root[key], key)
    return first
