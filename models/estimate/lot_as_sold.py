"""How is a line of a product read that the shop has sold?  In the words of its own sales, whatever the manifest writes.

Their effects were learned with its own sales: other words on the line would count them twice or not at all.
"""

from dataclasses import replace

import numpy as np

from models.estimate.price_model import PriceModel
from models.estimate.products import Matched
from models.values.arrays import IntArray
from models.values.lines import Lines


def own_product(lines: Lines, matched: Matched, model: PriceModel) -> IntArray:
    """The product of each line that the shop has sold, -1 for none; shape (n_lines,).

    An assorted line is many goods and never one product.

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.arrays import texts
    >>> from models.values.sales import Sales
    >>> sales = replace(Sales.blank(1), title=texts(["mug"]), sold_price=np.array([500.0]))
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> lines = replace(Lines.blank(2), description=texts(["Mug", "plate"]))
    >>> own_product(lines, match(book, lines.description, lines.sku, lines.gtin), model).tolist()
    [0, -1]
    """
    sales = model.products.sales
    if not len(sales):
        return np.full(len(lines), -1, dtype=np.int64)
    at = np.minimum(matched.product, len(sales) - 1)
    return np.where(matched.known & ~lines.assorted & (sales[at] > 0), at, -1)


def as_sold(lines: Lines, matched: Matched, model: PriceModel) -> Lines:
    """The same lines, those of known products in the words of their own sales.

    Parameters
    ----------
    lines : Lines
        The manifest.
    matched : Matched
        Product of each line, from the model's own book.
    model : PriceModel
        Fitted prices.

    Returns
    -------
    Lines
        Description, brand and category replaced where the product has been sold; everything else as it was.

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book, match
    >>> from models.values.arrays import texts
    >>> from models.values.sales import Sales
    >>> sales = replace(Sales.blank(1), title=texts(["mug"]), brand=texts(["Acme"]), sold_price=np.array([500.0]))
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> lines = replace(Lines.blank(2), description=texts(["Mug", "plate"]))
    >>> as_sold(lines, match(book, lines.description, lines.sku, lines.gtin), model).brand.tolist()
    ['Acme', '']
    """
    kinds, own = model.products.kinds, own_product(lines, matched, model)
    of = np.where(own >= 0, kinds.of[own], -1) if len(kinds.of) else own
    line = np.flatnonzero(of >= 0)
    if not len(line):
        return lines
    description, brand, category = lines.description.copy(), lines.brand.copy(), lines.category.copy()
    description[line] = kinds.title[own[line]]
    brand[line], category[line] = kinds.brand[of[line]], kinds.category[of[line]]
    return replace(lines, description=description, brand=brand, category=category)
