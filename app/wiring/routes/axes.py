"""The building's main axes: the direction that carries most wall length, and its normal.

Home runs overhead follow them; a turned house turns its axes with it, so its runs keep their lengths.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.geometry.bodies import FloatArray
from app.plan.model import Plan, Wall

NEAR = 0.5  # degrees: walls this near to one another carry the same direction
SAME = 0.02  # degrees: the slop of coordinates written to three decimals


@dataclass(frozen=True)
class Axes:
    """Two unit vectors at right angles: ``trunk`` along the longer side of the building, ``branch`` across.

    ``angle`` is the main direction in degrees from east, in [0, 90).
    """

    angle: float
    trunk: tuple[float, float]
    branch: tuple[float, float]

    def framed(self, points: FloatArray) -> FloatArray:
        """Points (n, 2) of the plan as (n, 2) coordinates along trunk and branch, in feet."""
        framed: FloatArray = points @ np.array([self.trunk, self.branch]).T
        return framed

    def corner(self, start: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
        """Where a run from ``start`` to ``end`` turns: it goes across to the trunk line first, then along it.

        So runs from many devices meet on the line through the can and are bundled there.
        """
        across = (end[0] - start[0]) * self.branch[0] + (end[1] - start[1]) * self.branch[1]
        return (start[0] + across * self.branch[0], start[1] + across * self.branch[1])


def main_axes(plan: Plan) -> Axes:
    """The axes of the whole building, over the walls of all levels; east and north where there is no wall."""
    walls = [wall for level in plan.levels for wall in level.walls]
    angle = main_direction(walls)
    radians = math.radians(angle)
    along = (math.cos(radians), math.sin(radians)) if angle else (1.0, 0.0)
    across = (-along[1], along[0])
    if walls:
        ends = np.array([[wall.a, wall.b] for wall in walls]).reshape(-1, 2)
        extent = np.ptp(ends @ np.array([along, across]).T, axis=0)
        if extent[1] > extent[0] + SAME:
            return Axes(angle, across, along)
    return Axes(angle, along, across)


def main_direction(walls: Sequence[Wall]) -> float:
    """The angle in [0, 90) that carries most wall length, walls at right angles counted together.

    Directions within ``NEAR`` of each other are weighed as one, then the heaviest direction among them is taken to
    ``SAME``. Of directions that carry the same length the one of the earliest wall in the file is taken.
    """
    if not walls:
        return 0.0
    spans = np.array([[wall.b[0] - wall.a[0], wall.b[1] - wall.a[1]] for wall in walls])
    lengths = np.hypot(spans[:, 0], spans[:, 1])
    angles = np.degrees(np.arctan2(spans[:, 1], spans[:, 0])) % 90.0
    coarse = _heaviest(angles, lengths, NEAR)
    near = np.abs(_apart(angles, angles[coarse])) <= NEAR
    fine = _heaviest(angles[near], lengths[near], SAME)
    chosen = angles[near][fine]
    apart = _apart(angles[near], chosen)
    same = np.abs(apart) <= SAME
    return float((chosen + np.average(apart[same], weights=lengths[near][same])) % 90.0)


def _apart(angles: FloatArray, angle: float) -> FloatArray:
    """Signed distance of angles from one angle, modulo a right angle."""
    return (angles - angle + 45.0) % 90.0 - 45.0


def _heaviest(angles: FloatArray, lengths: FloatArray, tolerance: float) -> int:
    """Index of the first angle around which, within a tolerance, the most length lies."""
    order = np.argsort(angles, kind="stable")
    ring = np.concatenate([angles[order] - 90.0, angles[order], angles[order] + 90.0])
    carried = np.concatenate([[0.0], np.cumsum(np.tile(lengths[order], 3))])
    low = np.searchsorted(ring, angles - tolerance - 1e-9, side="left")
    high = np.searchsorted(ring, angles + tolerance + 1e-9, side="right")
    weight = carried[high] - carried[low]
    return int(np.flatnonzero(weight >= weight.max() * (1 - 1e-9))[0])
