"""Where does each point of a line chart lie?  Numbers for an SVG picture; whoever draws it writes the words.

Picture units count from the top left; the picture is as wide as a narrow phone, and is scaled as a whole.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

WIDTH, HEIGHT = 360.0, 190.0
LEFT, RIGHT, TOP, BOTTOM = 58.0, 350.0, 10.0, 164.0  # edges of the field; the rest is room for what the axes say
_STEPS = (1.0, 2.0, 5.0, 10.0)
_ACROSS, _UP = 6, 4  # about so many intervals


@dataclass(frozen=True)
class Tick:
    """A value on an axis and where it lies."""

    value: float
    at: float


@dataclass(frozen=True)
class Curves:
    """What is drawn: lines over rising `xs`, a band between two of them, and a place to mark."""

    xs: Sequence[float]
    lines: Sequence[Sequence[float]]
    band: tuple[Sequence[float], Sequence[float]] | None = None
    mark: float | None = None


@dataclass(frozen=True)
class Chart:
    """Paths and places in picture units; `zero` is where nothing lies on the upward axis."""

    lines: tuple[str, ...]
    band: str
    across: tuple[Tick, ...]
    up: tuple[Tick, ...]
    zero: float
    mark: float | None
    width: float = WIDTH
    height: float = HEIGHT
    left: float = LEFT
    right: float = RIGHT
    top: float = TOP
    bottom: float = BOTTOM


def chart(curves: Curves) -> Chart | None:
    """The picture, zero always in it; None where there are no two points, or one of them is not known."""
    series = [*curves.lines, *(curves.band or ())]
    values = [value for one in series for value in one]
    if len(curves.xs) < 2 or not values or not all(map(math.isfinite, [*curves.xs, *values])):
        return None
    first, last = curves.xs[0], curves.xs[-1]
    if last <= first:
        return None
    ups = _whole_steps(min(0.0, *values), max(0.0, *values))
    across = _Axis(first, last, LEFT, RIGHT)
    up = _Axis(ups[0], ups[-1], BOTTOM, TOP)
    mark = curves.mark
    return Chart(
        lines=tuple(_path(curves.xs, one, across, up) for one in curves.lines),
        band="" if curves.band is None else _area(curves.xs, curves.band, across, up),
        across=tuple(Tick(value, across.at(value)) for value in _inside(first, last)),
        up=tuple(Tick(value, up.at(value)) for value in ups),
        zero=up.at(0.0),
        mark=None if mark is None or not first <= mark <= last else across.at(mark),
    )


@dataclass(frozen=True)
class _Axis:
    low: float
    high: float
    begin: float
    end: float

    def at(self, value: float) -> float:
        share = (value - self.low) / (self.high - self.low)
        return round(self.begin + share * (self.end - self.begin), 1)


def step_of(extent: float, wanted: int) -> float:
    """The round step of 1, 2 or 5 times a power of ten that gives at most about `wanted` intervals.

    >>> step_of(26.0, 6), step_of(2950.0, 4), step_of(0.3, 4)
    (5.0, 1000.0, 0.1)
    """
    bare = extent / wanted
    power = 10.0 ** math.floor(math.log10(bare))
    return next(one for one in _STEPS if one * power >= bare * (1 - 1e-9)) * power


def _whole_steps(low: float, high: float) -> list[float]:
    """Values of an axis that reaches beyond both ends to a whole step."""
    if high <= low:
        high = low + 1.0
    step = step_of(high - low, _UP)
    begin, end = math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9)
    return [_plain(no * step) for no in range(begin, end + 1)]


def _inside(low: float, high: float) -> list[float]:
    step = step_of(high - low, _ACROSS)
    return [_plain(no * step) for no in range(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1)]


def _plain(value: float) -> float:
    """Without binary dust."""
    return round(value, 9) + 0.0


def _path(xs: Sequence[float], ys: Sequence[float], across: _Axis, up: _Axis) -> str:
    return "M" + "L".join(_points(xs, ys, across, up))


def _area(xs: Sequence[float], band: tuple[Sequence[float], Sequence[float]], across: _Axis, up: _Axis) -> str:
    low, high = (_points(xs, ys, across, up) for ys in band)
    return "M" + "L".join([*low, *reversed(high)]) + "Z"


def _points(xs: Sequence[float], ys: Sequence[float], across: _Axis, up: _Axis) -> list[str]:
    return [f"{across.at(x):g} {up.at(y):g}" for x, y in zip(xs, ys, strict=True)]
