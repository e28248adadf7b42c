"""Do two rows with one order number speak of one sale?  Numbers restart, and two channels may count alike.

An order number is a mark only beside what else the rows say, and only between files whose numbers are of one series:
where most numbers that two files share stand for different goods, the files count apart; where their days agree number
by number, they count together, whatever they call the goods.  The bounds are common practice, no source.
"""

import re
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import islice

from models.intake.sales.join_pool import BLANK_DAY, Groups, Pool
from models.values.problems import Caution
from models.values.sale_parts import SOLD

NEAR_DAYS = 14  # between the days that two files give one sale: ordered, paid, sent
_ADJACENT = 1  # a day told by two time zones
_MOST_ROWS = 20  # of one number in one file; more are no order
_VOICES = 2_000  # numbers that are asked: more would say the same
_MOST_NAMED = 5
_FEWEST_DAYS, _MOST_DAYS = 3, 0.8  # different days on which shared numbers agree, and the share of them that must
_WORD = re.compile(r"\w{3,}")


@dataclass(frozen=True)
class _Series:
    """How the order numbers of two files go: surely one series, surely two, or as the rows themselves say."""

    together: bool = False
    apart: bool = False


class Orders:
    """What order numbers are worth between the files of a pool."""

    def __init__(self, pool: Pool) -> None:
        self._pool = pool
        self._series: dict[tuple[int, int], _Series] = {}
        self._by_file: dict[int, dict[str, list[int]]] = {}

    def same(self, one: int, other: int) -> bool:
        """True if rows of two files with one order number may be one sale."""
        series = self._of_files(one, other)
        if series.together and self._pool.sold_on[one] == self._pool.sold_on[other] != BLANK_DAY:
            return not self._pool.differ(one, other)
        return not series.apart and not self.another(one, other)

    def another(self, one: int, other: int) -> bool:
        """True if what rows with one order number say beside it cannot be said of one sale."""
        pool = self._pool
        if pool.place[one] and pool.place[other] and pool.place[one] != pool.place[other]:
            return True
        same_price = pool.price[one] == pool.price[other]
        if self._titles_alike(one, other):
            return not (same_price or self.near(one, other))
        marked = any(column[one] and column[one] == column[other] for column in (pool.listing, pool.sku, pool.gtin))
        return not ((marked and self.near(one, other)) or (same_price and self.near(one, other, _ADJACENT)))

    def near(self, one: int, other: int, days: int = NEAR_DAYS) -> bool:
        """True if the days of sale are so close, or one is not told."""
        told = self._pool.sold_on[one], self._pool.sold_on[other]
        return BLANK_DAY in told or abs(told[0] - told[1]) <= days

    def apart(self, one: int, other: int) -> bool:
        """True if the files of two rows number their orders in two series."""
        return self._of_files(one, other).apart

    def _of_files(self, one: int, other: int) -> _Series:
        first, second = sorted((self._pool.of[one], self._pool.of[other]))
        if first == second:
            return _Series()
        if (first, second) not in self._series:
            self._series[(first, second)] = self._counted(first, second)
        return self._series[(first, second)]

    def _counted(self, first: int, second: int) -> _Series:
        """Every number that two files share has one voice, up to so many."""
        orders, others, day = self._numbers(first), self._numbers(second), self._pool.sold_on
        differ = alike = dated = 0
        days: Counter[int] = Counter()
        for number in islice((number for number in orders if number in others), _VOICES):
            rows, known = orders[number], others[number]
            if max(len(rows), len(known)) > _MOST_ROWS:
                continue
            another = all(self.another(row, other) for row in rows for other in known)
            differ, alike = differ + another, alike + (not another)
            if BLANK_DAY not in (day[rows[0]], day[known[0]]):
                dated += 1
                days[day[rows[0]]] += day[rows[0]] == day[known[0]]
        agreed = [times for times in days.values() if times]
        together = len(agreed) >= _FEWEST_DAYS and sum(agreed) >= _MOST_DAYS * dated
        return _Series(together, differ > alike and not together)

    def _numbers(self, file: int) -> dict[str, list[int]]:
        """Rows of the file's sales by order number; all files are walked once."""
        if not self._by_file:
            numbers: dict[int, dict[str, list[int]]] = defaultdict(lambda: defaultdict(list))
            for row in self._pool.rows([SOLD]):
                if self._pool.order[row]:
                    numbers[self._pool.of[row]][self._pool.order[row]].append(row)
            self._by_file = dict(numbers)
        return self._by_file.get(file, {})

    def _titles_alike(self, one: int, other: int) -> bool:
        """The same words, most words of the shorter title, or nothing said."""
        titles = self._pool.title[one], self._pool.title[other]
        if titles[0] == titles[1] or "" in titles:
            return True
        words, others = (set(_WORD.findall(title)) for title in titles)
        return 2 * len(words & others) > min(len(words), len(others))


def shared_numbers(pool: Pool, groups: Groups) -> tuple[Caution, ...]:
    """Says which order numbers stand for different goods in different files."""
    by_number: dict[str, list[int]] = defaultdict(list)
    for place, group in enumerate(groups):
        number = next((pool.order[row] for row in group if pool.order[row]), "")
        if number:
            by_number[number].append(place)
    shared = [number for number, places in by_number.items() if _in_two_files(pool, groups, places)]
    if not shared:
        return ()
    named = ", ".join(shared[:_MOST_NAMED]) + (", ..." if len(shared) > _MOST_NAMED else "")
    what = f"Order numbers that two files give to different sales: {len(shared):,} ({named}). Each sale was counted."
    return (Caution(what, "See that none of them is one sale under two names."),)


def _in_two_files(pool: Pool, groups: Groups, places: Sequence[int]) -> bool:
    """No file holds both: the lines of one order stand in one file."""
    if len(places) < 2:
        return False
    files = [{pool.of[row] for row in groups[place]} for place in places]
    seen: set[int] = set()
    for held in files:
        if seen and not seen & held:
            return True
        seen |= held
    return False
