"""Every bar of the bench, in one place, with where it comes from; nothing else in the bench knows a wanted figure."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np

ISSUE = "issue bar"
MET, NEARLY, MISSED = "met", "met within 2 se", "missed"


@dataclass(frozen=True)
class Bar:
    """A wanted range; `allowance` lets bars of coverage and bias be met within two standard errors."""

    low: float | None
    high: float | None
    says: str
    allowance: bool = False
    stretch: tuple[float | None, float | None] = (None, None)
    source: str = ISSUE

    def verdict(self, mean: float, error: float) -> str:
        """Met, met within two standard errors where that counts, or missed."""
        if _inside(mean, self.low, self.high, 0.0):
            return MET
        room = 2 * error if np.isfinite(error) else 0.0
        return NEARLY if self.allowance and _inside(mean, self.low, self.high, room) else MISSED

    def stretch_reached(self, mean: float) -> bool | None:
        """None where there is no further goal."""
        return None if self.stretch == (None, None) else _inside(mean, *self.stretch, 0.0)


def _inside(mean: float, low: float | None, high: float | None, room: float) -> bool:
    return (low is None or mean >= low - room) and (high is None or mean <= high + room)


def _range(low: float | None, high: float | None, says: str, *stretch: float | None) -> Bar:
    return Bar(low, high, says, True, (stretch[0], stretch[1]) if stretch else (None, None))


BARS: Mapping[str, Bar] = MappingProxyType({
    "clean / ridge": Bar(None, 0.97, "RMSE against the plain ridge, clean tags", stretch=(None, 0.93)),
    "wrong / ridge": Bar(None, 0.91, "RMSE against the plain ridge, 7% wrong tags", stretch=(None, 0.87)),
    "/ trees": Bar(None, 1.0, "RMSE below LightGBM and CatBoost"),
    "cost of wrong tags": Bar(None, 1.09, "RMSE with 7% wrong tags against clean ones"),
    "calm 80": _range(0.76, 0.95, "80% range, lot sd .15", 0.75, 0.85),
    "calm 95": _range(0.93, None, "95% range, lot sd .15"),
    "hard 80 at 50": _range(0.68, None, "80% range, lot sd .30, n = 50", 0.75, 0.85),
    "hard 80": _range(0.72, None, "80% range, lot sd .30, from 300 on", 0.75, 0.85),
    "hard 80 unnamed": _range(0.66, None, "80% range, lot sd .30, lots unnamed", 0.75, 0.85),
    "hard 95": _range(0.86, None, "95% range, lot sd .30"),
    "crps / independent": Bar(None, 0.95, "CRPS against the independent-lines sum"),
    "crps / point": Bar(None, 1.0, "CRPS against a point baseline's absolute error"),
    "money": _range(0.94, 1.06, "mean over worlds of sum actual / sum expected", 0.97, 1.03),
    "tag known mean": Bar(0.95, 1.05, "known item, tag x10: mean"),
    "tag known p10": Bar(None, 1.0, "known item, tag x10: p10"),
    "tag unknown mean": Bar(None, 2.5, "unknown brand, tag x10: mean"),
    "tag unknown dearest": Bar(None, 1.0, "unknown brand, tag x10: mean against the dearest own sale of its kind"),
    "tag unknown p10": Bar(None, 1.3, "unknown brand, tag x10: p10"),
    "tag unknown spread": Bar(2.0, None, "unknown brand, tag x10: log spread"),
    "tag unknown first": Bar(1.0, None, "unknown brand, tag x10: first in what to look up"),
    "manifest known": Bar(0.90, 1.10, "all tags times a factor, two known products or more: 20% quantile"),
    "manifest unknown": Bar(None, 1.45, "all tags times a factor, nothing known: 20% quantile"),
    "no tag is one value": Bar(0.0, 0.0, "tags 0, .01, 999999 and blank: largest difference of the mean"),
    "bulk mean": Bar(None, 28.0, "800 singles at 40, 60 bulk sales at 22: a bulk line's mean"),
    "bulk spread": Bar(1.5, None, "the same without flags: lot spread against the flagged one's"),
    "drift 80": _range(-0.06, 0.06, "mean 80% coverage over cut-offs less the oracle's"),
    "drift z": Bar(None, 1.35, "rms z of the shift that a cut-off's lots share"),
    "drift 95": Bar(0.85, None, "cut-offs whose shift lies inside its 95% range"),
    "closed form at 50": Bar(None, 0.025, "rms difference of log quantiles from draws, n = 50"),
    "closed form": Bar(None, 0.015, "rms difference of log quantiles from draws, from 300 on"),
    "computers 80": _range(0.80, 0.97, "PC prices: 80% range"),
    "computers shift": Bar(None, 0.02, "PC prices: size of the mean shift"),
    "computers / ridge": Bar(None, 1.08, "PC prices: RMSE against the plain ridge"),
    "cars 95": _range(0.88, None, "car prices: 95% range"),
    "auction loss": _range(None, 0.23, "lots won among equal rivals who shade alike: share that lost cash, stated .20"),
    "minutes at 50": Bar(None, 0.26, "minutes of a line, 50 timed rows: mean absolute error, share of the truth"),
    "minutes at 300": Bar(None, 0.18, "minutes of a line, 300 timed rows: mean absolute error, share of the truth"),
    "minutes at 3000": Bar(None, 0.05, "minutes of a line, 3,000 timed rows: mean absolute error, share of the truth"),
    "hours 80": _range(0.72, 0.88, "hours of a lot: 80% range"),
    "effort and tempo time": Bar(None, 0.5, "time of effort and time to sell together against prices"),
    "fit of 3,000": Bar(None, 6.0, "time of a fit of 3,000 sales against a plain ridge with the same features"),
    "fit of 100,000": Bar(None, 15.0, "the same with 100,000 sales"),
    "fit of 500,000": Bar(None, 3.0, "memory of a fit of 500,000 sales [GiB]"),
    "lot time": Bar(None, 3.0, "a 10,000-line lot valued against reading and featurising it"),
    "lot memory": Bar(None, 600.0, "memory of it [MB]"),
    "stream memory": Bar(None, 600.0, "memory of 100,000 lines [MB]"),
    "survival at 50": Bar(None, 0.75, "chance of a sale in time, 50 listings: RMSE against each other method's"),
    "survival": Bar(None, 1.0, "chance of a sale in time, from 300 listings on: the same"),
    "deep 80": _range(0.72, 0.88, "units sold of a deep item: 80% range"),
    "pace time": Bar(None, 0.5, "time of the pace model against the price model's"),
    "mutated crashed": Bar(None, 0.0, "mutated files that ended in an error other than a refusal"),
    "mutated slow": Bar(None, 0.0, "mutated files that hung"),
    "mutated wrong": Bar(None, 0.0, "mutated files that read as something else without a word"),
    "read xlsx": Bar(None, 2.0, "a 100,000-line XLSX to clean lines against calamine's bare rows"),
    "read csv": Bar(None, 6.0, "a 100,000-line CSV to clean lines against the bare csv reader"),
    "read history": Bar(None, 1.5, "memory of reading a 1,000,000-row sold history CSV [GiB]"),
})  # fmt: skip
