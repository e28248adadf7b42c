"""LightGBM as one more way of pricing a seller's own listings, fitted anew on every day of a backtest."""

import numpy as np

from models.appraisal.backtest.baselines import Predict, PriceTold
from models.bench.baselines.boosted import lightgbm_trees
from models.bench.baselines.inputs import of_sales
from models.values.sales import Sales


def boosted_trees(sold: Sales, cut_off: np.datetime64, currency: str) -> Predict:
    """Trees on the sales known that day."""
    fitted = lightgbm_trees(of_sales(sold, cut_off), np.log(sold.sold_price))

    def predict(asked: Sales) -> PriceTold:
        return PriceTold(fitted.predict(of_sales(asked, cut_off)), fitted.smearing)

    return predict
