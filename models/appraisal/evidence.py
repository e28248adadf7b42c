"""On what does a line's price rest, in the contract's form?  What is not known of a line is left out."""

import datetime as dt
import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from types import MappingProxyType
from typing import Any

import numpy as np

from models.appraisal.model import Model
from models.appraisal.prepare import Prepared
from models.appraisal.written import money, number
from models.estimate.lot_as_sold import as_sold
from models.estimate.lot_bulk import bulk_factor
from models.estimate.lot_comps import ALIKE, SAME_ITEM, LineComps, nearest_sales
from models.estimate.lot_facts import plain_facts
from models.estimate.lot_tag_use import FOLLOWED, TagFate
from models.estimate.own_comps import UNDATED, OwnComps
from models.values.arrays import FloatArray
from models.values.conditions import name_of

HALF = 0.5
NEAR_ENOUGH = 0.03  # two tags that differ by more do not agree; common practice, no source
_SOURCED: Mapping[int, str | None] = MappingProxyType({1: "bulk", 0: "single", -1: None})
_EPOCH = dt.date(1970, 1, 1)
_OWN_ONLY = "The list gives no tag: the tag on your own sales of it was used."
_SAID: Mapping[int, str] = MappingProxyType({
    TagFate.USED: "The list's tag was used.",
    TagFate.AGREES: "The tag on your own sales of it was used; the list's agrees with it.",
    TagFate.REPLACED: "The list's tag was not believed: the tag on your own sales of it was used.",
    TagFate.IGNORED: "The list's tag was not believed, and no tag was used.",
    TagFate.NOT_NEEDED: "The list's tag was not used: your own sales of it carry none, and say what it fetches.",
    TagFate.NOT_COMPARED: "The list's tag was not used: your history has no tags to compare it with.",
})  # fmt: skip


@dataclass(frozen=True)
class Evidence:
    """What the lines' documents read."""

    low: FloatArray  # (n,) half of such units fetch between these [minor units]
    high: FloatArray
    bulk: FloatArray  # (n,) a bulk piece's price over a single find's
    nearest: LineComps | None  # None where the model was kept before own sales were
    comps: OwnComps | None
    # A long lot repeats its goods: one document for all lines that show a sale, one list for all that show the same.
    made: dict[tuple[int, int, float], dict[str, Any]] = field(default_factory=dict)
    lists: dict[int, list[dict[str, Any]]] = field(default_factory=dict)

    @classmethod
    def of(cls, lot: Prepared, model: Model) -> "Evidence":
        """Of all lines of a lot."""
        low, high = lot.prices.between(HALF)
        facts = plain_facts(lot.lines, lot.matched, model.prices, np.zeros(len(lot.lines)))
        ranges = low, high, bulk_factor(model.prices, facts.top)
        if model.comps is None:
            return cls(*ranges, None, None)
        told = as_sold(lot.lines, lot.matched, model.prices)
        last_day = float(model.known_until.astype("datetime64[D]").astype(np.int64))
        return cls(*ranges, nearest_sales(told, lot.own, model.comps, last_day), model.comps)


def evidence_document(at: int, lot: Prepared, evidence: Evidence, currency: str) -> dict[str, Any]:
    """One line's evidence; lines alike share it, so it is never changed."""
    prices, use = lot.prices, lot.prices.tag_use
    of_product = int(lot.own_sales[at]) if lot.own[at] >= 0 else None
    told, priced = int(lot.lines.condition[at]), int(prices.condition[at])
    rests = prices.basis[at], int(prices.sales_like_it[at]), of_product, None if priced == told else name_of(priced)
    amounts = [money(float(value[at]), currency) for value in (lot.lines.tag_each, use.own, use.used)]
    known = prices.unit_price.mean[at] > 0
    half = [money(float(value[at]), currency) if known else None for value in (evidence.low, evidence.high)]
    bulk = round(float(evidence.bulk[at]), 3)
    return _evidence(rests, (int(use.fate[at]), *amounts), (half[0], half[1]), bulk)


@lru_cache(maxsize=10_000)
def _evidence(
    rests: tuple[str, int, int | None, str | None],
    tag: tuple[Any, ...],
    half: tuple[str | None, str | None],
    bulk: float,
) -> dict[str, Any]:
    basis, sales, of_product, priced_as = rests
    found: dict[str, Any] = {"basis": basis, "sales_like_it": sales, "bulk_against_single": bulk}
    if of_product is not None:
        found["sales_of_product"] = of_product
    if priced_as is not None:
        found["priced_as"] = priced_as
    if told := _tag(*tag):
        found["tag"] = told
    if half[0] is not None:
        found["spread"] = {"share": HALF, "low": half[0], "high": half[1]}
    return found


def believed_tag(at: int, lot: Prepared) -> float:
    """The tag a line was priced by [minor units], NaN where the manifest's own was not followed."""
    use = lot.prices.tag_use
    return float(use.used[at]) if use.fate[at] in FOLLOWED else float("nan")


def tag_counts(lot: Prepared) -> dict[str, int]:
    """Lines by what became of their tags."""
    fate = lot.prices.tag_use.fate
    return {
        "given": int((fate != TagFate.NONE).sum()),
        "used": int(np.isin(fate, (TagFate.USED, TagFate.AGREES)).sum()),
        "replaced": int((fate == TagFate.REPLACED).sum()),
        "ignored": int((fate == TagFate.IGNORED).sum()),
        "not_needed": int(np.isin(fate, (TagFate.NOT_NEEDED, TagFate.NOT_COMPARED)).sum()),
    }


def comp_documents(at: int, evidence: Evidence, currency: str) -> dict[str, Any]:
    """The own sales most like a line, best first; absent where the model kept none to choose from."""
    nearest, comps = evidence.nearest, evidence.comps
    if nearest is None or comps is None:
        return {}
    asked = int(nearest.asked[at])
    if asked not in evidence.lists:
        evidence.lists[asked] = _comps(at, evidence, nearest, comps, currency)
    return {"own_comps": evidence.lists[asked]}


def _comps(at: int, evidence: Evidence, nearest: LineComps, comps: OwnComps, currency: str) -> list[dict[str, Any]]:
    row = zip(nearest.sale[at].tolist(), nearest.tier[at].tolist(), nearest.likeness[at].round(2).tolist(), strict=True)
    shown = [which for which in row if which[0] >= 0]
    for which in shown:
        if which not in evidence.made:
            evidence.made[which] = _comp(*which, comps, currency)
    return [evidence.made[which] for which in shown]


def _comp(sale: int, tier: int, likeness: float, comps: OwnComps, currency: str) -> dict[str, Any]:
    day = int(comps.sold_on[sale])
    how = {"likeness": round(likeness, 2)} if tier == ALIKE else {"same": "item" if tier == SAME_ITEM else "product"}
    return {
        "title": comps.titles[comps.title[sale]],
        "sold_price": money(float(comps.price[sale]), currency),
        "sold_on": None if day == UNDATED else (_EPOCH + dt.timedelta(days=day)).isoformat(),
        "condition": name_of(int(comps.condition[sale])),
        "sale": comps.ref[sale],
        "sourced": _SOURCED[int(comps.sourced[sale])],
        "days_to_sell": number(float(comps.days[sale]), 0),
        **how,
    }


def _differs(apart: float) -> str:
    way = "higher" if apart > 0 else "lower"
    return (
        "The tag on your own sales of it was used, for what they fetched is known beside it; the list's is"
        f" {math.floor(abs(apart) * 100 + 0.5)}% {way}."
    )


@lru_cache(maxsize=10_000)
def _tag(fate: int, manifest: str | None, own: str | None, used: str | None) -> dict[str, Any] | None:
    if fate == TagFate.NONE and used is None:
        return None
    amounts = {"manifest": manifest, "own_median": own, "used": used}
    said = _OWN_ONLY if fate == TagFate.NONE else _SAID[fate]
    if fate == TagFate.AGREES and manifest and own:
        apart = float(manifest) / float(own) - 1.0
        said = said if abs(apart) <= NEAR_ENOUGH else _differs(apart)
    return {name: amount for name, amount in amounts.items() if amount is not None} | {"said": said}
