"""How do rows of one product and one item hang together?  Both effects are integrated out, and read back afterwards.

Row r of item i of product p:  y_r = x_r theta + a_p + d_i + e_r,  a_p ~ N(0, T_p), d_i ~ N(0, t), e_r ~ N(0, 1 / w_r).
With V the variance of a_p + d_i + e, V^-1 y = W (y - E[a + d | y]): everything below is that identity (Woodbury), exact
for rows of one item that differ in date, lot or wording.
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix

from models.values.arrays import FloatArray, IntArray


@dataclass(frozen=True)
class Groups:
    """Which rows belong together."""

    item: IntArray  # (n_rows,) item of each row
    product: IntArray  # (n_items,) product of each item
    extra_var: FloatArray  # (n_products,) variance a product's effect has beside the learned one


@dataclass(frozen=True)
class Spread:
    """Variances in force in one round, and what follows from them."""

    groups: Groups
    weight: FloatArray  # (n_rows,) 1 / variance of a row's own noise
    product_var: float
    item_var: float

    @property
    def item_weight(self) -> FloatArray:
        """Sum of the row weights of each item, shape (n_items,)."""
        return np.bincount(self.groups.item, self.weight, minlength=len(self.groups.product)).astype(np.float64)

    @property
    def item_share(self) -> FloatArray:
        """How far an item's own mean is believed against its product's, shape (n_items,), 0..1."""
        scaled = self.item_weight * self.item_var
        return scaled / (1 + scaled)

    @property
    def item_information(self) -> FloatArray:
        """What an item's rows tell about its product, shape (n_items,) [1 / variance]."""
        return self.item_weight * (1 - self.item_share)

    @property
    def product_information(self) -> FloatArray:
        """What all its rows tell about a product's effect, shape (n_products,) [1 / variance]."""
        n_products = len(self.groups.extra_var)
        return np.bincount(self.groups.product, self.item_information, minlength=n_products).astype(np.float64)

    @property
    def own_share(self) -> FloatArray:
        """Share of each row's noise that its residual still shows, shape (n_rows,); its effects took the rest."""
        prior, left = self.product_prior, 1 - self.item_share
        product = prior / (1 + self.product_information * prior)
        taken = self.item_var * left + left**2 * product[self.groups.product]
        return np.asarray(1 - self.weight * taken[self.groups.item])

    @property
    def product_prior(self) -> FloatArray:
        """Prior variance of a product's effect, shape (n_products,)."""
        return self.product_var + self.groups.extra_var

    def item_rows(self, rows: csr_matrix) -> csr_matrix:
        """Weighted mean of each item's rows, shape (n_items, p)."""
        of, n_items = self.groups.item, len(self.groups.product)
        weight = self.weight / np.maximum(self.item_weight, 1e-300)[of]
        return csr_matrix((weight, (of, np.arange(len(of)))), shape=(n_items, len(of))) @ rows

    def product_rows(self, item_rows: csr_matrix) -> csr_matrix:
        """Mean of each product's items, weighted by what they tell about it, shape (n_products, p)."""
        of, n_products = self.groups.product, len(self.groups.extra_var)
        weight = self.item_information / np.maximum(self.product_information, 1e-300)[of]
        return csr_matrix((weight, (of, np.arange(len(of)))), shape=(n_products, len(of))) @ item_rows

    def effects(self, residual: FloatArray) -> tuple[FloatArray, FloatArray]:
        """Posterior means of the products' effects and of the items' deviations, given rows less their fitted part."""
        groups = self.groups
        summed = np.bincount(groups.item, self.weight * residual, minlength=len(groups.product))
        mean = summed / np.maximum(self.item_weight, 1e-300)
        pulled = np.bincount(groups.product, self.item_information * mean, minlength=len(groups.extra_var))
        prior = self.product_prior
        product = pulled * prior / (1 + self.product_information * prior)
        return product, self.item_share * (mean - product[groups.product])

    def whitened(self, outcome: FloatArray) -> FloatArray:
        """V^-1 times a vector of shape (n_rows,)."""
        product, item = self.effects(outcome)
        return self.weight * (outcome - (product[self.groups.product] + item)[self.groups.item])

    def gram(self, rows: csr_matrix) -> FloatArray:
        """X' V^-1 X, dense, shape (p, p)."""
        groups, n_items = self.groups, len(self.groups.product)
        weighted = rows.multiply(self.weight[:, None]).tocsr()
        plain = rows.T @ weighted
        every_row = (np.ones(len(groups.item)), (groups.item, np.arange(len(groups.item))))
        by_item = csr_matrix(every_row, shape=(n_items, len(groups.item))) @ weighted
        item_scale = self.item_var / (1 + self.item_weight * self.item_var)
        plain = plain - by_item.T @ by_item.multiply(item_scale[:, None])
        every_item = (1 - self.item_share, (groups.product, np.arange(n_items)))
        by_product = csr_matrix(every_item, shape=(len(groups.extra_var), n_items)) @ by_item
        prior = self.product_prior
        scale = prior / (1 + self.product_information * prior)
        found: FloatArray = (plain - by_product.T @ by_product.multiply(scale[:, None]).tocsr()).toarray()
        return found
