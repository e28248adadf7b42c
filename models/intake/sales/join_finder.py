"""Which sales does a row of another kind speak of?  By order, then listing, then words."""

from collections.abc import Sequence

from models.intake.sales.join_orders import NEAR_DAYS, Orders
from models.intake.sales.join_pool import BLANK_DAY, Pool, days_of
from models.intake.sales.join_table import Folded


class Finder:
    """Finds the sales a row of refunds, fees or cancellations speaks of."""

    def __init__(self, pool: Pool, sold: Folded, orders: Orders) -> None:
        self._pool, self._sold, self._orders = pool, sold, orders
        self._by_order, self._by_listing = sold.by_order(), sold.by_listing(pool)
        self._day = days_of(sold.sales.sold_on)
        self._by_words: dict[str, list[int]] | None = None

    def of(self, row: int) -> list[int]:
        """Places in the table of sales; none where no sale, or not one sale alone, can be meant."""
        pool = self._pool
        if pool.order[row]:
            return self._of_one_order(row, self._narrowed(row, self._by_order.get(pool.order[row], [])))
        if pool.listing[row]:
            return self._last_before(row, self._narrowed(row, self._by_listing.get(pool.listing[row], [])))
        return self._last_before(row, self._with_words(row)) if pool.title[row] else []

    def several(self, row: int) -> bool:
        """True if sales have the row's order number."""
        return bool(self._pool.order[row]) and self._pool.order[row] in self._by_order

    def _narrowed(self, row: int, places: Sequence[int]) -> list[int]:
        """The lines of an order that the row names, all where it names none."""
        for name in ("listing", "sku", "title"):
            column = getattr(self._pool, name)
            same = [p for p in places if column[row] and any(column[m] == column[row] for m in self._sold.groups[p])]
            if same:
                return same
        return list(places)

    def _of_one_order(self, row: int, places: list[int]) -> list[int]:
        """Of several orders with one number the one in the row's own file, else the one just before the row's day."""
        orders = self._told_apart(places)
        if len(orders) < 2:
            return places
        file, day = self._pool.of[row], self._pool.sold_on[row]
        own = [one for one in orders if any(self._pool.of[m] == file for p in one for m in self._sold.groups[p])]
        orders = own or orders
        if len(orders) > 1:
            orders = [one for one in orders if day != BLANK_DAY and 0 <= day - self._day[one[-1]] <= NEAR_DAYS]
        return orders[0] if len(orders) == 1 else []

    def _told_apart(self, places: list[int]) -> list[list[int]]:
        """Lines of one number as the orders they are of: sold at about one time, in files that count together."""
        if len(places) < 2:
            return [places]
        orders: list[list[int]] = []
        for place in sorted(places, key=lambda place: self._day[place]):
            newest = self._sold.groups[place][-1]
            for order in orders:
                other = self._sold.groups[order[-1]][-1]
                if self._orders.near(other, newest) and not self._orders.apart(other, newest):
                    order.append(place)
                    break
            else:
                orders.append([place])
        return orders

    def _last_before(self, row: int, places: Sequence[int]) -> list[int]:
        day = self._pool.sold_on[row]
        earlier = [p for p in places if BLANK_DAY in (day, self._day[p]) or self._day[p] <= day]
        return [max(earlier, key=lambda p: (self._day[p], p))] if earlier else []

    def _with_words(self, row: int) -> list[int]:
        if self._by_words is None:
            self._by_words = {}
            for place, group in enumerate(self._sold.groups):
                self._by_words.setdefault(self._pool.title[group[-1]], []).append(place)
        return [p for p in self._by_words.get(self._pool.title[row], []) if self._pool.sku[row] in self._skus(p)]

    def _skus(self, place: int) -> set[str]:
        return {self._pool.sku[member] for member in self._sold.groups[place]}
