"""Is an item worth selling in packs where single listings are not?  The smallest pack that pays, or none.

A pack of k units is one listing, one parcel and one price: k single prices less the bundle discount.  Buyers of a pack
come a k-th as often as buyers of a unit: each sale that was possible becomes that of a pack with chance 1/k, so packs
help the minutes and never the demand.  Units that fill no pack, and packs that do not sell, are left over.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from models.decide.grains import LineGrains, LineMeans, Way
from models.decide.slice_draws import Reading, SliceDraws
from models.values.arrays import FloatArray
from models.values.streams import stream

MOST_IN_PACK = 24  # units that one buyer takes and one parcel holds; common practice, no source


@dataclass(frozen=True)
class Pack:
    """One item in packs."""

    units: int  # of each pack
    packs: int  # that the units listed make
    gain: float  # expected proceeds after pay beyond those of leaving it over [minor units]
    lines: LineGrains


def best_pack(draws: SliceDraws, cash_skipped: float, reading: Reading, forced: bool = False) -> Pack | None:
    """The smallest pack whose proceeds beat the pay for its own minutes.

    Parameters
    ----------
    draws : SliceDraws
        All lines of one item, or one kind of assorted goods.
    cash_skipped : float
        Expected cash if it is all left over [minor units].
    reading : Reading
        Costs, pay and minutes.
    forced : bool
        The seller wants packs: where none pays, the least bad one.

    Returns
    -------
    Pack or None
        None where no pack pays, or the item is a single unit.

    Notes
    -----
    Gain = cash in packs - cash if left over - pay of the minutes for listing and packing; tried from 2 units up to
    `MOST_IN_PACK`.

    Examples
    --------
    40 units at 3.00: a unit nets 1.26 and takes 6 minutes of packing alone; 4 go for 9.00.

    >>> from models.decide.costs import lot_rows, selling_costs
    >>> from models.decide.slice_draws import LineFacts
    >>> from models.values.arrays import texts
    >>> from models.values.settings import Settings
    >>> rows, row = lot_rows(Settings(), texts(["Toys"]), np.array([0]))
    >>> facts = LineFacts(np.array([40]), np.array([0]), texts(["kite"]), row, np.array([False]), np.array([-1]),
    ...                   np.array([[12.0, 39.0, 0.0]]), np.array([[12.0, 1.0]]))
    >>> units = np.full((1, 4), 40.0)
    >>> draws = SliceDraws(facts, price=units * 7.5, saleable=units, dead=units * 0, sold=units, demand=units * 1e4,
    ...                    discount=np.ones((1, 1)), day=units * 0, days=units * 0)
    >>> reading = Reading(selling_costs(Settings(), rows), hourly_pay=1500.0, minutes_sort=2.0, minutes_pack=6.0)
    >>> pack = best_pack(draws, 0.1 * 40 * (300 * 0.855 - 130), reading)
    >>> pack.units, pack.packs
    (4, 10)
    """
    total = int(draws.facts.quantity.sum())
    best: Pack | None = None
    for units in _sizes(draws, cash_skipped, total, reading, forced):
        pack = _pack(draws, units, total, cash_skipped, reading)
        if pack.gain > 0:
            return pack
        if best is None or pack.gain > best.gain:
            best = pack
    return best if forced else None


def _sizes(draws: SliceDraws, cash_skipped: float, total: int, reading: Reading, forced: bool) -> Iterable[int]:
    """Sizes worth drawing: those that would pay if packs sold as well as the mean demand lets them."""
    sizes = range(2, min(MOST_IN_PACK, total) + 1)
    if forced:
        return sizes
    saleable, demand = float(draws.saleable.sum(axis=0).mean()), float(draws.demand.sum(axis=0).mean())
    price = float((draws.price * draws.saleable).sum(axis=0).mean()) / max(saleable, 1e-9)
    costs, row = reading.costs, int(draws.facts.row[0]) + 1  # an item's lines share their costs, but for odd categories
    left = cash_skipped / max(saleable, 1e-9)  # what a unit brings if it is left over
    own, further = draws.facts.pack_minutes.mean(axis=0).tolist()

    def pays(units: int) -> bool:
        cash = units * (price * costs.net_share[row] * costs.price_factor[row] - left) - costs.order_costs[row]
        packs = total // units
        listing = packs * (own + (units - 1) * further) * float((draws.saleable.sum(axis=0) >= units).mean())
        sold = min(packs, demand / units)
        return bool(sold * (cash - reading.pay(reading.minutes_pack)) > reading.pay(listing))

    return filter(pays, sizes)


def _pack(draws: SliceDraws, units: int, total: int, cash_skipped: float, reading: Reading) -> Pack:
    lines = LineGrains.of(draws, in_packs(draws, units, total, reading.seed), reading)
    means, row = LineMeans.of(lines), draws.facts.row + 1
    cash = float((means.price_part(reading.costs, row) + means.order_part(reading.costs, row)).sum())
    gain = cash - cash_skipped - float(reading.pay(float(means.own_minutes.sum())))
    return Pack(units, total // units, gain, lines)


def in_packs(draws: SliceDraws, units: int, total: int, seed: int) -> Way:
    """One item sold in packs of one size.

    Parameters
    ----------
    draws : SliceDraws
        All lines of the item.
    units : int
        Of a pack, at least 2.
    total : int
        Units of the item that the manifest lists.
    seed : int
        The evaluation's seed.

    Returns
    -------
    Way
        The item's packs are shared out over its lines in proportion to their units.

    Notes
    -----
    Packs sold = min(Binomial(sales possible, 1/units), floor(saleable / units)).
    """
    saleable = draws.saleable.sum(axis=0)
    source = stream(seed, "packs", f"{draws.facts.name[0]}\x1f{units}")
    possible = np.floor(draws.demand.sum(axis=0) + source.random(len(saleable)))  # demand shared out is no whole number
    sold = np.minimum(source.binomial(possible.astype(np.int64), 1.0 / units), saleable // units)
    share = draws.saleable * sold / np.maximum(saleable, 1.0)
    of_total = draws.facts.quantity / total * (total // units)
    first, further = draws.facts.pack_minutes.T
    return Way(
        units=share * units,
        parcels=share,
        opened=_all_lines(saleable >= units, len(of_total)),
        minutes=np.stack([of_total * first, of_total * (units - 1) * further, np.zeros(len(of_total))], axis=1),
    )


def _all_lines(opened: FloatArray, n_lines: int) -> FloatArray:
    return np.repeat(opened.astype(np.float64)[None, :], n_lines, axis=0)
