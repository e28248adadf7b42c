"""Unpacked draws stay in memory for a while: the shop's own, and only a few."""

from stored_lot import stored_lot

from models.services.stored_draws import MOST_KEPT, Kept
from models.store.records import ShopId

ONE, OTHER = ShopId("one"), ShopId("other")


def test_what_was_read_is_kept_for_its_shop_alone() -> None:
    kept, stored = Kept(), stored_lot(4)
    kept.put((ONE, "e"), stored)
    assert kept.get((ONE, "e")) is stored
    assert kept.get((OTHER, "e")) is None


def test_the_one_not_read_for_longest_is_given_up() -> None:
    kept, stored = Kept(), stored_lot(4)
    for number in range(MOST_KEPT):
        kept.put((ONE, str(number)), stored)
    assert kept.get((ONE, "0")) is stored
    kept.put((ONE, "more"), stored)
    assert kept.get((ONE, "0")) is stored
    assert kept.get((ONE, "1")) is None
