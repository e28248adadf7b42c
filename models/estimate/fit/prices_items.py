"""How do rows of one product and one item hang together?  Both effects are integrated out, and read back afterwards.

Row r of item i of product p:  y_r = x_r theta + a_p + d_i + e_r,  a_p ~ N(0, T_p), d_i ~ N(0, t), e_r ~ N(0, 1 / w_r).
With V the variance of a_p + d_i + e, V^-1 y = W (y - E[a + d | y]): everything below is that identity (Woodbury), exact
for rows of one item that differ in date, lot or wording.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.sparse import csr_matrix, vstack

from models.values.arrays import FloatArray, IntArray


@dataclass(frozen=True)
class Groups:
    """Which rows belong together."""

    item: IntArray  # (n_rows,) item of each row
    product: IntArray  # (n_items,) product of each item
    extra_var: FloatArray  # (n_products,) variance a product's effect has beside the learned one

    @cached_property
    def rows_of_item(self) -> IntArray:
        """Rows of each item, shape (n_items,)."""
        return np.bincount(self.item, minlength=len(self.product))

    @cached_property
    def items_of_product(self) -> IntArray:
        """Items of each product, shape (n_products,)."""
        return np.bincount(self.product, minlength=len(self.extra_var))


@dataclass(frozen=True)
class Spread:
    """Variances in force in one round, and what follows from them."""

    groups: Groups
    weight: FloatArray  # (n_rows,) 1 / variance of a row's own noise
    product_var: float
    item_var: float

    @cached_property
    def item_weight(self) -> FloatArray:
        """Sum of the row weights of each item, shape (n_items,)."""
        return np.bincount(self.groups.item, self.weight, minlength=len(self.groups.product)).astype(np.float64)

    @cached_property
    def item_share(self) -> FloatArray:
        """How far an item's own mean is believed against its product's, shape (n_items,), 0..1."""
        scaled = self.item_weight * self.item_var
        return scaled / (1 + scaled)

    @cached_property
    def item_information(self) -> FloatArray:
        """What an item's rows tell about its product, shape (n_items,) [1 / variance]."""
        return self.item_weight * (1 - self.item_share)

    @cached_property
    def product_information(self) -> FloatArray:
        """What all its rows tell about a product's effect, shape (n_products,) [1 / variance]."""
        n_products = len(self.groups.extra_var)
        return np.bincount(self.groups.product, self.item_information, minlength=n_products).astype(np.float64)

    @cached_property
    def own_share(self) -> FloatArray:
        """Share of each row's noise that its residual still shows, shape (n_rows,); its effects took the rest."""
        prior, left = self.product_prior, 1 - self.item_share
        product = prior / (1 + self.product_information * prior)
        taken = self.item_var * left + left**2 * product[self.groups.product]
        return np.asarray(1 - self.weight * taken[self.groups.item])

    @cached_property
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

    def stacked(self, rows: csr_matrix) -> tuple[csr_matrix, FloatArray]:
        """Rows S and a factor c of each, so that X' V^-1 X = S' diag(c) S.

        An item of one row, and a product of one item, only lower the weight of what they are made of.
        """
        groups = self.groups
        item_scale = self.item_var / (1 + self.item_weight * self.item_var)
        prior = self.product_prior
        product_scale = prior / (1 + self.product_information * prior)
        alone = groups.items_of_product == 1
        item_scale = item_scale + (alone * product_scale)[groups.product] * (1 - self.item_share) ** 2
        single = groups.rows_of_item == 1
        parts = [rows]
        scale = [self.weight - (single * item_scale)[groups.item] * self.weight**2]
        if not (np.all(single) and np.all(alone)):
            by_item = _summed(groups.item, self.weight, len(single)) @ rows
            by_product = _summed(groups.product, 1 - self.item_share, len(alone)) @ by_item
            parts += [by_item[~single], by_product[~alone]]
            scale += [-item_scale[~single], -product_scale[~alone]]
        every = vstack(parts, format="csr") if len(parts) > 1 else rows
        return every, np.concatenate(scale)


def _summed(group: IntArray, weight: FloatArray, count: int) -> csr_matrix:
    """Weighted sums of the rows of each group, as a matrix."""
    return csr_matrix((weight, (group, np.arange(len(group)))), shape=(count, len(group)))
