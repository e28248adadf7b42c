"""What do the lots of one cut-off share?  The predicted spread of their mean log error, in closed form."""

from collections.abc import Sequence

import numpy as np

from models.estimate.lot_joint import LotPrices

_OWN_KINDS = ("lot", "tags of the lot", "untold")  # drawn anew for every lot


def shift_sd(lots: Sequence[LotPrices]) -> float:
    """Sd of the mean, over lots of one fitted model, of ln actual less ln forecast.

    The mean of the lots' directions carries what the learned effects share; cells of one kind and name are one cell,
    but for those that belong to a lot alone.
    """
    direction = np.mean([lot.total.direction for lot in lots], axis=0)
    reached = direction @ lots[0].posterior.columns
    shared: dict[tuple[str, str], tuple[float, float]] = {}
    own = 0.0
    for lot in lots:
        load = lot.cells.loading.weighted_columns(lot.total.weight)
        cells = zip(lot.cells.kind.tolist(), lot.cells.name.tolist(), lot.cells.var.tolist(), load, strict=True)
        for kind, name, var, one in cells:
            if kind in _OWN_KINDS:
                own += var * one**2
            else:
                shared[kind, name] = (var, shared.get((kind, name), (var, 0.0))[1] + one)
        own += lot.total.noise
    count = len(lots)
    cells_var = sum(var * (load / count) ** 2 for var, load in shared.values())
    return float(np.sqrt(reached @ reached + cells_var + own / count**2))
