"""How is an invented shop made?  Sizes, shares and standard deviations in log units; none of it is seen by a method."""

from dataclasses import dataclass

import numpy as np

TOPS = 6
SUBS = 24
AHEAD = (10.0, 80.0)  # a lot's units sell so many days after the cut-off, evenly


@dataclass(frozen=True)
class Shape:
    """One world; two shapes that differ in tags only share goods, prices and lots."""

    seed: int
    n_sales: int
    lot_sd: float = 0.15
    market_sd: float = 0.06  # a quarter
    top_sd: float = 0.04  # a quarter, each top category
    noise_sd: float = 0.30  # of one sale, before the factors of kind and condition
    wrong_tags: float = 0.0  # share of rows and lines
    no_tags: float = 0.08  # share of rows and lines
    lots_named: bool = True
    singles: float = 0.3  # share of the history that was hand-picked
    unsold: float = 0.1  # share of listings that nobody wants
    span_days: int = 0  # 0: as usual for so many sales

    @property
    def days(self) -> int:
        """Days of history."""
        return self.span_days or int(np.interp(np.log(self.n_sales), np.log([50, 300, 3000, 30000]), _SPANS))

    @property
    def lot_lines(self) -> int:
        """Rows of one purchase in the history: a small shop has bought small."""
        return int(np.clip(self.n_sales / 20, 7, 40))

    @property
    def brands(self) -> int:
        """Brands this shop deals in."""
        return int(np.clip(3 * np.sqrt(self.n_sales), 20, 400))


_SPANS = [240, 420, 800, 1100]
BULK_EFFECT = -0.38  # of goods bought in bulk against hand-picked ones of the same kind
