"""Fit and price in one line, for tests of prices."""

from dataclasses import fields

import numpy as np

from models.estimate.fit.prices import fit_prices
from models.estimate.lot_prices import LotPrices, price_lot
from models.estimate.price_model import PriceModel
from models.estimate.products import ProductBook, build_book, match
from models.values.lines import Lines
from models.values.sales import Sales

FAR = np.datetime64("2100-01-01")


def fit(sales: Sales, currency: str = "USD") -> tuple[ProductBook, PriceModel]:
    """Book and prices of a whole history."""
    book, product = build_book(sales.title, sales.sku, sales.gtin)
    return book, fit_prices(sales, book, product, FAR, currency)


def priced(shop: tuple[ProductBook, PriceModel], lines: Lines, ahead: float = 30.0) -> LotPrices:
    """A lot priced so many days after the last known sale."""
    book, model = shop
    found = match(book, lines.description, lines.sku, lines.gtin)
    return price_lot(lines, found, model, np.full(len(lines), ahead))


def both(first, second):
    """Two tables of one kind, one after the other."""
    joined = {one.name: np.concatenate([getattr(first, one.name), getattr(second, one.name)]) for one in fields(first)}
    return type(first)(**joined)
