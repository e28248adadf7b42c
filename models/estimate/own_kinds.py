"""What is a product that the shop has sold?  What its own sales called it, in the file's own words, as plain arrays."""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import IntArray, TextArray, texts


@dataclass(frozen=True)
class OwnKinds:
    """What most sold rows of each product said; brand and category stand in a table that products share."""

    of: IntArray  # (n_products,) row of the table, -1 never sold, or kept before kinds were
    title: TextArray  # (n_products,) "" never sold
    brand: TextArray  # (n_kinds,) as the file has it
    category: TextArray  # (n_kinds,) as the file has it


def no_kinds(n_products: int) -> OwnKinds:
    """Nothing is known of any product.

    Examples
    --------
    >>> no_kinds(2).of.tolist()
    [-1, -1]
    """
    return OwnKinds(np.full(n_products, -1, dtype=np.int64), texts([""] * n_products), texts([]), texts([]))
