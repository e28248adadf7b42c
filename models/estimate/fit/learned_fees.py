"""Which share of the price do fees take, and how much beside it?  Told by one amount a sale, whatever it is on."""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import BoolArray, FloatArray
from models.values.money import to_minor
from models.values.sales import Sales
from models.values.settings import REGISTRY

LEAST_ROWS = 20
BETTER = 0.95  # of the other base's misfit: price and postage together must explain fees clearly better
PRIOR_SD = (
    0.02  # of the usual price, of the fixed fee: common practice, no source; it decides where prices do not differ
)
STEPS, HUBER = 50, 1.345  # 1.345: 95% efficient where errors are normal
MAD_TO_SD = 1.4826
SLIP = 0.15  # of the price: a fee further off than this is a slip, not another fee level: common practice, no source
ROUNDING = 0.2887  # [minor units] sd of what rounding to whole units loses


@dataclass(frozen=True)
class FeeRule:
    """fees of a unit = share x what they are taken on + fixed / units of the order."""

    share: float
    fixed: float  # [minor units] an order
    on_postage: bool  # taken on price and postage charged, else on the price only


def fee_rule(sold: Sales, currency: str) -> FeeRule | None:
    """The rule that a history's fees follow.

    Parameters
    ----------
    sold : Sales
        Sold rows.
    currency : str
        ISO 4217 code of the amounts.

    Returns
    -------
    FeeRule or None
        None with fewer than 20 sales that give fees and a price.

    Notes
    -----
    Fees over what they are taken on are regressed on 1 / (units x it), by Huber's estimator, so that a sale with a
    mistyped fee tells little.  The fixed part has a weak prior at the default fixed fee (zero in other currencies than
    USD), which matters only where prices hardly differ.  Two bases are tried: the price, and price and postage charged
    together (a blank counts as none); the second is taken where it misfits clearly less.

    References
    ----------
    P. J. Huber, Robust Estimation of a Location Parameter, Ann. Math. Statist. 35 (1964), doi:10.1214/aoms/1177703732

    Examples
    --------
    >>> from dataclasses import replace
    >>> price = np.linspace(500.0, 9000.0, 40)
    >>> charged = np.where(np.arange(40) % 2 == 0, 595.0, 0.0)
    >>> fees = np.rint(0.125 * (price + charged) + 30.0)
    >>> rule = fee_rule(replace(Sales.blank(40), sold_price=price, shipping_charged=charged, fees=fees), "USD")
    >>> round(rule.share, 3), round(rule.fixed), rule.on_postage
    (0.125, 30, True)
    """
    told = sold.take(telling(sold))
    if len(told) < LEAST_ROWS:
        return None
    plain, plain_misfit = _fitted(told, told.sold_price, currency)
    base = told.sold_price + np.nan_to_num(told.shipping_charged)
    share, misfit = _fitted(told, base, currency)
    if misfit < BETTER * plain_misfit:
        return FeeRule(*share, on_postage=True)
    return FeeRule(*plain, on_postage=False)


def telling(sold: Sales) -> BoolArray:
    """Rows whose fees can be compared with their price, shape (n_rows,), bool."""
    told: BoolArray = np.isfinite(sold.fees) & (sold.fees >= 0) & (sold.sold_price > 0)
    return told


def taken_on(sold: Sales, rule: FeeRule) -> FloatArray:
    """What fees are a share of, shape (n_rows,) [minor units a unit]."""
    return sold.sold_price + (np.nan_to_num(sold.shipping_charged) if rule.on_postage else 0.0)


def believed_fees(sold: Sales, rule: FeeRule) -> FloatArray:
    """Fees of a unit, shape (n_rows,) [minor units], cut where no fee level explains them; NaN where nothing is told.

    Examples
    --------
    >>> from dataclasses import replace
    >>> sales = replace(Sales.blank(3), sold_price=np.full(3, 1000.0), fees=np.array([130.0, 80.0, 13000.0]))
    >>> believed_fees(sales, FeeRule(share=0.1, fixed=30.0, on_postage=False)).tolist()
    [130.0, 80.0, 280.0]
    """
    base = taken_on(sold, rule)
    expected = rule.share * base + rule.fixed / sold.quantity
    return np.where(telling(sold), np.clip(sold.fees, expected - SLIP * base, expected + SLIP * base), np.nan)


def _fitted(told: Sales, base: FloatArray, currency: str) -> tuple[tuple[float, float], float]:
    """Share and fixed fee, and the misfit in money, cut where it is far out."""
    usual = float(np.median(base))
    default = to_minor(REGISTRY["selling.fixed_fee"].default, currency) if currency == "USD" else 0.0
    ratio, per_order = told.fees / base, 1.0 / (told.quantity * base)
    share, fixed = float(np.median(ratio - default * per_order)), default
    for _ in range(STEPS):
        miss = ratio - share - fixed * per_order
        scale = max(MAD_TO_SD * float(np.median(np.abs(miss))), ROUNDING / usual)
        weight = np.minimum(1.0, HUBER * scale / np.maximum(np.abs(miss), 1e-300)) / scale**2
        share, fixed = _solved(ratio, per_order, weight, default, PRIOR_SD * usual)
    miss = np.abs(told.fees - share * base - fixed / told.quantity)
    return (share, fixed), float(np.minimum(miss, np.quantile(miss, 0.99)).sum())


def _solved(
    ratio: FloatArray, per_order: FloatArray, weight: FloatArray, default: float, prior_sd: float
) -> tuple[float, float]:
    """Weighted least squares under the prior on the fixed part; neither part below zero."""
    a, b = weight.sum(), (weight * per_order).sum()
    c = (weight * per_order**2).sum() + prior_sd**-2
    p, q = (weight * ratio).sum(), (weight * ratio * per_order).sum() + default * prior_sd**-2
    fixed = max(0.0, float((a * q - b * p) / (a * c - b * b)))
    return float(np.clip((p - b * fixed) / a, 0.0, 1.0)), fixed
