"""Solid bodies of a level as convex prisms in arrays: walls cut at their voids, obstructions cut into convex parts.

A wall is its centreline widened by half its thickness, flat at both ends; the caller says what is a void.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from app.plan.model import Fixture, Level, Opening, Wall

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.int64]
BoolArray = NDArray[np.bool_]

CORNERS = 4
NEXT_CORNER = [1, 2, 3, 0]
_NO_LINE = ((math.nan, math.nan), (math.nan, math.nan))


@dataclass(frozen=True)
class Bodies:
    """Convex prisms: ``corners`` (n, 4, 2) counter-clockwise in feet (a triangle repeats its last corner),
    ``base`` and ``top`` (n,) in feet above the floor, ``owner`` the id of the wall or obstruction, ``centreline``
    (n, 2, 2) of the wall that a prism is part of (NaN for an obstruction).
    """

    corners: FloatArray
    base: FloatArray
    top: FloatArray
    owner: tuple[str, ...]
    centreline: FloatArray

    def __len__(self) -> int:
        return len(self.owner)

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Spatial index over the footprints."""
        return shapely.STRtree(self.footprints)

    @cached_property
    def footprints(self) -> NDArray[np.object_]:
        """The prisms' plans as polygons."""
        if not self.owner:
            return np.empty(0, dtype=object)
        footprints: NDArray[np.object_] = shapely.polygons(self.corners)
        return footprints

    @cached_property
    def corners_first(self) -> FloatArray:
        """The corners as (2, 4, n): sums over few corners of many bodies are quick in this order."""
        return np.ascontiguousarray(self.corners.T)

    @cached_property
    def lines_first(self) -> FloatArray:
        """The centrelines as (2, 2, n), coordinates first."""
        return np.ascontiguousarray(self.centreline.T)

    def near(self, x: float, y: float, reach: float) -> IntArray:
        """Indices of the prisms whose plan comes into the square of half side ``reach`` about a point."""
        found: IntArray = self.tree.query(shapely.box(x - reach, y - reach, x + reach, y + reach))
        return found


def wall_corners(wall: Wall, start: float = 0.0, end: float | None = None) -> FloatArray:
    """The four corners (4, 2), counter-clockwise, of a wall's body from ``start`` to ``end`` feet along it."""
    return np.array(_wall_outline(wall, start, wall.length if end is None else end))


def outlines_of(walls: Sequence[Wall]) -> FloatArray:
    """The corners (n, 4, 2) of whole walls, in one array: far quicker for thousands than an array each."""
    return np.array([_wall_outline(wall, 0.0, wall.length) for wall in walls]).reshape(-1, CORNERS, 2)


def _wall_outline(wall: Wall, start: float, stop: float) -> list[tuple[float, float]]:
    (ax, ay), (bx, by), length = wall.a, wall.b, wall.length
    dx, dy = (bx - ax) / length, (by - ay) / length
    half = wall.thickness / 2
    nx, ny = -dy * half, dx * half
    x0, y0, x1, y1 = ax + dx * start, ay + dy * start, ax + dx * stop, ay + dy * stop
    return [(x0 - nx, y0 - ny), (x1 - nx, y1 - ny), (x1 + nx, y1 + ny), (x0 + nx, y0 + ny)]


def wall_top(wall: Wall, ceiling: float) -> float:
    """Height of a wall's top: its own height, never above the ceiling."""
    return ceiling if wall.height is None else min(wall.height, ceiling)


def compile_bodies(level: Level, is_void: Callable[[Opening], bool]) -> Bodies:
    """The solid bodies of a level; an opening for which ``is_void`` holds is cut out from its sill to its head."""
    corners: list[list[tuple[float, float]]] = []
    base: list[float] = []
    top: list[float] = []
    owner: list[str] = []
    lines: list[tuple[tuple[float, float], tuple[float, float]]] = []
    voids: dict[str, list[Opening]] = {}
    for opening in level.openings:
        if is_void(opening):
            voids.setdefault(opening.wall, []).append(opening)
    for wall in level.walls:
        for start, end, low, high in _sections(wall, voids.get(wall.id, ()), wall_top(wall, level.ceiling)):
            corners.append(_wall_outline(wall, start, end))
            base.append(low)
            top.append(high)
            owner.append(wall.id)
            lines.append((wall.a, wall.b))
    solid = [fixture for fixture in level.fixtures if fixture.polygon is not None]
    parts, part_of = convex_parts(solid)
    for fixture in (solid[index] for index in part_of):
        base.append(fixture.base)
        top.append(level.ceiling if fixture.top is None else fixture.top)
        owner.append(fixture.id)
        lines.append(_NO_LINE)
    return Bodies(
        np.concatenate([np.array(corners).reshape(-1, CORNERS, 2), parts]),
        np.array(base),
        np.array(top),
        tuple(owner),
        np.array(lines).reshape(-1, 2, 2),
    )


def _sections(wall: Wall, voids: Sequence[Opening], top: float) -> list[tuple[float, float, float, float]]:
    """The solid parts of a wall as (start, end, low, high): along the centreline and up, all in feet."""
    if not voids:
        return [(0.0, wall.length, 0.0, top)]
    cuts = {0.0, wall.length}
    for void in voids:
        cuts.update((min(void.offset, wall.length), min(void.end, wall.length)))
    marks = sorted(cuts)
    sections = []
    for start, end in pairwise(marks):
        middle = (start + end) / 2
        here = sorted((void.sill, void.head) for void in voids if void.offset < middle < void.end)
        floor = 0.0
        for sill, head in here:
            if min(sill, top) > floor:
                sections.append((start, end, floor, min(sill, top)))
            floor = max(floor, head)
        if floor < top:
            sections.append((start, end, floor, top))
    return sections


def convex_parts(fixtures: Sequence[Fixture]) -> tuple[FloatArray, list[int]]:
    """Obstructions' plans cut into convex parts of four corners (n, 4, 2), counter-clockwise, and for each part the
    index of its obstruction.
    """
    if not fixtures:
        return np.empty((0, CORNERS, 2)), []
    outlines = shapely.reverse(shapely.normalize([shapely.Polygon(fixture.polygon) for fixture in fixtures]))
    hollow = shapely.area(shapely.convex_hull(outlines)) - shapely.area(outlines)
    parts: list[FloatArray] = []
    part_of: list[int] = []
    for index, (outline, missing) in enumerate(zip(outlines, hollow.tolist(), strict=True)):
        own = _fan(outline) if missing < 1e-9 else _triangles(outline)
        parts += own
        part_of += [index] * len(own)
    return _counter_clockwise(np.array(parts)), part_of


def _fan(outline: shapely.Polygon) -> list[FloatArray]:
    """A convex outline as quads that share its first corner, the last of them maybe a triangle."""
    ring = shapely.get_coordinates(outline)[:-1]
    return [ring[[0, k, k + 1, min(k + 2, len(ring) - 1)]] for k in range(1, len(ring) - 1, 2)]


def _triangles(outline: shapely.Polygon) -> list[FloatArray]:
    """Any outline as triangles whose last corner is repeated."""
    triangles = shapely.constrained_delaunay_triangles(outline)
    return [shapely.get_coordinates(part)[[0, 1, 2, 2]] for part in triangles.geoms]


def _counter_clockwise(parts: FloatArray) -> FloatArray:
    """Quads (n, 4, 2) turned about where they run clockwise; a triangle keeps its repeated corner last."""
    x, y = parts[..., 0], parts[..., 1]
    clockwise = (x * y[:, NEXT_CORNER] - x[:, NEXT_CORNER] * y).sum(axis=1) <= 0
    triangle = (parts[:, 2] == parts[:, 3]).all(axis=1)
    parts[clockwise & ~triangle] = parts[clockwise & ~triangle][:, [0, 3, 2, 1]]
    parts[clockwise & triangle] = parts[clockwise & triangle][:, [0, 2, 1, 1]]
    return parts
