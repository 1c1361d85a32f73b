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
    spot = np.array([x, y])
    beside: dict[str, tuple[float, FloatArray]] = {}
    for body in bodies.near(x, y, within):
        line = bodies.centreline[body]
        if np.isnan(line[0, 0]) or bodies.top[body] < z - 1e-6 or bodies.owner[body] in beside:
            continue
        along = line[1] - line[0]
        length = float(np.hypot(*along))
        share = float(np.dot(spot - line[0], along)) / length**2
        if not 0 < share < 1:
            continue
        out = spot - (line[0] + share * along)
        off = float(np.hypot(*out))
        half = float(np.hypot(*(bodies.corners[body][1] - bodies.corners[body][2]))) / 2
        if 1e-9 < off <= within + half:
            beside[bodies.owner[body]] = (max(0.0, off - half), out / off)
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
