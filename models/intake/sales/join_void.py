"""Which sales has another file called cancelled?  A later file has the last word, but for an old one given once more.

Old is a file that ends before the one with the cancellation, or ends with it and says what a file before it said.
"""

from collections.abc import Sequence

from models.intake.sales.join_finder import Finder
from models.intake.sales.join_fold import all_marks
from models.intake.sales.join_orders import Orders
from models.intake.sales.join_pool import BLANK_DAY, Pool
from models.intake.sales.join_table import Folded
from models.values.problems import Caution
from models.values.sale_parts import VOID

_MOST_NAMED = 5


def without_void(pool: Pool, sold: Folded, orders: Orders) -> tuple[Folded, tuple[Caution, ...]]:
    """The sales but for those that are cancelled, and which of these a file that came later calls sold."""
    void = pool.rows([VOID])
    if not void:
        return sold, ()
    finder = Finder(pool, sold, orders)
    gone: set[int] = set()
    doubted: dict[str, None] = {}
    for row in void:
        for place in finder.of(row):
            group = sold.groups[place]
            if orders.another(row, group[-1]) or any(_knows_more(pool, member, row, group) for member in group):
                continue
            gone.add(place)
            if pool.of[group[-1]] > pool.of[row]:
                doubted[pool.order[row]] = None
    kept = [place for place in range(len(sold)) if place not in gone]
    return (sold.take(kept) if gone else sold), _said(list(doubted))


def _knows_more(pool: Pool, member: int, void: int, group: Sequence[int]) -> bool:
    """True for a sale's row that a cancellation cannot undo."""
    file, other_file = pool.of[member], pool.of[void]
    if file <= other_file:
        return file == other_file  # one file that sold and cancelled under one number speaks of two things
    known, ended = pool.as_of[file], pool.as_of[other_file]
    if BLANK_DAY not in (known, ended) and known != ended:
        return known > ended
    marks = all_marks(pool, member)
    return not any(pool.of[other] < pool.of[void] and all_marks(pool, other) == marks for other in group)


def _said(numbers: Sequence[str]) -> tuple[Caution, ...]:
    if not numbers:
        return ()
    named = ", ".join(numbers[:_MOST_NAMED]) + (", ..." if len(numbers) > _MOST_NAMED else "")
    what = (
        f"Orders that one file calls cancelled and a file imported after it calls sold: {len(numbers):,} ({named}). "
        "The one imported later is older or says nothing new: they count as cancelled."
    )
    return (Caution(what, "If one was sold after all, import a file that says so and holds your latest sales."),)
