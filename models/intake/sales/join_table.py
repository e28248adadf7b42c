"""Sales or listings after folding: their groups of rows, and what all files say of each together."""

from collections import defaultdict
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, fields

import numpy as np

from models.intake.sales.join_merge import merged
from models.intake.sales.join_pool import Groups, Pool
from models.values.sales import Sales


@dataclass(frozen=True)
class Folded:
    """`sales` has one row a group."""

    groups: Groups
    sales: Sales

    def __len__(self) -> int:
        return len(self.groups)

    def take(self, kept: Sequence[int]) -> "Folded":
        """Those at these places."""
        return Folded([self.groups[place] for place in kept], self.sales.take(np.array(kept, dtype=np.int64)))

    def by(self, key: Callable[[int], Hashable | None]) -> dict[Hashable, list[int]]:
        """Places by the key of each group's newest row; None is no key."""
        found: dict[Hashable, list[int]] = defaultdict(list)
        for place, group in enumerate(self.groups):
            said = key(group[-1])
            if said is not None:
                found[said].append(place)
        return dict(found)

    def by_listing(self, pool: Pool) -> dict[Hashable, list[int]]:
        """Places by listing number, whichever of a group's rows names it."""
        found: dict[Hashable, list[int]] = defaultdict(list)
        for place, number in enumerate(self.sales.listing_ref.tolist()):
            if number:
                found[number].append(place)
        return dict(found)

    def by_order(self) -> dict[str, list[int]]:
        """Places by order number."""
        found: dict[str, list[int]] = defaultdict(list)
        for place, number in enumerate(self.sales.order_ref.tolist()):
            if number:
                found[number].append(place)
        return dict(found)


def beside(*tables: Folded) -> Folded:
    """Several tables, one below the other."""
    columns = {
        field.name: np.concatenate([getattr(table.sales, field.name) for table in tables]) for field in fields(Sales)
    }
    return Folded([group for table in tables for group in table.groups], Sales(**columns))


def folded(pool: Pool, groups: Groups) -> Folded:
    """What the files say of each group."""
    return Folded(groups, merged(pool, groups) if groups else Sales.blank(0))
