"""The scales of plans, largest first: which there are, how they are said, and which fits a level on a sheet.

Architectural scales: a quarter inch to the foot is 1:48. What no usual scale fits goes on several sheets, or, for a
site rather than a house, to an engineer's scale.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

AUTOMATIC = "auto"  # in place of a key: the scale that fits
MM_PER_FOOT = 304.8
MOST_PARTS = 6  # sheets that one level is parted into before a smaller scale is taken
MOST_PARTS_ASKED = 24  # the same where a scale was asked for


@dataclass(frozen=True)
class Scale:
    """``ratio`` is feet of building a foot of paper; ``key`` names it in a request, ``words`` on a sheet."""

    key: str
    words: str
    ratio: float

    @property
    def mm_per_foot(self) -> float:
        """Millimetres of paper a foot of building."""
        return MM_PER_FOOT / self.ratio


def _architect(key: str, ratio: float) -> Scale:
    return Scale(key, f'{key}" = 1\'-0"', ratio)


def _engineer(feet: int) -> Scale:
    return Scale(f"1in:{feet}ft", f"1\" = {feet}'", 12.0 * feet)


def _metric(ratio: int) -> Scale:
    return Scale(f"1:{ratio}", f"1:{ratio}", float(ratio))


_ARCHITECT = (_architect("1/4", 48), _architect("3/16", 64), _architect("1/8", 96), _architect("3/32", 128))
_METRIC = (_metric(50), _metric(75), _metric(100), _metric(150))
_SMALL = (_architect("1/16", 192), _metric(200))  # on request: a house's words do not stand clear of each other
_FAR = {
    "imperial": tuple(map(_engineer, (20, 30, 50, 100, 200, 500, 1000, 2000, 5000))),
    "metric": tuple(map(_metric, (200, 500, 1000, 2000, 5000, 10000, 20000, 50000))),
}
USUAL: Mapping[str, tuple[Scale, ...]] = {"imperial": _ARCHITECT, "metric": _METRIC}
SCALES: Mapping[str, Scale] = {scale.key: scale for scale in (*_ARCHITECT, _SMALL[0], *_METRIC, _SMALL[1])}


@dataclass(frozen=True)
class Fit:
    """A scale with the number of sheets across and down that a level takes at it."""

    scale: Scale
    across: int
    down: int


def fit_asked(scale: Scale, size: Sequence[float], area: Sequence[float], around: float, units: str) -> Fit:
    """The fit at the scale asked for; the automatic one where it would take too many sheets.

    ``size`` is the building in feet, ``area`` the drawing area in mm, ``around`` the mm that dimensions take each way.
    """
    across, down = _parts(scale, size, area, around)
    if across * down > MOST_PARTS_ASKED:
        return fit_best(size, area, around, units)
    return Fit(scale, across, down)


def fit_best(size: Sequence[float], area: Sequence[float], around: float, units: str) -> Fit:
    """The largest usual scale that puts a level on one sheet; else the smallest on a few; else a smaller one."""
    for scale in USUAL[units]:
        if _parts(scale, size, area, around) == (1, 1):
            return Fit(scale, 1, 1)
    smallest = USUAL[units][-1]
    fewest = math.prod(_parts(smallest, size, area, around))
    if fewest <= MOST_PARTS:
        # On no more sheets than the smallest scale takes, a larger one may have room.
        fits = (Fit(scale, *_parts(scale, size, area, around)) for scale in USUAL[units])
        return next(fit for fit in fits if fit.across * fit.down <= fewest)
    for scale in _FAR[units]:
        if scale.ratio > smallest.ratio and _parts(scale, size, area, around) == (1, 1):
            return Fit(scale, 1, 1)
    return Fit(_FAR[units][-1], 1, 1)


def _parts(scale: Scale, size: Sequence[float], area: Sequence[float], around: float) -> tuple[int, int]:
    """Sheets across and down that a building takes."""
    counts = []
    for feet, room in zip(size, area, strict=True):
        need = feet * scale.mm_per_foot + around
        counts.append(1 if need <= room + 1e-6 else math.ceil(need / room))
    return counts[0], counts[1]
