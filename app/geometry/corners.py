"""Inside corners: the two walls that meet around a spot, how near each is, and the bisector out into the room."""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from app.geometry.bodies import Bodies, FloatArray

_LEAST_TURN = math.sin(math.radians(30))


@dataclass(frozen=True)
class Corner:
    """An inside corner: feet from a spot to the farther of its two walls' faces, and its bisector in degrees."""

    away: float
    bisector: float


def corner_at(bodies: Bodies, x: float, y: float, z: float, within: float) -> Corner | None:
    """The nearest inside corner whose walls both pass within ``within`` feet of a spot at height ``z``, or None.

    The spot must lie beside both walls, not beyond their ends: at an outside corner it lies beyond one of them.
    """
    near = bodies.near(x, y, within)
    start, end = bodies.centreline[near, 0], bodies.centreline[near, 1]
    along, offset = end - start, np.array([x, y]) - start
    length = np.hypot(along[:, 0], along[:, 1])
    share = (offset * along).sum(axis=1) / length**2
    out = offset - share[:, None] * along
    off = np.hypot(out[:, 0], out[:, 1])
    thick = bodies.corners[near, 1] - bodies.corners[near, 2]
    half = np.hypot(thick[:, 0], thick[:, 1]) / 2
    # A comparison with NaN, an obstruction's centreline, is never true.
    is_beside = (share > 0) & (share < 1) & (bodies.top[near] >= z - 1e-6) & (off > 1e-9) & (off <= within + half)
    beside: dict[str, tuple[float, FloatArray]] = {}
    for row in np.flatnonzero(is_beside).tolist():
        away = max(0.0, float(off[row] - half[row]))
        beside.setdefault(bodies.owner[near[row]], (away, out[row] / off[row]))
    pairs = [
        (max(one[0], two[0]), one[1] + two[1])
        for one, two in combinations(beside.values(), 2)
        if abs(one[1][0] * two[1][1] - one[1][1] * two[1][0]) > _LEAST_TURN
    ]
    if not pairs:
        return None
    away, out = min(pairs, key=lambda pair: pair[0])
    return Corner(away, math.degrees(math.atan2(out[1], out[0])) % 360)


def turned_by(one: float, two: float) -> float:
    """The angle between two directions, in degrees from 0 to 180."""
    return abs((one - two + 180) % 360 - 180)
