"""What was learned from one sold history?  All an appraisal needs of it, as plain arrays."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from typing import Any

import numpy as np

from models.estimate import price_model
from models.estimate.effort_model import EffortModel
from models.estimate.own_comps import OwnComps
from models.estimate.pace import Pace
from models.estimate.price_model import PriceModel
from models.estimate.products import ProductBook
from models.estimate.tempo_model import TempoModel
from models.values.arrays import Arrays
from models.values.given import Given
from models.values.packing import pack, unpack


@dataclass(frozen=True)
class Model:
    """One fitted set of regressions with the settings the history taught."""

    book: ProductBook
    prices: PriceModel
    tempo: TempoModel
    effort: EffortModel
    learned: Given
    currency: str
    known_until: np.datetime64  # [D], the end of what the history knows
    sales_used: int  # sold rows with a usable price
    blanks: Mapping[str, float]  # share of sold rows that leave a telling column blank
    fingerprint: str  # of the sales it was fitted on
    pace: Pace | None = None  # what is listed in a usual week, where the dates tell
    categories: tuple[str, ...] | None = None  # that the history files sales under, plain paths; None: kept without
    comps: OwnComps | None = None  # sales to show beside lines; None: kept before they were

    def to_bytes(self) -> bytes:
        """Plain arrays, no pickle."""
        parts: dict[str, Arrays] = {
            "book": {field.name: getattr(self.book, field.name) for field in fields(self.book)},
            "prices": self.prices.arrays(),
            "tempo": self.tempo.arrays(),
            "effort": self.effort.arrays(),
        }
        if self.comps is not None:
            parts["comps"] = self.comps.arrays()
        arrays = {f"{part}/{name}": array for part, named in parts.items() for name, array in named.items()}
        return pack(arrays | {"facts": np.array(json.dumps(self._facts()))})

    def _facts(self) -> dict[str, Any]:
        return {
            "learned": self.learned,
            "currency": self.currency,
            "known_until": str(self.known_until),
            "sales_used": self.sales_used,
            "blanks": dict(self.blanks),
            "fingerprint": self.fingerprint,
            "pace": None if self.pace is None else asdict(self.pace),
            "categories": self.categories,
        }

    @staticmethod
    def from_bytes(data: bytes) -> "Model":
        """The model that `to_bytes` wrote."""
        arrays = unpack(data)

        def part(name: str) -> Arrays:
            return {key.removeprefix(name + "/"): array for key, array in arrays.items() if key.startswith(name + "/")}

        comps = part("comps")
        facts = json.loads(str(arrays["facts"]))
        pace = facts.pop("pace", None)
        paths = facts.pop("categories", None)
        return Model(
            book=ProductBook(**part("book")),
            prices=price_model.from_arrays(part("prices")),
            tempo=TempoModel.from_arrays(part("tempo")),
            effort=EffortModel.from_arrays(part("effort")),
            comps=OwnComps.from_arrays(comps) if comps else None,
            pace=None if pace is None else Pace(**pace),
            categories=None if paths is None else tuple(paths),
            **facts | {"known_until": np.datetime64(facts["known_until"], "D")},
        )
