"""What is the pace of a lot?  Its products, their units, own stock and gamma rates, with what their errors share."""

from dataclasses import dataclass, replace

import numpy as np
from scipy.special import roots_hermitenorm

from models.estimate.tempo_levels import counted
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray, texts
from models.values.problems import Caution

SHARED = ("shop", "top", "sub", "brand", "condition", "price")  # levels whose error all their goods share
NODES, WEIGHTS = roots_hermitenorm(5)  # points of a standard normal (Gauss and Hermite)
POINTS = (NODES, WEIGHTS / WEIGHTS.sum())
EXACT = 9  # decimals of ln mu: the sum over a product's lines must not depend on their order


@dataclass(frozen=True)
class LotTempo:
    """Pace of a lot's products: n lines, P products (an assorted line stands apart from sound lines of its name)."""

    product: IntArray  # (n,), 0 .. P - 1
    quantity: FloatArray  # (n,), units
    name: TextArray  # (P,), key of the product's random stream
    units: FloatArray  # (P,), units in the lot
    stock: FloatArray  # (P,), own unsold units, which sell first
    ln_mu: FloatArray  # (P,), ln of the sales a day its kind expects
    prior_shape: FloatArray  # (P,), a of the frailty
    sales: FloatArray  # (P,), d: own sales
    expected: FloatArray  # (P,), H: own sales its kind expected in its stock-days
    shared_key: TextArray  # (P, 6), names of its levels as SHARED has them
    shared_sd: FloatArray  # (P, 6), sd of ln mu that all goods of that name share; below 0: the other way round
    apart: BoolArray  # (P,), assorted: every unit is a product of its own
    month_effect: FloatArray  # (12,), ln factor of each month, January first
    cautions: tuple[Caution, ...]

    @property
    def mean_rate(self) -> FloatArray:
        """Expected sales a day of each product, shape (P,)."""
        return np.asarray(np.exp(self.ln_mu) * (self.prior_shape + self.sales) / (self.prior_shape + self.expected))

    def gamma_at(self, factor: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Gamma(shape, rate [days]) of each product's sales a day, given the factor its kind shares, both (P,)."""
        rate = (self.prior_shape + self.expected * factor) / (np.exp(self.ln_mu) * factor)
        return self.prior_shape + self.sales, np.asarray(rate)


def gamma_pace(product: IntArray, quantity: FloatArray, stock: FloatArray, shape: float, rate: float) -> LotTempo:
    """Pace of goods of which nothing is known but one gamma rate for each product.

    Parameters
    ----------
    product : ndarray of shape (n_lines,)
        0 .. P - 1.
    quantity : ndarray of shape (n_lines,)
        Units.
    stock : ndarray of shape (P,)
        Own units, which sell first.
    shape, rate : float
        Of the gamma [1, days].

    Returns
    -------
    LotTempo

    Examples
    --------
    >>> lot = gamma_pace(np.array([0, 0, 1]), np.array([1.0, 2.0, 5.0]), np.zeros(2), 1.5, 90.0)
    >>> lot.units, lot.mean_rate.round(4)
    (array([3., 5.]), array([0.0167, 0.0167]))
    """
    n = len(stock)
    nothing, keys = np.zeros(n), np.full((n, len(SHARED)), "", dtype=object)
    return LotTempo(
        product=product, quantity=quantity, name=texts([str(p) for p in range(n)]), units=counted(product, quantity, n),
        stock=stock, ln_mu=np.full(n, np.log(shape / rate)), prior_shape=np.full(n, shape), sales=nothing,
        expected=nothing, shared_key=keys, shared_sd=np.zeros((n, len(SHARED))), apart=np.zeros(n, dtype=bool),
        month_effect=np.zeros(12), cautions=(),
    )  # fmt: skip


def of_one_lot(lot: LotTempo, lot_key: str) -> LotTempo:
    """The same pace, the assorted lines drawn by streams of this lot's own.

    Parameters
    ----------
    lot : LotTempo
        Pace of the lot.
    lot_key : str
        What tells this lot from others that are drawn together with it.

    Returns
    -------
    LotTempo
        A product's name stays: its buyers are the same ones in every lot.  Assorted goods of one name are other goods.

    Examples
    --------
    >>> lot = gamma_pace(np.array([0, 1]), np.ones(2), np.zeros(2), 1.5, 90.0)
    >>> of_one_lot(replace(lot, apart=np.array([False, True])), "k").name.tolist()
    ['0', '1\\x1fk']
    """
    names = [f"{name}\x1f{lot_key}" if alone else name for name, alone in zip(lot.name, lot.apart, strict=True)]
    return replace(lot, name=texts(names))


def product_window(lot: LotTempo, window_days: FloatArray) -> FloatArray:
    """Longest window of each product's lines, not below zero, shape (P,) [days]."""
    days = np.zeros(len(lot.units))
    np.maximum.at(days, lot.product, window_days)
    return days
