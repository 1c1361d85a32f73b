"""The stretches of wall that a room offers to devices: which wall, from where to where, what lies beyond.

Read off the edges of the room's floor, so a wall that another one meets is already cut there.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from app.geometry.bodies import FloatArray, wall_top
from app.geometry.scene import LevelScene
from app.plan.model import Wall

OFF_FACE = 0.02  # ft: a device on a wall lies this far off its face
_ON_FACE = 2e-3  # ft
_JUST_BEYOND = 0.05  # ft


@dataclass(frozen=True)
class Stretch:
    """A piece of a wall's face, from ``start`` to ``end`` feet along the wall's centreline, clear of openings.

    ``normal`` points into the room, ``beyond`` is the face behind the wall, −1 outdoors.
    """

    wall: Wall
    start: float
    end: float
    normal: tuple[float, float]
    face: int
    beyond: int

    @property
    def length(self) -> float:
        """Feet of clear wall."""
        return self.end - self.start

    @property
    def facing(self) -> float:
        """The direction out of the wall into the room, in whole hundredths of a degree."""
        return round(float(np.degrees(np.arctan2(self.normal[1], self.normal[0]))) % 360, 2)

    def spot(self, along: float, off_face: float = OFF_FACE) -> tuple[float, float]:
        """The point ``along`` feet along the centreline, ``off_face`` feet off the wall's face."""
        x, y = self.wall.along(along)
        off = self.wall.thickness / 2 + off_face
        return (round(x + off * self.normal[0], 4), round(y + off * self.normal[1], 4))

    def nearest(self, x: float, y: float) -> float:
        """The feet along the wall, within the stretch, that come nearest to a point."""
        share = np.array([x - self.wall.a[0], y - self.wall.a[1]]) @ _along(self.wall)
        return float(np.clip(share, self.start, self.end))


@dataclass(frozen=True)
class WallSides:
    """The wall faces of one level, room by room."""

    scene: LevelScene

    def stretches(self, face: int, height: float, margin: float) -> list[Stretch]:
        """The clear stretches around a face's floor of walls that reach ``height``, ``margin`` ft off their ends."""
        found: list[Stretch] = []
        for wall, start, end, normal in self._edges(face):
            if wall_top(wall, self.scene.level.ceiling) < height:
                continue
            for low, high in self._between_openings(wall, start, end):
                if high - low > 2 * margin:
                    beyond = self._beyond(wall, (low + high) / 2, normal)
                    found.append(Stretch(wall, low + margin, high - margin, normal, face, beyond))
        return found

    @cached_property
    def _openings(self) -> dict[str, list[tuple[float, float]]]:
        """From and to of the openings in each wall, in order."""
        spans: dict[str, list[tuple[float, float]]] = {}
        for opening in self.scene.level.openings:
            spans.setdefault(opening.wall, []).append((opening.offset, opening.end))
        return {wall: sorted(inside) for wall, inside in spans.items()}

    def _edges(self, face: int) -> Iterator[tuple[Wall, float, float, tuple[float, float]]]:
        """Each edge of a floor that is a wall's face: the wall, from and to along it, and the normal into the room."""
        faces = self.scene.faces
        for polygon in shapely.get_parts(faces.floors[face]):
            shape = shapely.orient_polygons(polygon)
            for ring in (shape.exterior, *shape.interiors):
                corners = shapely.get_coordinates(ring)
                edges = shapely.linestrings(np.stack([corners[:-1], corners[1:]], axis=1))
                number, beside = faces.wall_tree.query(edges, predicate="dwithin", distance=_ON_FACE)
                for edge, index in sorted(zip(number.tolist(), beside.tolist(), strict=True)):
                    first, second = corners[edge], corners[edge + 1]
                    length = float(np.hypot(*(second - first)))
                    inward = (-float(second[1] - first[1]) / length, float(second[0] - first[0]) / length)
                    wall = self.scene.level.walls[index]
                    if (span := _span_on(wall, first, second, inward)) is not None:
                        yield wall, *span, inward

    def _between_openings(self, wall: Wall, start: float, end: float) -> Iterator[tuple[float, float]]:
        mark = start
        for low, high in self._openings.get(wall.id, ()):
            if high <= mark or low >= end:
                continue
            if low > mark:
                yield mark, low
            mark = max(mark, high)
        if end > mark:
            yield mark, end

    def _beyond(self, wall: Wall, along: float, normal: tuple[float, float]) -> int:
        x, y = wall.along(along)
        off = wall.thickness / 2 + _JUST_BEYOND
        return self.scene.faces.face_at(x - off * normal[0], y - off * normal[1])


def _span_on(
    wall: Wall, first: FloatArray, second: FloatArray, inward: tuple[float, float]
) -> tuple[float, float] | None:
    """From and to along a wall of an edge that lies on its face towards the room, or None where it does not."""
    along = _along(wall)
    away = []
    for corner in (first, second):
        offset = corner - np.array(wall.a)
        away.append(offset[0] * inward[0] + offset[1] * inward[1])
    if max(abs(one - wall.thickness / 2) for one in away) > _ON_FACE:
        return None
    shares = sorted(float((corner - np.array(wall.a)) @ along) for corner in (first, second))
    low, high = max(0.0, shares[0]), min(wall.length, shares[1])
    return (low, high) if high - low > _ON_FACE else None


def _along(wall: Wall) -> FloatArray:
    along: FloatArray = (np.array(wall.b) - np.array(wall.a)) / wall.length
    return along
