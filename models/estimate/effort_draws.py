"""How far may a lot's minutes lie from their means?  One log-normal factor a draw for each kind of work.

What the timings left open (coefficients, categories never timed) is drawn once for all lines and all lots under a seed;
what one purchase's goods share and what each listing takes of its own are the lot's.
"""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from typing import Literal

import numpy as np

from models.estimate.effort import LineMinutes
from models.estimate.effort_goods import places
from models.estimate.effort_model import KINDS, EffortModel
from models.estimate.tempo_levels import Levels, category_keys, counted
from models.values.arrays import FloatArray, IntArray, TextArray
from models.values.conditions import CONDITIONS
from models.values.lines import Lines
from models.values.settings import REGISTRY
from models.values.streams import DRAWS, standard_normals

RANGE_SDS = 2 * 1.2815515655446004  # a declared range low to high is read as an 80% range: 2 z_.90 sds wide


@dataclass(frozen=True)
class ListingSpread:
    """Where the spread of a lot's listing minutes comes from: ln minutes of each kind of unit, index in KINDS."""

    coefficients: FloatArray  # (3, n_coefficients), loadings on independent standard normals that all lots share
    cells: tuple[tuple[str, float, FloatArray], ...]  # name, sd and loading (3,) of each level never timed
    lot_sd: float  # of what the lot's goods share
    own_sd: float  # of the listings' own noise in the lot's sum

    @property
    def variance(self) -> FloatArray:
        """Of ln minutes of each kind, shape (3,)."""
        known = (self.coefficients**2).sum(axis=1) + sum((sd * load) ** 2 for _, sd, load in self.cells)
        return np.asarray(known + self.lot_sd**2 + self.own_sd**2)


def listing_spread(
    lines: Lines, minutes: LineMinutes, model: EffortModel, given: Collection[str] = ()
) -> ListingSpread:
    """Loadings of a lot's minutes, by kind of unit.

    Parameters
    ----------
    lines : Lines
        The manifest.
    minutes : LineMinutes
        Its mean minutes.
    model : EffortModel
        What was learned, and how well.
    given : collection of str
        Kinds (`minutes_first`, ...) that the seller gave: their level is certain, not what the goods add.

    Returns
    -------
    ListingSpread

    Notes
    -----
    ln of a sum of log-normals is linearised around its means: the loading of a kind is the mean of its lines' columns,
    weighted by their minutes.
    """
    share = _shares(minutes)
    top, sub = category_keys(lines.category)
    blocks = (lines.condition.astype(np.int64), places(model.top, top), places(model.sub, sub))
    direction = np.stack([_loading(model, blocks, one) for one in share])
    for kind, name in enumerate(KINDS):
        direction[kind, [0] if kind == 0 else [0, kind]] = 1.0
        if name in given:  # what is certain is said of the usual goods
            direction[kind, : len(KINDS)] = 0.0
            direction[kind] -= model.usual
    cells = (
        *_unseen("category", model.top, top, model.top_sd, share),
        *_unseen("kind", model.sub, sub, model.sub_sd, share),
    )
    each = minutes.listing / minutes.listing.sum()
    own = float(np.log1p(np.expm1(model.noise_sd**2) * (each**2 / _listings(lines)).sum()))
    return ListingSpread(direction @ model.root, cells, model.lot_sd, float(np.sqrt(own)))


def listing_factor_draws(spread: ListingSpread, lot_key: str, seed: int, draws: int = DRAWS) -> FloatArray:
    """Factors on the minutes of first, further sealed and further used units: mean 1, log-normal.

    Parameters
    ----------
    spread : ListingSpread
        Of the lot.
    lot_key : str
        What the lot's own draws are keyed by.
    seed : int
        The evaluation's seed.
    draws : int
        How many.

    Returns
    -------
    ndarray of shape (3, draws)
        Unit free.
    """
    log = np.zeros((len(KINDS), draws))
    for number, load in enumerate(spread.coefficients.T):
        if load.any():
            log += load[:, None] * standard_normals(seed, "minutes", f"coefficient {number}", draws)
    for name, sd, load in spread.cells:
        log += (sd * load)[:, None] * standard_normals(seed, "minutes", name, draws)
    log += float(np.hypot(spread.lot_sd, spread.own_sd)) * standard_normals(seed, "minutes of a lot", lot_key, draws)
    return np.asarray(np.exp(log - spread.variance[:, None] / 2.0))


def declared_factor_draws(work: Literal["sorting", "packing"], seed: int, draws: int = DRAWS) -> FloatArray:
    """One factor a draw for all sorting or packing minutes, the same in all lots: mean 1, log-normal.

    Parameters
    ----------
    work : str
        Nothing measures either: their setting's range is read as an 80% range.
    seed : int
        The evaluation's seed.
    draws : int
        How many.

    Returns
    -------
    ndarray of shape (draws,)
        Unit free.

    Examples
    --------
    >>> low, high = np.quantile(declared_factor_draws("sorting", 1), [0.1, 0.9])
    >>> bool(3.8 < high / low < 4.2)
    True
    """
    declared = REGISTRY[f"effort.{'minutes_sort' if work == 'sorting' else 'minutes_pack'}"]
    if declared.low is None or declared.high is None:
        return np.ones(draws)
    sd = float(np.log(declared.high / declared.low) / RANGE_SDS)
    return np.asarray(np.exp(sd * standard_normals(seed, "minutes", work, draws) - sd**2 / 2.0))


def _shares(minutes: LineMinutes) -> FloatArray:
    """Each line's share in the minutes of each kind, shape (3, n); of all minutes where a kind has none."""
    kinds = np.stack([minutes.listing_first, minutes.listing_repeat, minutes.listing_used])
    sums = kinds.sum(axis=1, keepdims=True)
    return np.where(sums > 0, kinds / np.where(sums > 0, sums, 1.0), minutes.listing / minutes.listing.sum())


def _loading(model: EffortModel, blocks: tuple[IntArray, IntArray, IntArray], share: FloatArray) -> FloatArray:
    """Mean columns of the lines; a condition that is not known counts as the usual mix of the history."""
    loading = np.zeros(len(model.usual))
    start = len(KINDS)
    for at, count in zip(blocks, (len(CONDITIONS), len(model.top.name), len(model.sub.name)), strict=True):
        known = at >= 0
        block = slice(start, start + count)
        loading[block] = counted(at[known], share[known], count)
        if start == len(KINDS):
            loading[block] += share[~known].sum() * model.usual_conditions
        start += count
    return loading


def _unseen(
    what: str, levels: Levels, names: TextArray, sd: float, share: FloatArray
) -> Iterator[tuple[str, float, FloatArray]]:
    """A cell for each level without a column; goods of no told category are what they are in the history."""
    strange = names[places(levels, names) < 0]
    for name in sorted(set(strange.tolist()) - {""}):
        yield f"{what} {name}", sd, np.asarray(share[:, names == name].sum(axis=1))


def _listings(lines: Lines) -> FloatArray:
    """Listings whose noise is their own: an assorted line has as many as units."""
    return np.where(lines.assorted, lines.quantity, 1).astype(np.float64)
