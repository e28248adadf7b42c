"""What is drawn for a slice of a lot's lines, and how is it read?  Inputs of `value_slice`."""

from dataclasses import dataclass, fields

import numpy as np

from models.decide.costs import SellingCosts
from models.values.arrays import BoolArray, FloatArray, IntArray, TextArray


@dataclass(frozen=True)
class LineFacts:
    """What does not vary from draw to draw; arrays of shape (n_lines,) unless said."""

    quantity: IntArray  # units listed in the manifest
    item: IntArray  # lines of one number are one item; a slice holds all lines of its items
    name: TextArray  # the item's, key of its random streams
    row: IntArray  # index of its row of single units in the lot's `Rows`; the row of packs follows it
    never: BoolArray
    chosen: IntArray  # the seller's own `Action` codes, `NOT_CHOSEN` where they left it to us
    minutes: FloatArray  # (n_lines, 3), whole line listed singly: first, repeat, used
    pack_minutes: FloatArray  # (n_lines, 2), a pack's own listing, and each further unit in it

    def take(self, index: IntArray) -> "LineFacts":
        """Some lines."""
        return LineFacts(**{field.name: getattr(self, field.name)[index] for field in fields(LineFacts)})


@dataclass(frozen=True)
class SliceDraws:
    """Arrays of shape (n_lines, n_draws); `/ 1` where (n_lines, 1) will do too."""

    facts: LineFacts
    price: FloatArray  # mean unit price of the line's units [minor units], unshaded; NaN: unknown, brings nothing
    saleable: FloatArray  # units that arrived and work
    dead: FloatArray  # units that arrived and do not
    sold: FloatArray  # of the saleable ones within the horizon, if listed singly
    demand: FloatArray  # sales possible within the horizon, the line's share of them: `sold` before it ran out
    discount: FloatArray  # / 1, of the money of units sold, to the day of payment
    day: FloatArray  # mean day of the sales, after payment [days]
    days: FloatArray  # that they are spread over evenly, around their mean day; packs sell over the same days

    def take(self, index: IntArray) -> "SliceDraws":
        """Some lines, copied."""
        named = (field.name for field in fields(SliceDraws) if field.name != "facts")
        return SliceDraws(self.facts.take(index), **{name: np.asarray(getattr(self, name)[index]) for name in named})


@dataclass(frozen=True)
class Reading:
    """How a slice is valued: the same for all slices of a lot."""

    costs: SellingCosts  # of all the lot's rows
    hourly_pay: float  # [minor units]
    minutes_sort: float  # a unit that arrived
    minutes_pack: float  # an order
    leftover_discount: float = 1.0  # of money at the horizon, to the day of payment
    seed: int = 1

    def pay(self, minutes: FloatArray | float) -> FloatArray | float:
        """Pay for some minutes [minor units]."""
        return self.hourly_pay * minutes / 60
