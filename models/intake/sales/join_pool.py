"""All rows of all files in one place, with what tells whether two of them are the same sale or listing."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import fields, replace
from functools import cached_property

import numpy as np

from models.values.arrays import CodeArray, DayArray, IntArray, texts
from models.values.sale_parts import SalePart
from models.values.sales import Sales

BLANK_DAY = int(np.iinfo(np.int64).min)  # what NaT is inside
Groups = list[list[int]]  # rows of the pool that are one sale or listing, in the order they came
_MOST = 0.5  # of a file's SKUs that are another file's listing numbers
_MOST_SHARED = 0.05  # of the SKUs that several titles have in one file; common practice, no source
_MAY_DIFFER_IN_NOTHING = ("order", "listing", "sku", "gtin", "place")


class Pool:
    """Rows of all parts in order; lists where single cells are looked at, arrays where whole columns are."""

    def __init__(self, parts: Sequence[SalePart]) -> None:
        self.sales = _together([part.sales for part in with_listing_numbers(parts)])
        lengths = [len(part) for part in parts]
        self.part: IntArray = np.repeat(np.arange(len(parts)), lengths)
        self.role: CodeArray = _joined([part.role for part in parts], np.int8)
        self.piece: CodeArray = _joined([part.piece for part in parts], np.int8)
        self.as_of: list[int] = [days_of(np.array([part.as_of]))[0] for part in parts]
        self.of = self.part.tolist()
        self.roles = self.role.tolist()
        self.order = self.sales.order_ref.tolist()
        self.listing = self.sales.listing_ref.tolist()
        self.sku = [text.casefold() for text in self.sales.sku.tolist()]
        self.gtin = self.sales.gtin.tolist()
        self.place = [text.casefold() for text in self.sales.place.tolist()]
        self.title = [" ".join(text.casefold().split()) for text in self.sales.title.tolist()]
        self.condition = self.sales.condition.tolist()
        self.quantity = self.sales.quantity.tolist()
        self.sold_on = days_of(self.sales.sold_on)
        self.listed_on = days_of(self.sales.listed_on)
        self.price = np.nan_to_num(np.round(self.sales.sold_price), nan=-1.0).tolist()

    def rows(self, roles: Iterable[int]) -> list[int]:
        """Rows of these roles, in order."""
        found: list[int] = np.flatnonzero(np.isin(self.role, list(roles))).tolist()
        return found

    def differ(self, one: int, other: int) -> bool:
        """True if a mark that both rows carry is not the same; what one leaves blank says nothing."""
        if self.differ_in(_MAY_DIFFER_IN_NOTHING, one, other):
            return True
        conditions = self.condition[one], self.condition[other]
        return bool(min(conditions) >= 0 and conditions[0] != conditions[1])

    def differ_in(self, names: Sequence[str], one: int, other: int) -> bool:
        """True if both rows carry one of these marks and it is not the same."""
        for name in names:
            column = getattr(self, name)
            if column[one] and column[other] and column[one] != column[other]:
                return True
        return False

    @cached_property
    def skus_of_one_thing(self) -> frozenset[str]:
        """SKUs that no file gives to two titles; none at all where many are shared, as a shelf's or a lot's are."""
        titles = {(part, sku, title) for part, sku, title in zip(self.of, self.sku, self.title, strict=True) if sku}
        files = Counter((part, sku) for part, sku, _ in titles)
        shared = {sku for (_, sku), times in files.items() if times > 1}
        skus = {sku for _, sku in files}
        return frozenset(skus - shared) if len(shared) <= _MOST_SHARED * len(skus) else frozenset()

    def listed_apart(self, one: int, other: int) -> bool:
        """True if both days of listing are told and are not the same."""
        days = self.listed_on[one], self.listed_on[other]
        return BLANK_DAY not in days and days[0] != days[1]

    def likeness(self, one: int, other: int) -> int:
        """How much two rows that may be one share: title above SKU above price."""
        likeness: int = (
            4 * (self.title[one] == self.title[other])
            + 2 * (self.sku[one] == self.sku[other])
            + (self.price[one] == self.price[other])
        )
        return likeness


def with_listing_numbers(parts: Sequence[SalePart]) -> list[SalePart]:
    """A file without listing numbers whose SKUs are the listing numbers of another file has them under that name."""
    known = {number for part in parts for number in part.sales.listing_ref.tolist() if number}
    return [_renumbered(part) if known and _are_numbers(part, known) else part for part in parts]


def _are_numbers(part: SalePart, known: set[str]) -> bool:
    if (part.sales.listing_ref != "").any():
        return False
    skus = [sku for sku in part.sales.sku.tolist() if sku]
    return bool(skus) and sum(sku in known for sku in skus) >= _MOST * len(skus)


def _renumbered(part: SalePart) -> SalePart:
    nothing = texts([""] * len(part))
    return replace(part, sales=replace(part.sales, listing_ref=part.sales.sku, sku=nothing))


def days_of(days: DayArray) -> list[int]:
    """Days as whole numbers, BLANK_DAY for blank."""
    numbers: list[int] = days.astype("datetime64[D]").astype(np.int64).tolist()
    return numbers


def _together(parts: Sequence[Sales]) -> Sales:
    parts = parts or [Sales.blank(0)]
    return Sales(**{field.name: np.concatenate([getattr(one, field.name) for one in parts]) for field in fields(Sales)})


def _joined(columns: Sequence[CodeArray], kind: type) -> CodeArray:
    return np.concatenate(columns) if columns else np.array([], dtype=kind)
