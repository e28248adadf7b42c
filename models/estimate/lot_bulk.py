"""What is a piece of a bulk lot expected to fetch against a single find?  As the history taught, by top category."""

import numpy as np

from models.estimate.blocks import level_columns
from models.estimate.price_model import BULK_OFFSET, PriceModel
from models.values.arrays import FloatArray, TextArray


def bulk_factor(model: PriceModel, top: TextArray) -> FloatArray:
    """Median price of a bulk piece over that of a single find, all else equal.

    Parameters
    ----------
    model : PriceModel
        Fitted prices.
    top : ndarray of shape (n_lines,)
        Top category of each line, as the regression spells it.

    Returns
    -------
    ndarray of shape (n_lines,)
        Unit free; what is declared where the history has not both.

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book
    >>> from models.values.arrays import texts
    >>> from models.values.sales import Sales
    >>> sales = Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> model = fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD")
    >>> bulk_factor(model, texts(["home"])).round(2).tolist()
    [0.68]
    """
    layout, mean = model.posterior.layout, model.posterior.mean
    at = level_columns(layout, "base", ["bulk"])[0]
    names = sorted(set(top.tolist()))
    column = level_columns(layout, "bulk by top", names)
    own = {name: float(mean[where]) for name, where in zip(names, column.tolist(), strict=True) if where >= 0}
    shared = BULK_OFFSET + (float(mean[at]) if at >= 0 else 0.0)
    return np.asarray(np.exp([shared + own.get(name, 0.0) for name in top.tolist()]), dtype=np.float64)
