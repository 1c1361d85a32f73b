"""The outline of the building and the two directions in which most of it is built."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.walls import WallPlan
from app.drawing.view import Spot
from app.geometry.bodies import FloatArray
from app.geometry.scene import LevelScene
from app.plan.model import Wall


@dataclass(frozen=True)
class Edge:
    """A straight side of the building, its outer side to the right of ``start`` → ``end``; ``out`` points away."""

    start: Spot
    end: Spot
    out: Spot

    @property
    def length(self) -> float:
        """Length in feet."""
        return math.dist(self.start, self.end)


def building(scene: LevelScene, walls: WallPlan) -> BaseGeometry:
    """Everything that the level covers: its walls with their openings closed, and the faces within."""
    return shapely.union_all([walls.closed, *scene.faces.outline])


def outer_edges(area: BaseGeometry) -> list[Edge]:
    """The sides of a building from outside, with sides that run on in line made one."""
    edges = []
    for part in shapely.get_parts(area):
        if part.geom_type != "Polygon" or part.is_empty:
            continue
        ring = np.asarray(part.exterior.simplify(0.01).coords)
        ring = ring if part.exterior.is_ccw else ring[::-1]
        for start, end in zip(ring[:-1].tolist(), ring[1:].tolist(), strict=True):
            length = math.dist(start, end)
            if length > 1e-6:
                out = ((end[1] - start[1]) / length, (start[0] - end[0]) / length)
                edges.append(Edge((start[0], start[1]), (end[0], end[1]), out))
    return edges


def square_bounds(area: BaseGeometry, turn: float) -> BaseGeometry:
    """The rectangle about a building that stands along its main direction, where its dimensions stand."""
    turned = shapely.transform(area, lambda points: _turned(points, -turn))
    return shapely.transform(shapely.box(*turned.bounds), lambda points: _turned(points, turn))


def _turned(points: FloatArray, angle: float) -> FloatArray:
    cos, sin = math.cos(angle), math.sin(angle)
    turned: FloatArray = points @ np.array([[cos, sin], [-sin, cos]])
    return turned


def main_direction(walls: Sequence[Wall]) -> float:
    """The angle in radians, from -45° to 45°, along or across which most wall length runs.

    The mean of four times each wall's angle, weighted by length: four turns make the two directions one.
    """
    total = sum(
        (wall.length * cmath.exp(4j * math.atan2(wall.b[1] - wall.a[1], wall.b[0] - wall.a[0])) for wall in walls), 0j
    )
    angle = cmath.phase(total) / 4 if abs(total) > 1e-9 else 0.0
    # A plan drawn square is not to be tilted by one odd wall.
    tallies: dict[float, float] = {}
    for wall in walls:
        turned = math.degrees(math.atan2(wall.b[1] - wall.a[1], wall.b[0] - wall.a[0])) % 90
        key = round(turned, 1) % 90
        tallies[key] = tallies.get(key, 0.0) + wall.length
    if tallies:
        most = max(tallies, key=lambda key: tallies[key])
        if tallies[most] > 0.5 * sum(tallies.values()):
            angle = math.radians(most if most <= 45 else most - 90)
    return angle
