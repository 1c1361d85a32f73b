"""The spot in a cell where a detector is best fastened: deep inside, on whole inches, on a room's axes where it can be.

Depth is what forgives the crew's tape: a detector set that far off its mark still does what the plan proves.
"""

from __future__ import annotations

import itertools
import math

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import FloatArray

INCH = 1 / 12
_FINE = 0.02  # ft: how near to the deepest spot is near enough
_AMPLE = 1.0  # ft: depth beyond which a spot may rather lie on a room's axis than deeper still
_GOOD_SHARE = 0.7  # of the greatest depth: what a spot on an axis must keep where depth is scarce


def deepest_spot(cell: BaseGeometry) -> tuple[tuple[float, float], float]:
    """The centre of the greatest circle that a cell holds, and its radius, in feet."""
    line = shapely.get_coordinates(shapely.maximum_inscribed_circle(cell, _FINE))
    return (float(line[0, 0]), float(line[0, 1])), math.dist(line[0], line[1])


def seat_in(cell: BaseGeometry, axes: FloatArray) -> tuple[tuple[float, float], float]:
    """The spot for a detector in a cell, and its distance to the cell's edge in feet.

    ``axes`` (n, 2) are spots, such as the middle of the room, whose x or y the detector takes over where depth allows.
    """
    (x, y), depth = deepest_spot(cell)
    edge = shapely.boundary(cell)
    shapely.prepare(cell)

    def depth_at(spot: tuple[float, float]) -> float:
        inside = bool(shapely.contains_xy(cell, *spot))
        return float(shapely.distance(shapely.Point(spot), edge)) if inside else -1.0

    enough = min(_AMPLE, _GOOD_SHARE * depth)
    both = [(float(a), float(b)) for a, b in axes]
    one = [(a, y) for a, _ in both] + [(x, b) for _, b in both]
    for spots in (both, one):
        deep = [(depth_at(_to_inches(spot)), _to_inches(spot)) for spot in spots]
        best = max(deep, default=(-1.0, (x, y)), key=lambda entry: entry[0])
        if best[0] >= enough:
            return best[1], best[0]
    for step in (INCH, INCH / 2, INCH / 4, INCH / 16):
        near = itertools.product(_either_side(x, step), _either_side(y, step))
        best = max((depth_at(spot), spot) for spot in map(_plain, near))
        if best[0] >= _GOOD_SHARE * depth:
            return best[1], best[0]
    return (x, y), depth


def _either_side(value: float, step: float) -> tuple[float, float]:
    return math.floor(value / step) * step, math.ceil(value / step) * step


def middle_of(floor: BaseGeometry) -> tuple[float, float]:
    """The middle of a floor's bounds: where its axes cross."""
    low_x, low_y, high_x, high_y = floor.bounds
    return ((low_x + high_x) / 2, (low_y + high_y) / 2)


def _to_inches(spot: tuple[float, float]) -> tuple[float, float]:
    return _plain((round(spot[0] / INCH) * INCH, round(spot[1] / INCH) * INCH))


def _plain(spot: tuple[float, float]) -> tuple[float, float]:
    """Feet to four decimals: a file that people can read."""
    x, y = np.round(spot, 4)
    return (float(x), float(y))
