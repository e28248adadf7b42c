"""What does the shop's own history say about prices?  Everything a lot's prices are read from, as plain arrays."""

from dataclasses import dataclass

import numpy as np

from models.estimate import posterior as posteriors
from models.estimate.blocks import BLOCKS, Facts, Layout
from models.estimate.own_kinds import OwnKinds, no_kinds
from models.estimate.posterior import Posterior
from models.estimate.sparse_rows import SparseRows
from models.estimate.tags import PRICE_SLOPE, TagModel
from models.values.arrays import Arrays, FloatArray, IntArray, TextArray

# ln price against a sealed unit, before the data speak; index is the condition's code, the last one is unknown.
# Unknown lies between sealed and works: sales that name no condition must not make those that do look dear.
# Untested is as worn: only sales made as untested use it, a line to value is priced as working (if it is alive).
CONDITION_OFFSETS = np.array([0.0, -0.15, -0.3, -0.6, -0.6, -1.1, -0.15])
BULK_OFFSET = -0.38
UNKNOWN_BULK = 1 / 3


@dataclass(frozen=True)
class OwnItems:
    """Items that sold, ordered by product and condition."""

    product: IntArray  # (n_items,)
    condition: IntArray  # (n_items,) code, -1 unknown
    sales: IntArray  # (n_items,) rows
    weight: FloatArray  # (n_items,) sum of 1 / noise variance
    outcome: FloatArray  # (n_items,) weighted mean of ln price less offsets
    rows: SparseRows  # (n_items, p) weighted mean of the rows


@dataclass(frozen=True)
class OwnProducts:
    """What is remembered of each product of the book; arrays of shape (n_products,)."""

    tag: FloatArray  # E r* [ln minor units]
    tag_var: FloatArray
    own_tag: FloatArray  # median of its own tags [minor units], NaN none
    sales: IntArray  # sold rows
    kinds: OwnKinds  # what its own sales called it


@dataclass(frozen=True)
class Noise:
    """Variance of one sale's ln price around its item."""

    common: float
    by_condition: FloatArray  # (7,) factors; the last one is unknown
    top: TextArray  # (n_tops,)
    by_top: FloatArray  # (n_tops,)
    by_tag: FloatArray  # (2,) own tag, none


@dataclass(frozen=True)
class Counts:
    """How many own sales stand behind a kind of goods."""

    pair: TextArray  # brand and sub-category, joined
    of_pair: IntArray
    sub: TextArray
    of_sub: IntArray
    top_of_sub: TextArray  # the top category most of its sales were filed under


@dataclass(frozen=True)
class PriceModel:
    """Prices as learned up to the last known sale."""

    currency: str
    sales_used: int
    last_sale: float  # days since 1970 of the last known sale, NaN none
    fitted: bool  # False: too few sales, declared priors only
    lots_named: bool
    tagged: bool  # own tags could be learned from
    centre: float  # mean ln tag that `Facts.tag` is taken from [ln minor units]
    product_var: float
    item_var: float
    posterior: Posterior
    tags: TagModel
    items: OwnItems
    products: OwnProducts
    noise: Noise
    counts: Counts

    def arrays(self) -> Arrays:
        """Plain arrays under stable names; texts are object arrays of strings."""
        plain = {name: np.array(getattr(self, name)) for name in _NUMBERS}
        plain["currency"] = np.frombuffer(self.currency.encode(), dtype=np.uint8)
        for group, table in _GROUPS.items():
            plain |= {f"{group}.{name}": np.asarray(getattr(getattr(self, group), name)) for name in table}
        plain |= {f"kinds.{name}": getattr(self.products.kinds, name) for name in _KINDS}
        rows = self.items.rows
        plain |= {"rows.start": rows.start, "rows.column": rows.column, "rows.value": rows.value}
        plain |= {"tags.wrong_share": np.array(self.tags.wrong_share), "tags.products": np.array(self.tags.products)}
        return plain | posteriors.to_arrays(self.posterior, "price") | posteriors.to_arrays(self.tags.posterior, "tag")


_NUMBERS = ("sales_used", "last_sale", "fitted", "lots_named", "tagged", "centre", "product_var", "item_var")
_KINDS = ("of", "title", "brand", "category")
_GROUPS = {
    "items": ("product", "condition", "sales", "weight", "outcome"),
    "products": ("tag", "tag_var", "own_tag", "sales"),
    "noise": ("common", "by_condition", "top", "by_top", "by_tag"),
    "counts": ("pair", "of_pair", "sub", "of_sub", "top_of_sub"),
}


def from_arrays(arrays: Arrays) -> PriceModel:
    """The model that `PriceModel.arrays` wrote."""
    part = {group: {name: arrays[f"{group}.{name}"] for name in names} for group, names in _GROUPS.items()}
    posterior = posteriors.from_arrays(arrays, "price")
    rows = SparseRows(arrays["rows.start"], arrays["rows.column"], arrays["rows.value"], posterior.layout.width)
    tag_posterior = posteriors.from_arrays(arrays, "tag")
    noise = part["noise"] | {"common": float(arrays["noise.common"])}
    return PriceModel(
        currency=arrays["currency"].tobytes().decode(),
        sales_used=int(arrays["sales_used"]),
        last_sale=float(arrays["last_sale"]),
        fitted=bool(arrays["fitted"]),
        lots_named=bool(arrays["lots_named"]),
        tagged=bool(arrays["tagged"]),
        centre=float(arrays["centre"]),
        product_var=float(arrays["product_var"]),
        item_var=float(arrays["item_var"]),
        posterior=posterior,
        tags=TagModel(tag_posterior, float(arrays["tags.wrong_share"]), int(arrays["tags.products"])),
        items=OwnItems(**part["items"], rows=rows),
        products=OwnProducts(**part["products"], kinds=_kinds(arrays, len(part["products"]["sales"]))),
        noise=Noise(**noise),  # type: ignore[arg-type]
        counts=Counts(**part["counts"]),
    )


def _kinds(arrays: Arrays, n_products: int) -> OwnKinds:
    """Models kept before products had kinds are priced by the lines' own words, as they were."""
    return (
        OwnKinds(**{name: arrays[f"kinds.{name}"] for name in _KINDS}) if "kinds.of" in arrays else no_kinds(n_products)
    )


def offsets(facts: Facts, centre: float) -> FloatArray:
    """What is declared of ln price before the data speak, from tag, condition and bulk; shape (n_rows,)."""
    found = PRICE_SLOPE * (facts.tag + centre) + CONDITION_OFFSETS[facts.condition] + BULK_OFFSET * facts.bulk
    return np.asarray(found, dtype=np.float64)


def no_posterior() -> Posterior:
    """A regression without columns, for a history that taught nothing.

    Examples
    --------
    >>> no_posterior().layout.width
    0
    """
    empty = np.zeros(0)
    layout = Layout(np.empty(0, dtype=object), np.zeros(0, dtype=np.int64))
    blocks = np.zeros(len(BLOCKS))
    return Posterior(layout, empty, empty.astype(np.float32), blocks, blocks, 0.0)
