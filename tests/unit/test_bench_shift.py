"""The shift that lots of one cut-off share: its closed form against draws that share what the lots share."""

import numpy as np
import pytest

from models.bench.shift import shift_sd
from models.bench.shop import fitted, independent_total, priced, total_of
from models.bench.worlds.shape import Shape
from models.bench.worlds.world import DAY_ZERO, World
from models.estimate.price_draws import line_price_draws, shared_draws


@pytest.fixture(name="lots", scope="module")
def _lots():
    shape = Shape(seed=3, n_sales=200)
    world, cutoff = World(shape), DAY_ZERO + shape.days
    shop = fitted(world.history(), cutoff)
    return [priced(shop, lot.lines, cutoff + 45) for lot in world.lots(6)]


def test_the_shift_of_one_lot_is_its_own_spread(lots):
    assert shift_sd(lots[:1]) == pytest.approx(lots[0].log_sd, rel=1e-6)


def test_the_shift_is_what_shared_draws_show(lots):
    totals = [lot.quantity @ line_price_draws(lot, shared_draws(lot, 5), np.arange(len(lot)), 5) for lot in lots]
    drawn = np.mean(np.log(totals), axis=0)
    assert shift_sd(lots) == pytest.approx(drawn.std(), rel=0.06)


def test_lots_share_less_than_everything(lots):
    alone = np.mean([lot.log_sd for lot in lots])
    assert alone / np.sqrt(len(lots)) < shift_sd(lots) < alone


def test_independent_lines_state_less_spread_and_the_same_mean(lots):
    for lot in lots:
        assert independent_total(lot).mean == pytest.approx(total_of(lot).mean)
        assert independent_total(lot).sd < 0.8 * total_of(lot).sd
