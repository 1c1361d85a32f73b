"""The inside corners of a room where a motion detector can hang: two walls that reach it, and no opening there."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.geometry.corners import corner_at
from app.geometry.scene import LevelScene

_OFF_FACES = 0.04  # ft: half an inch off both faces of the corner
_OF_CORNER = 0.5  # ft: the walls that make a corner pass this near
_FROM_OPENING = 0.25  # ft of wall kept between a detector and an opening at its height
_SHARPEST, _BLUNTEST = 30.0, 150.0  # degrees: corners between which a detector is mounted


@dataclass(frozen=True)
class InsideCorners:
    """The corners of one level at one height above the floor, in feet."""

    scene: LevelScene
    height: float

    def of_face(self, face: int) -> Iterator[tuple[tuple[float, float], float]]:
        """Each corner of a face: the spot a hair off both walls, and the bisector in degrees."""
        for x, y in _convex_corners(self.scene.faces.floors[face]):
            corner = corner_at(self.scene.bodies, x, y, self.height, _OF_CORNER)
            if corner is not None and not self._at_an_opening(x, y):
                yield (x, y), corner.bisector

    def _at_an_opening(self, x: float, y: float) -> bool:
        """Whether an opening takes the wall away at a spot."""
        return bool(len(self._openings.query(shapely.Point(x, y), predicate="intersects")))

    @cached_property
    def _openings(self) -> shapely.STRtree:
        """The openings at the height, widened by what is kept from them."""
        spans = []
        for opening in self.scene.level.openings:
            if opening.sill - _FROM_OPENING < self.height < opening.head + _FROM_OPENING:
                wall = self.scene.level.wall_by_id[opening.wall]
                line = shapely.LineString([wall.along(opening.offset), wall.along(min(opening.end, wall.length))])
                spans.append(shapely.buffer(line, wall.thickness / 2 + _FROM_OPENING))
        return shapely.STRtree(spans)


def _convex_corners(floor: BaseGeometry) -> Iterator[tuple[float, float]]:
    """The spots a hair off both edges at each convex corner of a floor's outer rings."""
    for polygon in shapely.get_parts(floor):
        ring = shapely.get_coordinates(shapely.orient_polygons(polygon.simplify(1e-6)).exterior)[:-1]
        for before, here, after in zip(np.roll(ring, 1, axis=0), ring, np.roll(ring, -1, axis=0), strict=True):
            into, out = here - before, after - here
            into, out = into / np.hypot(*into), out / np.hypot(*out)
            turn = float(into[0] * out[1] - into[1] * out[0])
            inside = 180 - math.degrees(math.atan2(turn, float(into @ out)))
            if _SHARPEST <= inside <= _BLUNTEST:
                # Along both edges by the same length, so that the spot is as far off the one as off the other.
                spot = here + (out - into) * _OFF_FACES / math.sin(math.radians(inside))
                yield round(float(spot[0]), 4), round(float(spot[1]), 4)
