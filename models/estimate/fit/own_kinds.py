"""What did most sales of a product call it?  Its title, brand and category in the file's own words."""

from collections.abc import Iterable
from typing import Any

import numpy as np

from models.estimate.own_kinds import OwnKinds
from models.values.arrays import IntArray, texts
from models.values.sales import Sales


def own_kinds(sold: Sales, product: IntArray, n_products: int) -> OwnKinds:
    """Brand and category that most sold rows of each product share, then the title most of those rows have.

    Parameters
    ----------
    sold : Sales
        Rows that fetched a price.
    product : ndarray of shape (n_rows,)
        Product of each row.
    n_products : int
        Products of the book.

    Returns
    -------
    OwnKinds
        Whatever the order of the rows: of two as common, a filled one goes before a blank.

    Examples
    --------
    >>> from dataclasses import replace
    >>> sold = replace(Sales.blank(3), title=texts(["mug"] * 3), brand=texts(["Acme", "", "Acme"]))
    >>> found = own_kinds(sold, np.zeros(3, dtype=np.int64), 2)
    >>> found.of.tolist(), found.brand.tolist(), found.title.tolist()
    ([0, -1], ['Acme'], ['mug', ''])
    """
    kind, kind_names = _coded(zip(sold.category.tolist(), sold.brand.tolist(), strict=True))
    usual = _most_common(product, kind, kind_names, n_products)
    rows = np.flatnonzero(kind == usual[product])
    title, title_names = _coded(sold.title[rows].tolist())
    titled = _most_common(product[rows], title, title_names, n_products)
    used, of = np.unique(usual[usual >= 0], return_inverse=True)
    place = np.full(n_products, -1, dtype=np.int64)
    place[usual >= 0] = of
    kinds = [kind_names[at] for at in used.tolist()]
    return OwnKinds(
        place,
        texts([title_names[at] if at >= 0 else "" for at in titled.tolist()]),
        texts([brand for _, brand in kinds]),
        texts([category for category, _ in kinds]),
    )


def _coded(values: Iterable[Any]) -> tuple[IntArray, list[Any]]:
    """A number for each distinct value, in order of appearance."""
    numbers: dict[Any, int] = {}
    code = np.array([numbers.setdefault(value, len(numbers)) for value in values], dtype=np.int64)
    return code, list(numbers)


def _most_common(product: IntArray, code: IntArray, names: list[Any], n_products: int) -> IntArray:
    """The code most rows of each product have, -1 without rows; of several the last in the alphabet."""
    rank = np.empty(len(names), dtype=np.int64)
    rank[sorted(range(len(names)), key=names.__getitem__)] = np.arange(len(names))
    pair, count = np.unique(product * max(len(names), 1) + rank[code], return_counts=True)
    of, ranked = pair // max(len(names), 1), pair % max(len(names), 1)
    order = np.lexsort((ranked, count, of))
    best = np.full(n_products, -1, dtype=np.int64)
    best[of[order]] = np.argsort(rank)[ranked[order]]  # the last one written stays: the most common
    return best
