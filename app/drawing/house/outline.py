"""The outline of the building: everything that a level covers, and its outer sides."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.walls import WallPlan
from app.drawing.view import Spot
from app.geometry.scene import LevelScene


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
