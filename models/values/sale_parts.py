"""What does one file of sold history tell, before it is joined with the others?  Rows with the role each plays.

Money and minutes as in `Sales`: a unit's.  `quantity` is 0 where the file does not count.  Rows of REFUND and FEES hold
the whole row's amount in `refunded`, `fees` or `shipping_paid`, and its day in `sold_on`.
"""

from dataclasses import dataclass

import numpy as np

from models.values.arrays import CodeArray
from models.values.sales import Sales

SOLD, LISTED, LIVE, ENDED, KNOWN, COUNTED, REFUND, FEES, VOID, LEFT = range(10)
# LISTED: not sold, nothing more is said.  LIVE: for sale when the file was made.  ENDED: it ended without a sale.
# LEFT: it ended with so many units unsold, whatever sold of it before.
# KNOWN: a listing of which nothing is left; it tells what its sales do not, and in `ended_on` the day it was over.
# COUNTED: so many units of a listing were sold, without their orders.  VOID: this order or listing is no sale any more.
LISTINGS = (LISTED, LIVE, ENDED, KNOWN, LEFT)
ENDINGS = (ENDED, LEFT)
NEVER = np.datetime64("NaT", "D")


@dataclass(frozen=True)
class SalePart:
    """One file's rows, all arrays of shape (n_rows,); `piece` tells rows apart that were one row of the file.

    `made_on` is the day the file was made, NaT where it does not say.
    """

    sales: Sales
    role: CodeArray
    piece: CodeArray
    made_on: np.datetime64 = NEVER

    def __len__(self) -> int:
        return len(self.role)

    @classmethod
    def plain(cls, sales: Sales) -> "SalePart":
        """Sales and unsold listings alone.

        Examples
        --------
        >>> SalePart.plain(Sales.blank(1)).role.tolist() == [LISTED]
        True
        """
        role = np.where(sales.sold, SOLD, np.where(np.isnat(sales.ended_on), LISTED, ENDED)).astype(np.int8)
        return cls(sales, role, np.zeros(len(sales), dtype=np.int8))

    @property
    def as_of(self) -> np.datetime64:
        """The last day the file knows of, NaT without one; what sold out may have been meant to run longer."""
        made_on = np.array([self.made_on], dtype="datetime64[D]")
        ended_on = self.sales.ended_on[self.role != KNOWN]
        days = np.concatenate([self.sales.listed_on, self.sales.sold_on, ended_on, made_on])
        days = days[~np.isnat(days)]
        return days.max() if len(days) else np.datetime64("NaT", "D")
