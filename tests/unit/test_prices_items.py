"""Product and item effects integrated out: the short forms against the dense matrices they stand for."""

import numpy as np
import pytest
from scipy.sparse import csr_matrix

from models.estimate.fit.prices_items import Groups, Spread
from models.values.streams import stream


@pytest.fixture(name="case")
def _case():
    rng = stream(3, "items")
    item = np.array([0, 0, 1, 2, 2, 2, 3, 4, 4, 1])
    groups = Groups(item, np.array([0, 0, 1, 2, 2]), np.array([0.0, 0.3, 0.05]))
    spread = Spread(groups, 1 / rng.uniform(0.05, 0.4, 10), 0.2, 0.07)
    rows = csr_matrix(rng.normal(size=(10, 4)) * (rng.random((10, 4)) < 0.7))
    of_item, of_product = np.eye(5)[item], np.eye(3)[groups.product[item]]
    effects = of_product @ np.diag(spread.product_prior) @ of_product.T + 0.07 * of_item @ of_item.T
    return spread, rows, effects, effects + np.diag(1 / spread.weight), rng.normal(size=10)


def test_gram_is_exact(case):
    spread, rows, _, whole, _ = case
    x = rows.toarray()
    every, scale = spread.stacked(rows)
    gram = every.toarray().T @ (scale[:, None] * every.toarray())
    assert np.allclose(gram, x.T @ np.linalg.solve(whole, x), atol=1e-10)


def test_whitened_is_exact(case):
    spread, _, _, whole, outcome = case
    assert np.allclose(spread.whitened(outcome), np.linalg.solve(whole, outcome), atol=1e-10)


def test_effects_are_the_posterior_means(case):
    spread, _, effects, whole, outcome = case
    product, item = spread.effects(outcome)
    found = (product[spread.groups.product] + item)[spread.groups.item]
    assert np.allclose(found, effects @ np.linalg.solve(whole, outcome), atol=1e-10)


def test_a_residual_shows_what_its_effects_did_not_take(case):
    """Own noise e = y - effects as fitted has variance W^-1 V^-1 W^-1; without regression columns that is exact."""
    spread, _, _, whole, _ = case
    scaled = np.diag(1 / spread.weight)
    assert np.allclose(spread.own_share, np.diag(scaled @ np.linalg.inv(whole) @ scaled) * spread.weight, atol=1e-10)
