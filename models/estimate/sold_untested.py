"""What did goods fetch that the seller sold as untested, against working ones?

A lot to value is taken to be tested before it is listed; who sells such goods as they came gets this share instead.
"""

from dataclasses import dataclass

import numpy as np

from models.estimate.lot_states import condition_levels
from models.estimate.own_comps import OwnComps
from models.estimate.price_model import PriceModel
from models.values.conditions import Condition, code_of


@dataclass(frozen=True)
class SoldUntested:
    """Own sales made as untested."""

    sales: int  # sold rows
    share: float  # median price over that of a working one, all else equal; declared where there are none


def sold_untested(model: PriceModel, comps: OwnComps | None) -> SoldUntested:
    """Read off the fitted prices.

    Parameters
    ----------
    model : PriceModel
        Fitted prices.
    comps : OwnComps or None
        Own sales as they were made, None where they were not kept.

    Returns
    -------
    SoldUntested
        Unit free.

    Examples
    --------
    >>> from models.estimate.fit.prices import fit_prices
    >>> from models.estimate.products import build_book
    >>> from models.values.sales import Sales
    >>> sales = Sales.blank(0)
    >>> book, product = build_book(sales.title, sales.sku, sales.gtin)
    >>> found = sold_untested(fit_prices(sales, book, product, np.datetime64("2026-07-01"), "USD"), None)
    >>> found.sales, round(found.share, 2)
    (0, 0.74)
    """
    level, untested = condition_levels(model), code_of(Condition.UNTESTED)
    sales = 0 if comps is None else int((comps.condition == untested).sum())
    return SoldUntested(sales, float(np.exp(level[untested] - level[code_of(Condition.WORKS)])))
