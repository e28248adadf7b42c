"""The joint log-normal truth of a lot's unit prices: what is decided on, drawn from and explained.

ln unit price = mu + rows (theta - mean) + loading cells + own noise, theta and cells shared between lines.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.special import ndtri

from models.estimate.lot_cells import Cells
from models.estimate.lot_tag_use import TagUse
from models.estimate.lot_taught import Taught, remaining
from models.estimate.lot_totals import Range, Total, judgement_var, log_normal_range, lot_spread, lot_total, noise_cv2
from models.estimate.posterior import Posterior
from models.estimate.sparse_rows import SparseRows
from models.values.arrays import CodeArray, FloatArray, IntArray, TextArray
from models.values.problems import Caution


@dataclass(frozen=True)
class LotPrices:
    """Arrays of shape (n_lines,) unless said; prices are gross, unshaded, of one unit sold singly."""

    no: IntArray
    quantity: IntArray
    mu: FloatArray  # median ln unit price [ln minor units]; -inf where nothing is known at all
    noise_var: FloatArray  # variance of one sale's own noise
    rows: SparseRows  # (n_lines, p) X - BX
    posterior: Posterior
    cells: Cells
    item: TextArray  # stable key of the product in its own condition
    key: TextArray  # each line's own stream, by its content
    lot_key: str  # the lot's own stream
    condition: CodeArray  # that each line is priced in
    tag_use: TagUse  # what each line was priced by, and what became of the manifest's tag
    basis: TextArray  # own_item | brand_and_category | category | tag_only | prior_only
    sales_like_it: IntArray  # own sales behind that basis
    cautions: tuple[Caution, ...]
    taught: Taught | None = None  # what looked-up prices took off the spread

    def __len__(self) -> int:
        return len(self.no)

    @property
    def tag_used(self) -> FloatArray:
        """The tag each line was priced by [minor units], NaN none."""
        return self.tag_use.used

    @property
    def noise_sd(self) -> FloatArray:
        """Standard deviation of one sale's own noise [log units]."""
        return np.sqrt(self.noise_var)

    @cached_property
    def effects_var(self) -> FloatArray:
        """What the learned effects add to each line's log variance, before any looked-up price."""
        return self.posterior.variance(self.rows)

    @cached_property
    def log_var(self) -> FloatArray:
        """Log variance of a line's price level, without the noise of single sales."""
        before = self.effects_var + self.cells.line_var()
        return before if self.taught is None else np.maximum(before - self.taught.removed(), 0.0)

    @cached_property
    def unit_price(self) -> Range:
        """One unit of each line, sold singly [minor units]."""
        log_var = self.log_var + self.noise_var
        return log_normal_range(np.exp(self.mu + log_var / 2), log_var)

    def between(self, share: float) -> tuple[FloatArray, FloatArray]:
        """The middle `share` of what one unit of each line may fetch, sold singly: lowest, highest [minor units]."""
        reach = float(ndtri((1 + share) / 2)) * np.sqrt(self.log_var + self.noise_var)
        return self.unit_price.p50 * np.exp(-reach), self.unit_price.p50 * np.exp(reach)

    @cached_property
    def total(self) -> Total:
        """All units as listed, in closed form."""
        line_mean = self.quantity * self.unit_price.mean
        cv2 = noise_cv2(self.noise_var, self.quantity)
        before = lot_total(line_mean, cv2, self.rows, self.cells, self.posterior)
        return before if self.taught is None else remaining(before, self.posterior, self.cells, self.taught)

    @property
    def resale(self) -> Range:
        """Gross of all units as listed if every one sells singly [minor units], shape ()."""
        return log_normal_range(np.array(self.total.mean), np.array(self.total.log_var))

    @property
    def log_sd(self) -> float:
        """Log standard deviation of the total."""
        return float(np.sqrt(self.total.log_var))

    @property
    def judgement_sd(self) -> float:
        """The part of `log_sd` that another shop may judge otherwise."""
        return float(np.sqrt(judgement_var(self.total, self.cells)))

    @property
    def spread(self) -> tuple[tuple[str, float], ...]:
        """Where the total's spread comes from: shares of its log variance, largest first."""
        return lot_spread(self.total, self.cells)
