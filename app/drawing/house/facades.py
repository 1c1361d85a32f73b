"""The facades of a building: for each way that its outer sides look, what a dimension string along it measures.

A house with a wing at an odd angle has facades of its own on that wing, and each is measured beside it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.outline import Edge
from app.drawing.view import Spot
from app.geometry.bodies import FloatArray
from app.geometry.scene import LevelScene

SHORTEST = 5.0  # ft of sides that look one way, below which no string is drawn: the flanks of a bay
_FACING = math.radians(2)


@dataclass(frozen=True)
class Facade:
    """Sides of a building that look the way ``out``.

    ``low`` and ``high`` bound them along ``(-out[1], out[0])`` and ``front`` is how far out the building stands between
    those, all in feet from the plan's origin; ``corners`` and ``middles`` are where sides end and outer openings have
    their middle; ``overall`` says whether the whole length is written here, once for two facades back to back.
    """

    out: Spot
    low: float
    high: float
    front: float
    corners: tuple[float, ...]
    middles: tuple[float, ...]
    overall: bool

    @property
    def along(self) -> Spot:
        """The way that the string runs."""
        return (-self.out[1], self.out[0])

    def at(self, mark: float, away: float = 0.0) -> Spot:
        """The point of the plan at a mark of the string, ``away`` feet from the front."""
        (ax, ay), (ox, oy) = self.along, self.out
        return (mark * ax + (self.front + away) * ox, mark * ay + (self.front + away) * oy)


def facades_of(scene: LevelScene, area: BaseGeometry, edges: Sequence[Edge]) -> list[Facade]:
    """The facades of a building with the outer sides ``edges``."""
    groups = [group for group in _facing_alike(edges) if sum(edge.length for edge in group) >= SHORTEST]
    openings = _outer_openings(scene)
    facades = [_facade(group, area, openings) for group in groups]
    return [_with_overall(facade, facades) for facade in facades]


def _facing_alike(edges: Sequence[Edge]) -> list[list[Edge]]:
    """Sides by the way they look, the longest side of each way first."""
    groups: list[list[Edge]] = []
    for edge in sorted(edges, key=lambda edge: -edge.length):
        for group in groups:
            if _dot(edge.out, group[0].out) > math.cos(_FACING):
                group.append(edge)
                break
        else:
            groups.append([edge])
    return groups


def _facade(group: Sequence[Edge], area: BaseGeometry, openings: Sequence[tuple[Spot, Spot]]) -> Facade:
    out = group[0].out
    along = (-out[1], out[0])
    corners = tuple(_dot(point, along) for edge in group for point in (edge.start, edge.end))
    low, high = min(corners), max(corners)
    turned = shapely.transform(area, lambda points: points @ np.array([[along[0], out[0]], [along[1], out[1]]]))
    between = shapely.clip_by_rect(turned, low + 0.01, -1e6, high - 0.01, 1e6)
    front = between.bounds[3] if not between.is_empty else max(_dot(edge.start, out) for edge in group)
    middles = tuple(
        mark
        for middle, normal in openings
        if _dot(normal, out) > math.cos(_FACING) and low <= (mark := _dot(middle, along)) <= high
    )
    return Facade(out, low, high, float(front), corners, middles, overall=True)


def _with_overall(facade: Facade, facades: Sequence[Facade]) -> Facade:
    """The facade, with its overall length left to the one back to back with it where that says the same."""
    looks_back = facade.out[0] + facade.out[1] > 1e-9
    same = any(
        _dot(facade.out, other.out) < -math.cos(_FACING)
        and abs(facade.low + other.high) < 0.05
        and abs(facade.high + other.low) < 0.05
        for other in facades
    )
    if not (looks_back and same):
        return facade
    return Facade(facade.out, facade.low, facade.high, facade.front, facade.corners, facade.middles, overall=False)


def _outer_openings(scene: LevelScene) -> list[tuple[Spot, Spot]]:
    """The middle of each outer opening, and the way out of it."""
    found = []
    for opening in scene.level.openings:
        left, right = scene.sides[opening.id]
        if (left < 0) != (right < 0):
            wall = scene.level.wall_by_id[opening.wall]
            side = 1 if left < 0 else -1
            normal = (side * (wall.a[1] - wall.b[1]) / wall.length, side * (wall.b[0] - wall.a[0]) / wall.length)
            found.append((wall.along(opening.offset + opening.width / 2), normal))
    return found


def _dot(point: Sequence[float] | FloatArray, along: Spot) -> float:
    return float(point[0] * along[0] + point[1] * along[1])
