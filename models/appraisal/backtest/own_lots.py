"""What counts as one lot of the seller's own?  A lot's name, else what was listed in a fortnight in one category.

A lot with a name is asked about at the last cut-off before its first listing, whole: as if it were being bid on then.
"""

from collections import defaultdict
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import numpy as np

from models.appraisal.backtest.cut_offs import FORTNIGHT
from models.appraisal.backtest.dated import Dated
from models.values.arrays import DayArray, IntArray, TextArray
from models.values.categories import top_and_sub

FEWEST_ROWS = 5  # fewer are no lot
ONE_PURCHASE = 365  # days; a name whose listings go on for longer is a place or a source, not a lot


class Goods(StrEnum):
    """How goods came in."""

    BULK = "bulk"
    SINGLE = "single"
    UNKNOWN = "unknown"


@dataclass(frozen=True)
class OwnLot:
    """Rows of the history that are compared as one total."""

    name: str
    goods: Goods
    rows: IntArray
    is_named: bool  # bought as one lot; else listings of a fortnight stand in for one


def own_lots(history: Dated, days: DayArray) -> list[list[OwnLot]]:
    """The lots asked about at each cut-off; rows listed on the first one or before are in none, others in one."""
    rows, names = np.arange(len(history.sales)), _lot_names(history)
    named = [lot for name in sorted({*names.tolist()} - {""}) for lot in _named(history, rows[names == name], days)]
    unnamed, at = rows[names == ""], np.searchsorted(days, history.start[names == ""]) - 1
    return [
        [lot for number, lot in named if number == cut_off] + _unnamed(history, unnamed[at == cut_off], days[cut_off])
        for cut_off in range(len(days))
    ]


def _lot_names(history: Dated) -> TextArray:
    """One spelling of each row's lot; blank also where its listings go on for longer than one purchase's can."""
    names = np.array([" ".join(name.casefold().split()) for name in history.sales.lot.tolist()], dtype=object)
    distinct, of = np.unique(names.astype(str), return_inverse=True)
    day = history.start.astype(np.int64)
    first, last = np.full(len(distinct), np.iinfo(np.int64).max), np.full(len(distinct), np.iinfo(np.int64).min)
    np.minimum.at(first, of, day)
    np.maximum.at(last, of, day)
    return np.where((last - first)[of] > ONE_PURCHASE, "", names)


def goods_of(history: Dated, rows: IntArray) -> list[Goods]:
    """How each row came in: as it says, else in bulk where it names its lot."""
    sales = history.sales
    told = {1: Goods.BULK, 0: Goods.SINGLE}
    return [
        told.get(code, Goods.BULK if name.strip() else Goods.UNKNOWN)
        for code, name in zip(sales.sourced[rows].tolist(), sales.lot[rows].tolist(), strict=True)
    ]


def _named(history: Dated, rows: IntArray, days: DayArray) -> list[tuple[int, OwnLot]]:
    """With the number of its cut-off; none where it is too small or no cut-off came before it."""
    cut_off = int(np.searchsorted(days, history.start[rows].min())) - 1
    if cut_off < 0 or len(rows) < FEWEST_ROWS:
        return []
    goods = goods_of(history, rows)
    return [(cut_off, OwnLot(str(history.sales.lot[rows[0]]), max(Goods, key=goods.count), rows, True))]


def _unnamed(history: Dated, rows: IntArray, cut_off: np.datetime64) -> list[OwnLot]:
    """By way in, fortnight and top category; what is too little for a lot joins the rest of its fortnight, then all."""
    fortnight = ((history.start[rows] - cut_off).astype(int) - 1) // FORTNIGHT
    tops = [top_and_sub(text)[0] for text in history.sales.category[rows].tolist()]
    keys = list(zip(goods_of(history, rows), fortnight.tolist(), tops, strict=True))
    made: list[OwnLot] = []
    found: set[tuple[Any, ...]] = set()
    for told in (3, 2, 1):  # parts of the key that count
        places: dict[tuple[Any, ...], list[int]] = defaultdict(list)
        for place, key in enumerate(keys):
            places[key[:told]].append(place)
        large = {key: of for key, of in places.items() if len(of) >= FEWEST_ROWS}
        parted = {lot[:told] for lot in found}
        made += [
            OwnLot(_name(history, rows[of], key, key in parted), key[0], rows[of], False)
            for key, of in sorted(large.items())
        ]
        found |= {*large}
        rest = [place for place, key in enumerate(keys) if key[:told] not in large]
        rows, keys = rows[rest], [keys[place] for place in rest]
    return made


def _name(history: Dated, rows: IntArray, key: tuple[Any, ...], is_rest: bool) -> str:
    first, last = history.start[rows].min(), history.start[rows].max()
    kind = (key[2] or "no category") if len(key) > 2 else "other kinds" if is_rest else "all kinds"
    return f"{kind}, {first} to {last}"
