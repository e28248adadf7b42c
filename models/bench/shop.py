"""The product's own price path on an invented or open history, as the appraisal walks it."""

from dataclasses import dataclass

import numpy as np

from models.bench.worlds.lots import LogNormal
from models.estimate.fit.prices import fit_prices
from models.estimate.lot_prices import LotPrices, price_lot
from models.estimate.price_model import PriceModel
from models.estimate.products import ProductBook, build_book, match
from models.values.arrays import FloatArray
from models.values.lines import Lines
from models.values.sales import Sales


@dataclass(frozen=True)
class Shop:
    """A fitted history."""

    book: ProductBook
    model: PriceModel


def fitted(sales: Sales, until: np.datetime64) -> Shop:
    """Fit prices on what is known by a day."""
    book, product = build_book(sales.title, sales.sku, sales.gtin)
    return Shop(book, fit_prices(sales, book, product, until, "USD"))


def priced(shop: Shop, lines: Lines, expected_sale: np.datetime64) -> LotPrices:
    """Price a lot whose goods are expected to sell around a day."""
    found = match(shop.book, lines.description, lines.sku, lines.gtin)
    ahead = float(expected_sale.astype("datetime64[D]").astype(np.int64)) - shop.model.last_sale
    return price_lot(lines, found, shop.model, np.full(len(lines), ahead))


def total_of(lot: LotPrices) -> LogNormal:
    """The closed form of the lot's total."""
    return LogNormal(lot.total.mean, lot.total.log_var)


def independent_total(lot: LotPrices) -> LogNormal:
    """The same lines with the same spread each, added up as if they shared nothing."""
    line: FloatArray = lot.quantity * lot.unit_price.mean
    cv2 = np.exp(lot.log_var) * (1 + np.expm1(lot.noise_var) / lot.quantity) - 1
    mean = float(line.sum())
    return LogNormal(mean, float(np.log1p(line**2 @ cv2 / mean**2)))
