"""How many worlds does a run have?  The full run is what the bars were set for; the quick one fits into ten minutes."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType


@dataclass(frozen=True)
class Plan:
    """Numbers of worlds by number of sales, and sizes of the other workloads."""

    name: str
    worlds: Mapping[int, int]  # {sales: worlds} of price and totals, for each lot sd
    money_worlds: Mapping[int, int]
    lots: int  # a world
    tag_worlds: Mapping[int, int]
    bulk_worlds: int
    drift: tuple[int, int]  # worlds, cut-offs
    closed_form: Mapping[int, int]
    computers_cutoffs: int
    car_splits: int
    auctions: tuple[int, int]  # worlds, lots that each of its shops values
    what_if: tuple[int, int]  # worlds, lots
    pace_worlds: Mapping[int, int]  # {listings: worlds} of time to sell
    effort: tuple[int, int]  # sellers of each size and kind, lots of each
    large: bool  # the largest fits and lots
    mutated_files: int
    manifest_lines: int  # of the long files that are read against bare readers
    history_rows: int  # of the long sold history


QUICK = Plan(
    name="quick", worlds=MappingProxyType({50: 5, 300: 5, 3000: 2}), money_worlds=MappingProxyType({50: 48, 300: 48}),
    lots=30, tag_worlds=MappingProxyType({300: 4, 3000: 1}), bulk_worlds=4, drift=(2, 12),
    closed_form=MappingProxyType({50: 2, 300: 2}), computers_cutoffs=13, car_splits=15,
    auctions=(4, 30), what_if=(1, 1), pace_worlds=MappingProxyType({50: 24, 300: 8, 3000: 2}), effort=(8, 20),
    large=False,
    mutated_files=1_000, manifest_lines=100_000, history_rows=100_000,
)  # fmt: skip
FULL = Plan(
    name="full", worlds=MappingProxyType({50: 20, 300: 20, 3000: 8, 30000: 2}),
    money_worlds=MappingProxyType({50: 96, 300: 96}), lots=40, tag_worlds=MappingProxyType({300: 12, 3000: 4}),
    bulk_worlds=12, drift=(4, 14), closed_form=MappingProxyType({50: 6, 300: 6, 3000: 3}), computers_cutoffs=26,
    car_splits=15, auctions=(24, 40), what_if=(4, 1), effort=(24, 40), large=True,
    pace_worlds=MappingProxyType({50: 120, 300: 60, 3000: 24}),
    mutated_files=20_000, manifest_lines=100_000, history_rows=1_000_000,
)  # fmt: skip
