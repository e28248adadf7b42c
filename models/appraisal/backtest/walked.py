"""What did the walk find, and what of it is judged?  Lots large enough, most of which has sold, of one way in."""

from collections.abc import Sequence
from dataclasses import dataclass

from models.appraisal.backtest.dated import Dated
from models.appraisal.backtest.outcome import Listings, Tested
from models.appraisal.backtest.own_lots import FEWEST_ROWS, Goods
from models.values.arrays import DayArray

FEWEST_LOTS = 5  # judged; fewer tell nothing
ENOUGH_BULK = 8  # lots bought in bulk, to be judged by them alone
LEAST_SOLD = 0.5  # share of a lot's units that must have sold, else what is left may be the worse half


@dataclass(frozen=True)
class Walked:
    """All cut-offs, in order."""

    history: Dated
    days: DayArray
    sales_known: tuple[int, ...]
    lots: tuple[Tested, ...]
    listings: Listings | None

    @property
    def judged(self) -> tuple[Tested, ...]:
        """Lots with enough sales, at least half sold."""
        return tuple(lot for lot in self.lots if is_large(lot) and lot.units >= LEAST_SOLD * lot.units_listed)

    @property
    def unsold_units(self) -> int:
        """Units with a day of listing that had not sold by the end of the history."""
        waiting = self.history.is_listed & ~self.history.sales.sold
        return int(self.history.sales.quantity[waiting].sum())

    @property
    def unsold(self) -> int:
        """Lots that are not judged because too much of them has not sold yet."""
        return sum(lot.units < LEAST_SOLD * lot.units_listed for lot in self.lots)


def is_large(lot: Tested) -> bool:
    """Enough sales to be a lot."""
    return lot.sales >= FEWEST_ROWS


def chief(lots: Sequence[Tested]) -> tuple[Tested, ...]:
    """The lots that count first: bought in bulk, as the lots to bid on are; all of them where those are too few."""
    bulk = tuple(lot for lot in lots if lot.goods is Goods.BULK)
    return bulk if len(bulk) >= ENOUGH_BULK else tuple(lots)
