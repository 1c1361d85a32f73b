"""Rooms as the faces of the wall centrelines: walls are noded where they meet, and the faces they close are found.

Ends that come within ``JOIN`` of another wall's end or line are taken to meet it, so that a turned plan, whose
T-junctions lie a rounding error off the line, closes the same rooms as a straight one.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import FloatArray, IntArray, outlines_of
from app.plan.model import Wall

JOIN = 0.02  # ft
_OFF_EDGE = 1e-6  # ft: nearer to an edge than this two faces may hold a point
_LOT = 512  # faces whose walls are joined at once


@dataclass(frozen=True)
class Faces:
    """The faces that a level's walls close, and the floor of each: the face less the bodies of the walls.

    ``edges`` (n, 2, 2) are the centrelines that close them, cut wherever walls meet; ``shared`` the feet of centreline
    that two walls, by their indices, both run along.
    """

    outline: NDArray[np.object_]
    wall_bodies: NDArray[np.object_]
    wall_tree: shapely.STRtree
    edges: FloatArray
    shared: dict[tuple[int, int], float]

    def __len__(self) -> int:
        return len(self.outline)

    @cached_property
    def edge_tree(self) -> shapely.STRtree:
        """Spatial index over the edges."""
        return shapely.STRtree(shapely.linestrings(self.edges))

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Spatial index over the faces."""
        return shapely.STRtree(self.outline)

    @cached_property
    def floors(self) -> NDArray[np.object_]:
        """The floor of every face, as polygons.

        The holes of the walls' union are the floors, and one union is far cheaper than a difference a face; the union
        of a whole town costs more than that of its quarters, so faces that lie together are taken together. A face
        whose holes do not fit it (walls so thin that a joint leaves a slit) is cut by itself, which is always right.
        """
        floors = np.full(len(self), None, dtype=object)
        for lot in _lots_together(self.outline):
            walls = np.unique(self.wall_tree.query(self.outline[lot], predicate="intersects")[1])
            holes = _holes(self.wall_bodies[walls])
            face = self.holding(shapely.get_coordinates(shapely.point_on_surface(holes)))
            order = np.argsort(face, kind="stable")
            starts, stops = (np.searchsorted(face[order], lot, side).tolist() for side in ("left", "right"))
            for index, first, last in zip(lot.tolist(), starts, stops, strict=True):
                own = holes[order[first:last]]
                if len(own):
                    floors[index] = own[0] if len(own) == 1 else shapely.multipolygons(own)
        for index in np.flatnonzero(~shapely.contains(self.outline, floors)).tolist():
            near = self.wall_tree.query(self.outline[index], predicate="intersects")
            floors[index] = shapely.difference(self.outline[index], shapely.union_all(self.wall_bodies[near]))
        return floors

    @cached_property
    def floor_tree(self) -> shapely.STRtree:
        """Spatial index over the floors."""
        return shapely.STRtree(self.floors)

    def holding(self, points: FloatArray) -> IntArray:
        """For each point (n, 2) the index of the face that holds it, or −1 where none does."""
        found = np.full(len(points), -1, dtype=np.int64)
        if len(self) and len(points):
            point, face = self.tree.query(shapely.points(points), predicate="intersects")
            found[point[::-1]] = face[::-1]
        return found

    def face_at(self, x: float, y: float) -> int:
        """The index of the face that holds one point, or −1."""
        return int(self.holding(np.array([[x, y]]))[0])

    def is_clear_within(self, face: int, x: float, y: float) -> bool:
        """Whether a point lies in a face and on none of its edges, so that no other face holds it: a drag's quick look,
        in plain numbers, before ``face_at`` asks the index.
        """
        inside = False
        for ax, ay, bx, by in self._edges_of(face):
            dx, dy = bx - ax, by - ay
            along = min(1.0, max(0.0, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy)))
            if abs(x - ax - along * dx) + abs(y - ay - along * dy) < _OFF_EDGE:
                return False
            if (ay > y) != (by > y) and x < ax + dx * (y - ay) / dy:
                inside = not inside
        return inside

    def _edges_of(self, face: int) -> list[tuple[float, float, float, float]]:
        """The edges of a face, of its holes too."""
        if face not in self._known_edges:
            rings = [self.outline[face].exterior, *self.outline[face].interiors]
            sides = (pairwise(ring.coords) for ring in rings)
            self._known_edges[face] = [(*one, *other) for side in sides for one, other in side if one != other]
        return self._known_edges[face]

    @cached_property
    def _known_edges(self) -> dict[int, list[tuple[float, float, float, float]]]:
        return {}

    @cached_property
    def building(self) -> BaseGeometry:
        """All faces together: the plan of what the walls enclose."""
        return shapely.union_all(self.outline)


def compile_faces(walls: Sequence[Wall]) -> Faces:
    """The faces closed by some walls' centrelines (doors and cased openings close a room like the wall does)."""
    bodies = shapely.polygons(outlines_of(walls)) if walls else np.empty(0, dtype=object)
    edges, shared = noded_centrelines(walls)
    found: list[Polygon] = list(shapely.polygonize(shapely.linestrings(edges)).geoms) if len(edges) else []
    outline = np.empty(len(found), dtype=object)
    outline[:] = found
    return Faces(outline, bodies, shapely.STRtree(bodies), edges, shared)


def _lots_together(outline: NDArray[np.object_]) -> list[IntArray]:
    """The indices of faces in lots of at most ``_LOT``, each of faces that lie together."""
    bounds = shapely.bounds(outline).reshape(-1, 4)
    east, north = bounds[:, 0] + bounds[:, 2], bounds[:, 1] + bounds[:, 3]
    strips = math.ceil(math.sqrt(len(outline) / _LOT))
    strip = np.empty(len(outline), dtype=np.int64)
    strip[np.argsort(east, kind="stable")] = np.arange(len(outline)) * strips // max(1, len(outline))
    order = np.lexsort((north, strip))
    return [order[first : first + _LOT] for first in range(0, len(order), _LOT)]


def _holes(bodies: NDArray[np.object_]) -> NDArray[np.object_]:
    """What the walls' union encloses, as polygons: its holes, less what stands free inside them."""
    parts: NDArray[np.object_] = shapely.get_parts(shapely.union_all(bodies))
    if not len(parts):
        return parts
    rings = [ring for part in parts for ring in part.interiors]
    holes: NDArray[np.object_] = shapely.polygons(rings) if rings else np.empty(0, dtype=object)
    # A house within a room is taken out whole: the rooms inside it are holes of its own.
    islands = shapely.polygons(shapely.get_exterior_ring(parts))
    part, hole = shapely.STRtree(holes).query(parts, predicate="within")
    for index in np.unique(hole):
        holes[index] = shapely.difference(holes[index], shapely.union_all(islands[part[hole == index]]))
    pieces: NDArray[np.object_] = shapely.get_parts(holes)
    return pieces


def noded_centrelines(walls: Sequence[Wall]) -> tuple[FloatArray, dict[tuple[int, int], float]]:
    """Edges (n, 2, 2) of the walls' centrelines, cut wherever walls meet or cross, each edge once; and the feet of
    edges that two walls, by their indices, both run along.
    """
    if not walls:
        return np.empty((0, 2, 2)), {}
    ends = np.array([[wall.a, wall.b] for wall in walls])
    node_of_end, points = _joined_ends(ends)
    on_wall: list[list[tuple[float, int]]] = [
        [(0.0, int(first)), (1.0, int(second))] for first, second in node_of_end.reshape(-1, 2)
    ]
    lines = shapely.linestrings(ends)
    first, second = shapely.STRtree(lines).query(lines, predicate="dwithin", distance=JOIN)
    other = first != second
    first, second = first[other], second[other]
    _ends_on_lines(ends, node_of_end, on_wall, first, second)
    once = first < second
    _crossings(ends, points, on_wall, first[once], second[once])
    place = np.array(points)
    edges: dict[tuple[int, int], int] = {}
    shared: dict[tuple[int, int], float] = {}
    for wall, marks in enumerate(on_wall):
        marks.sort()
        for (_, here), (_, there) in pairwise(marks):
            if here != there:
                other_wall = edges.setdefault((min(here, there), max(here, there)), wall)
                if other_wall != wall:
                    feet = float(np.hypot(*(place[there] - place[here])))
                    shared[other_wall, wall] = shared.get((other_wall, wall), 0.0) + feet
    return place[np.array(sorted(edges), dtype=np.int64).reshape(-1, 2)], shared


def _joined_ends(ends: FloatArray) -> tuple[IntArray, list[tuple[float, float]]]:
    """A node for every wall end (2n,), ends within ``JOIN`` of each other sharing one, and the nodes' places."""
    spots = shapely.points(ends.reshape(-1, 2))
    first, second = shapely.STRtree(spots).query(spots, predicate="dwithin", distance=JOIN)
    leader = np.arange(len(spots))
    np.minimum.at(leader, first, second)
    leader = leader[leader]
    unique, node = np.unique(leader, return_inverse=True)
    return node.astype(np.int64), [(float(x), float(y)) for x, y in ends.reshape(-1, 2)[unique]]


def _ends_on_lines(
    ends: FloatArray, node_of_end: IntArray, on_wall: list[list[tuple[float, int]]], first: IntArray, second: IntArray
) -> None:
    """Mark on each ``second`` wall the ends of its ``first`` wall that lie on it, away from its own ends."""
    start, along = ends[second, 0], ends[second, 1] - ends[second, 0]
    length = np.hypot(along[:, 0], along[:, 1])
    for which in (0, 1):
        offset = ends[first, which] - start
        share = np.einsum("ij,ij->i", offset, along) / length**2
        away = np.abs(along[:, 0] * offset[:, 1] - along[:, 1] * offset[:, 0]) / length
        meets = np.flatnonzero((away <= JOIN) & (share * length > JOIN) & ((1 - share) * length > JOIN))
        for pair in meets:
            on_wall[second[pair]].append((float(share[pair]), int(node_of_end[2 * first[pair] + which])))


def _crossings(
    ends: FloatArray,
    points: list[tuple[float, float]],
    on_wall: list[list[tuple[float, int]]],
    first: IntArray,
    second: IntArray,
) -> None:
    """Mark on both walls of each pair the point where they cross, away from all ends."""
    p, r = ends[first, 0], ends[first, 1] - ends[first, 0]
    q, s = ends[second, 0], ends[second, 1] - ends[second, 0]
    cross = r[:, 0] * s[:, 1] - r[:, 1] * s[:, 0]
    gap = q - p
    with np.errstate(divide="ignore", invalid="ignore"):
        t = (gap[:, 0] * s[:, 1] - gap[:, 1] * s[:, 0]) / cross
        v = (gap[:, 0] * r[:, 1] - gap[:, 1] * r[:, 0]) / cross
        size_r, size_s = np.hypot(*r.T), np.hypot(*s.T)
        clear = (t * size_r > JOIN) & ((1 - t) * size_r > JOIN) & (v * size_s > JOIN) & ((1 - v) * size_s > JOIN)
    made: dict[tuple[float, float], int] = {}
    for pair in np.flatnonzero(clear & (np.abs(cross) > 1e-9 * size_r * size_s)):
        x, y = p[pair] + t[pair] * r[pair]
        spot = (round(float(x), 6), round(float(y), 6))
        if spot not in made:
            made[spot] = len(points)
            points.append((float(x), float(y)))
        on_wall[first[pair]].append((float(t[pair]), made[spot]))
        on_wall[second[pair]].append((float(v[pair]), made[spot]))
