"""Which lines wait behind the seller's own units of the same goods?"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from models.appraisal.prepare import NEVER_DAYS, Prepared
from models.estimate.tempo import days_to_sell
from models.values.problems import Caution

MUCH_LATER, DAYS_LATER = 1.5, 14.0  # times the days without own stock, and days more, from which it is told


def waiting_cautions(lot: Prepared) -> Iterator[Caution]:
    """Of every line that sells much later because units of it are on offer already."""
    tempo = lot.tempo
    stock = np.where(tempo.apart, 0.0, tempo.stock)[tempo.product]
    if not stock.any():
        return
    alone = days_to_sell(replace(tempo, stock=np.zeros_like(tempo.stock)), NEVER_DAYS)
    late = np.nan_to_num(lot.days_to_sell, nan=np.inf) > np.maximum(MUCH_LATER * alone, alone + DAYS_LATER)
    for at in np.flatnonzero((stock > 0) & late).tolist():
        units = int(stock[at])
        are = "is" if units == 1 else "are"
        yield Caution(
            f"{units:,} of it {are} on offer already; these wait behind {'it' if units == 1 else 'them'}.",
            f"Without that half of these would sell within {_days(alone[at])}: buy fewer, or count on the wait.",
            line=int(lot.lines.no[at]),
        )


def _days(days: float) -> str:
    return "1 day" if round(days) <= 1 else f"{days:,.0f} days"
