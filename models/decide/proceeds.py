"""What does a slice of a lot's lines bring in, and what does it take?  Cash and hours: two ledgers, never mixed.

Cash of a line = sold x (price x net share - order costs) + leftover x leftover share x (price x net share - order
costs), kept apart by what grows with the price, so that a rivals' shade can be applied later without an error.  Where
the order costs of a line's leftovers are expected to exceed their price, they bring nothing: nobody sells at a loss.
Everything adds up over slices to the last bit (`grains`).  Listing, packs or leaving over is decided by item: all
lines of an item share its one listing, so they share its fate, unless the seller chose for one of them.
"""

from dataclasses import dataclass, replace

import numpy as np

from models.decide.actions import NOT_CHOSEN, Action, line_actions
from models.decide.bundles import Pack, best_pack
from models.decide.components import Components
from models.decide.grains import COUNT, MONEY, LineGrains, LineMeans, singly
from models.decide.slice_draws import LineFacts, Reading, SliceDraws
from models.values.arrays import FloatArray, IntArray

__all__ = ["LineFacts", "LineValues", "Reading", "SliceDraws", "SliceValue", "value_slice"]


@dataclass(frozen=True)
class LineValues:
    """Expected values of each whole line under its action, shape (n_lines,); money in minor units, discounted."""

    action: IntArray  # `Action` codes
    pack_units: IntArray  # units of a pack, 0 where not sold in packs
    packs: IntArray  # packs that all lines of the item make together, 0 likewise
    units_sold: FloatArray  # within the horizon
    price_part: FloatArray  # of cash, grows with the unit price
    order_part: FloatArray  # of cash, does not: costs, so mostly negative
    minutes_sorting: FloatArray
    minutes_listing: FloatArray
    minutes_packing: FloatArray

    def cash(self, shade: float = 1.0) -> FloatArray:
        """Expected cash proceeds [minor units], shape (n_lines,)."""
        return shade * self.price_part + self.order_part

    def after_pay(self, shade: float, hourly_pay: float) -> FloatArray:
        """Expected proceeds after pay [minor units], shape (n_lines,)."""
        minutes = self.minutes_sorting + self.minutes_listing + self.minutes_packing
        return self.cash(shade) - hourly_pay * minutes / 60


@dataclass(frozen=True)
class SliceValue:
    """A slice's sums per draw, and its lines."""

    components: Components
    lines: LineValues
    grains: LineGrains  # as the lines are sold
    row: IntArray  # (n_lines,), as they are sold


def value_slice(draws: SliceDraws, reading: Reading) -> SliceValue:
    """Choose each item's action and add the slice up.

    Parameters
    ----------
    draws : SliceDraws
        Of any number of lines, whole items; slices of one lot may be valued apart and added.
    reading : Reading
        Costs, pay and minutes.

    Returns
    -------
    SliceValue
        Sums per draw with the lines' expected values.

    Raises
    ------
    ValueError
        If more units are sold than are saleable.

    Examples
    --------
    >>> from models.decide.costs import lot_rows, selling_costs
    >>> from models.values.arrays import texts
    >>> from models.values.settings import Settings
    >>> rows, row = lot_rows(Settings(), texts(["Toys"]), np.array([0]))
    >>> facts = LineFacts(np.array([2]), np.array([0]), texts(["kite"]), row, np.array([False]), np.array([-1]),
    ...                   np.array([[12.0, 0.0, 0.0]]), np.array([[12.0, 1.0]]))
    >>> units, sold = np.array([[2.0, 2.0]]), np.array([[1.0, 2.0]])
    >>> draws = SliceDraws(facts, price=np.array([[3000.0, 5000.0]]), saleable=units, dead=units * 0, sold=sold,
    ...                    demand=sold, discount=np.ones((1, 1)), day=units * 0, days=units * 0)
    >>> costs = selling_costs(Settings(), rows)
    >>> total = value_slice(draws, Reading(costs, hourly_pay=1500.0, minutes_sort=2.0, minutes_pack=6.0)).components
    >>> total.cash(selling_costs(Settings(), total.rows)).tolist()  # 3000 x .855 - 130 = 2435, a tenth of it left over
    [2678.0, 8290.0]
    """
    if (draws.sold > draws.saleable).any():
        raise ValueError("more units are sold than are saleable")
    if np.isnan(draws.price.sum()):
        draws = replace(draws, price=np.nan_to_num(draws.price, nan=0.0))
    lines = LineGrains.of(draws, singly(draws), reading)
    means, group = LineMeans.of(lines), _groups(draws.facts)
    skipped = _cash_skipped(draws, reading)
    action = _actions(means, skipped, group, draws.facts, reading)
    packs = _packs(action, skipped, group, draws, reading)
    for rows, pack in packs:
        action[rows] = Action.BUNDLE
        lines.put(rows, pack.lines)
    lines.leave_over(np.flatnonzero((action == Action.SKIP) | (action == Action.NEVER)), draws, reading)
    lines.sorting[action == Action.NEVER] = 0.0  # what is never sold here takes no hours at all
    row = draws.facts.row + (action == Action.BUNDLE)
    values = _line_values(lines, row, action, packs, reading)
    return SliceValue(_summed(lines, row, reading), values, lines, row)


def _groups(facts: LineFacts) -> IntArray:
    """Lines that are decided on together: an item's, but for those the seller or `never` sets apart."""
    apart = (facts.chosen - NOT_CHOSEN) * 2 + facts.never
    of = facts.item * (2 * len(Action) + 2) + apart
    return np.asarray(np.unique(of, return_inverse=True)[1], dtype=np.int64)


def _together(values: FloatArray | IntArray, group: IntArray) -> FloatArray:
    """Each line's value replaced by the sum of its group's."""
    return np.asarray(np.bincount(group, values)[group], dtype=np.float64)


def _cash_skipped(draws: SliceDraws, reading: Reading) -> FloatArray:
    """Expected cash of each line with all its units left over."""
    costs, row = reading.costs, draws.facts.row
    worth = (draws.price * draws.saleable).mean(axis=1)
    net = costs.net_share[row] * worth - costs.order_costs[row] * draws.saleable.mean(axis=1)
    return np.asarray(costs.leftover_share[row] * reading.leftover_discount * np.maximum(net, 0.0))


def _actions(means: LineMeans, skipped: FloatArray, group: IntArray, facts: LineFacts, reading: Reading) -> IntArray:
    listed = means.price_part(reading.costs, facts.row) + means.order_part(reading.costs, facts.row)
    chosen = np.where(
        (facts.chosen == Action.BUNDLE) & (_together(facts.quantity, group) < 2), NOT_CHOSEN, facts.chosen
    )
    listed, skipped, minutes = (_together(values, group) for values in (listed, skipped, means.own_minutes))
    return line_actions(listed, skipped, minutes, reading.hourly_pay, facts.never, chosen)


def _packs(
    action: IntArray, skipped: FloatArray, group: IntArray, draws: SliceDraws, reading: Reading
) -> list[tuple[IntArray, Pack]]:
    """Items to sell in packs, with their lines."""
    ours = (action == Action.SKIP) & (draws.facts.chosen != Action.SKIP)
    wanted = (ours & (_together(draws.facts.quantity, group) >= 2)) | (action == Action.BUNDLE)
    found = []
    for one in np.unique(group[wanted]).tolist():
        rows = np.flatnonzero(group == one)
        forced = bool(action[rows[0]] == Action.BUNDLE)
        pack = best_pack(draws.take(rows), float(skipped[rows].sum()), reading, forced)
        if pack is not None:
            found.append((rows, pack))
    return found


def _line_values(
    lines: LineGrains, row: IntArray, action: IntArray, packs: list[tuple[IntArray, Pack]], reading: Reading
) -> LineValues:
    means = LineMeans.of(lines)
    units, made = np.zeros_like(action), np.zeros_like(action)
    for rows, pack in packs:
        units[rows], made[rows] = pack.units, pack.packs
    return LineValues(
        action=action,
        pack_units=units,
        packs=made,
        units_sold=means.sold,
        price_part=means.price_part(reading.costs, row),
        order_part=means.order_part(reading.costs, row),
        minutes_sorting=means.sorting,
        minutes_listing=means.listing,
        minutes_packing=means.packing,
    )


def _summed(lines: LineGrains, row: IntArray, reading: Reading) -> Components:
    here = np.unique(row)
    rows = reading.costs.rows.take(here)
    first, repeat, used = lines.listing()
    return Components(
        cost_key=rows.cost_key,
        fate=rows.fate,
        packed=rows.packed,
        gross_sold=lines.gross.sum(axis=0) / MONEY,
        orders=lines.parcels.sum(axis=0) / COUNT,
        units_sold=lines.sold.sum(axis=0) / COUNT,
        sold_worth=_by_row(lines.worth, row, here) / MONEY,
        sold_orders=_by_row(lines.orders, row, here) / COUNT,
        leftover_worth=_by_row(lines.leftover_worth, row, here) / MONEY,
        leftover_units=_by_row(lines.leftover_units, row, here) / COUNT,
        minutes_sorting=lines.sorting.sum(axis=0) / COUNT,
        listing_first=first,
        listing_repeat=repeat,
        listing_used=used,
        minutes_packing=lines.packing.sum(axis=0) / COUNT,
    )


def _by_row(grains: FloatArray, of_line: IntArray, rows: IntArray) -> FloatArray:
    if len(rows) == 1:  # often: no copy
        return np.asarray(grains.sum(axis=0, keepdims=True))
    return np.stack([grains[of_line == row].sum(axis=0) for row in rows])
