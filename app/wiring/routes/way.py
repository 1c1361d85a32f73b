"""A way: the polyline that a home run takes from a device to a can, with nothing in it twice."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

Spot = tuple[float, float, float]

DECIMALS = 9  # of a foot: what a rounding error is, and no cable
STRAIGHT = 1e-7  # ft off the line through its neighbours: not a bend


@dataclass(frozen=True)
class Way:
    """The corners of a home run, device first, (x, y, z above datum) in feet, and the can where it ends."""

    can: str
    corners: tuple[Spot, ...]

    @property
    def length(self) -> float:
        """Feet along the corners."""
        return sum(math.dist(here, there) for here, there in pairwise(self.corners))


def way_through(can: str, spots: Iterable[Spot]) -> Way:
    """The way through some spots; repeated spots and spots on a straight stretch are left out."""
    corners: list[Spot] = []
    for spot in spots:
        corner = (round(spot[0], DECIMALS), round(spot[1], DECIMALS), round(spot[2], DECIMALS))
        if corners and math.dist(corners[-1], corner) <= STRAIGHT:
            continue
        if len(corners) > 1 and _between(corners[-2], corners[-1], corner):
            corners.pop()
        corners.append(corner)
    return Way(can, tuple(corners))


def way_from(spot: Spot, onward: Way) -> Way:
    """The way that starts at a spot and goes on as another does; as ``way_through`` leaves spots out."""
    start = (round(spot[0], DECIMALS), round(spot[1], DECIMALS), round(spot[2], DECIMALS))
    corners = onward.corners
    if math.dist(start, corners[0]) <= STRAIGHT:
        return onward
    if len(corners) > 1 and _between(start, corners[0], corners[1]):
        corners = corners[1:]
    return Way(onward.can, (start, *corners))


def _between(start: Spot, middle: Spot, end: Spot) -> bool:
    """Whether ``middle`` lies on the straight line from ``start`` to ``end`` (and the way does not turn back)."""
    return math.dist(start, middle) + math.dist(middle, end) <= math.dist(start, end) + 1e-12
