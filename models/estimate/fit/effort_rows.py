"""Which pieces of listing work are the rows of a history?  First and further units, and the columns they load on."""

from collections import Counter
from dataclasses import dataclass, fields, replace

import numpy as np

from models.estimate.effort_model import FURTHER_SEALED, FURTHER_USED, KINDS, SEALED
from models.estimate.tempo_levels import category_keys
from models.values.arrays import BoolArray, DayArray, FloatArray, IntArray, TextArray, texts
from models.values.conditions import CONDITIONS
from models.values.sales import Sales
from models.values.settings import Effort

TOGETHER_DAYS = 7  # an item listed again within a week may be a further unit of that listing; later it is a new one
LEAST_AGAIN = 3  # timed rows of that kind; fewer cannot tell
MOST_MINUTES = 1440.0  # a day's work on one unit is a mistyped cell
MOST_TOPS, MOST_SUBS, MOST_BUNCHES = 60, 150, 200  # levels with a column of their own
LEAST_OF_SUB = 3  # rows; fewer cannot teach one
CONDITION_AT = len(KINDS)
TOP_AT = CONDITION_AT + len(CONDITIONS)
SLOTS = 6  # columns that one row can touch: base, kind of further unit, condition, top, sub, bunch


@dataclass(frozen=True)
class Rows:
    """Arrays of shape (n_rows,)."""

    units: FloatArray
    minutes: FloatArray  # of the whole row, NaN where they were not taken or cannot be meant [minutes]
    first: FloatArray  # 1 where the row began a listing, else 0
    further: FloatArray  # further units
    kind: IntArray  # of the further units: index in KINDS
    condition: IntArray
    top: TextArray
    sub: TextArray
    listed: DayArray  # NaT unknown
    bunch: TextArray  # what was worked on together: the lot where it has a name, else the week of listing, "" unknown

    def __len__(self) -> int:
        return len(self.units)

    def take(self, index: IntArray) -> "Rows":
        """The rows at `index`."""
        return Rows(**{field.name: getattr(self, field.name)[index] for field in fields(self)})

    def untimed(self) -> "Rows":
        """The same without any minutes."""
        return replace(self, minutes=np.full(len(self), np.nan))


@dataclass(frozen=True)
class Columns:
    """Names of the levels that have a column; base, kinds of units and conditions stand before them."""

    top: TextArray
    sub: TextArray
    bunch: TextArray

    @property
    def count(self) -> int:
        """All columns."""
        return self.lasting + len(self.bunch)

    @property
    def lasting(self) -> int:
        """Columns that say something of goods to come; bunches, which stand last, are over."""
        return TOP_AT + len(self.top) + len(self.sub)

    def places(self, rows: Rows) -> IntArray:
        """Column of each slot, shape (n_rows, SLOTS); `count` where there is none."""
        none = self.count
        starts = (TOP_AT, TOP_AT + len(self.top), self.lasting)
        at = np.full((len(rows), SLOTS), none, dtype=np.int64)
        at[:, 0] = 0
        at[:, 1] = np.where(rows.further > 0, rows.kind, none)
        at[:, 2] = np.where(rows.condition >= 0, CONDITION_AT + rows.condition, none)
        for slot, start, names in zip((3, 4, 5), starts, (self.top, self.sub, self.bunch), strict=True):
            place = {name: start + number for number, name in enumerate(names.tolist())}
            of_row = (rows.top, rows.sub, rows.bunch)[slot - 3]
            at[:, slot] = [place.get(name, none) for name in of_row.tolist()]
        return at


def effort_rows(sales: Sales, product: IntArray) -> Rows:
    """The work behind every row of a history, timed or not.

    Parameters
    ----------
    sales : Sales
        The history.
    product : ndarray of shape (n_rows,)
        Product of each row.

    Returns
    -------
    Rows

    Notes
    -----
    A row of its own is a listing of its own: a popular item is listed anew every few days.  It is a further unit only
    where it names the same listing of the same day, or where an item's rows of one week were timed and those that came
    again took less than half way, in ln minutes, from a first unit to a further one of the settings.

    Examples
    --------
    >>> rows = effort_rows(Sales.blank(1), np.array([0]))
    >>> float(rows.first[0]), float(rows.further[0]), bool(np.isnan(rows.minutes[0]))
    (1.0, 0.0, True)
    """
    condition = sales.condition.astype(np.int64)
    listed = sales.last_listed
    units = sales.quantity.astype(np.float64)
    minutes = np.where(timed_rows(sales), sales.listing_minutes * units, np.nan)
    kind = np.where(condition == SEALED, FURTHER_SEALED, FURTHER_USED)
    item = product * 8 + condition + 1
    again = _listed_together(item, listed)
    same = _of_one_listing(item, listed, sales.listing_ref)
    first = np.where(same | (again & _is_quicker(np.log(minutes / units), item, kind, again)), 0.0, 1.0)
    top, sub = category_keys(sales.category)
    return Rows(
        units=units,
        minutes=minutes,
        first=first,
        further=units - first,
        kind=kind,
        condition=condition,
        top=top,
        sub=sub,
        listed=listed,
        bunch=_bunches(sales.lot, listed),
    )


def timed_rows(sales: Sales) -> BoolArray:
    """True where a row's listing minutes can be used.

    Parameters
    ----------
    sales : Sales
        The history.

    Returns
    -------
    ndarray of shape (n_rows,)

    Examples
    --------
    >>> timed_rows(Sales.blank(2)).tolist()
    [False, False]
    """
    return np.isfinite(sales.listing_minutes) & (sales.listing_minutes > 0) & (sales.listing_minutes <= MOST_MINUTES)


def columns_of(rows: Rows) -> Columns:
    """Levels with a column: the most frequent ones."""
    tops = Counter(name for name in rows.top.tolist() if name)
    subs = Counter(name for name in rows.sub.tolist() if name)
    often = {name: count for name, count in subs.items() if count >= LEAST_OF_SUB}
    bunches = Counter(name for name in rows.bunch.tolist() if name)
    return Columns(_most(tops, MOST_TOPS), _most(often, MOST_SUBS), _most(bunches, MOST_BUNCHES))


def _most(counts: dict[str, int] | Counter[str], most: int) -> TextArray:
    return texts(sorted(sorted(counts, key=lambda name: (-counts[name], name))[:most]))


def _of_one_listing(item: IntArray, listed: DayArray, ref: TextArray) -> BoolArray:
    """True for a row that names the listing that an earlier row of its item and day names."""
    seen: set[tuple[int, object, str]] = set()
    found = np.zeros(len(item), dtype=bool)
    for at in np.flatnonzero(ref != "").tolist():
        told = (int(item[at]), listed[at].item(), str(ref[at]))
        found[at] = told in seen
        seen.add(told)
    return found


def _is_quicker(ln_minutes: FloatArray, item: IntArray, kind: IntArray, again: BoolArray) -> BoolArray:
    """True where rows of the kind that came again within a week took about a further unit's minutes."""
    number = np.unique(item, return_inverse=True)[1]
    begun = ~again & np.isfinite(ln_minutes)
    count = np.bincount(number[begun], minlength=len(item))
    total = np.bincount(number[begun], weights=ln_minutes[begun], minlength=len(item))
    against = ln_minutes - (total / np.maximum(count, 1))[number]
    comparable = again & np.isfinite(against) & (count[number] > 0)
    quick = np.zeros(len(item), dtype=bool)
    for one in (FURTHER_SEALED, FURTHER_USED):
        told = against[comparable & (kind == one)]
        half_way = np.log(getattr(Effort(), KINDS[one]) / Effort().minutes_first) / 2.0
        if len(told) >= LEAST_AGAIN and float(np.median(told)) < half_way:
            quick |= kind == one
    return quick


def _listed_together(item: IntArray, listed: DayArray) -> BoolArray:
    """True for a row whose item was listed up to a week before, in an earlier row."""
    days = listed.astype(np.int64)
    order = np.lexsort((days, item))
    near = np.zeros(len(item), dtype=bool)
    same = item[order][1:] == item[order][:-1]
    dated = ~np.isnat(listed[order][1:]) & ~np.isnat(listed[order][:-1])
    near[order[1:]] = same & dated & (np.diff(days[order]) <= TOGETHER_DAYS)
    return near


def _bunches(lot: TextArray, listed: DayArray) -> TextArray:
    week = np.where(np.isnat(listed), -1, (listed.astype(np.int64) + 3) // 7)  # from Monday
    told = zip(lot.tolist(), week.tolist(), strict=True)
    return texts([f"lot {name}" if name else f"week {number}" if number >= 0 else "" for name, number in told])
