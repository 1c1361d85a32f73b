"""The contract's solid bodies and panes, read plainly from a plan dict: the oracles' own reading, not the program's.

Imports nothing of the program. Where a body reaches the ceiling its prism is drawn a foot higher, and one that stands
on the floor a foot lower: no sight line runs there, and a ray that grazes the ceiling then meets no edge.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Any

import numpy as np
import shapely
import trimesh

from tests.houses import Value

MARGIN = 1.0  # ft beyond floor and ceiling
SAME_LINE = 0.02  # ft, contract §3
RANGE = 15.0  # ft, contract §3
TARGET = 3.0  # ft, contract §3


@dataclass(frozen=True)
class Solid:
    """A prism: its plan as a ring of corners (n, 2), from ``base`` to ``top``; ``line`` the wall's centreline."""

    ring: np.ndarray
    base: float
    top: float
    line: np.ndarray | None = None

    @cached_property
    def plan(self) -> shapely.Polygon:
        return shapely.Polygon(self.ring)

    @cached_property
    def mesh(self) -> trimesh.Trimesh:
        """The prism as a closed mesh of triangles."""
        triangles = shapely.constrained_delaunay_triangles(self.plan).geoms
        parts = [np.asarray(part.exterior.coords)[:3] for part in triangles]
        vertices, inverse = np.unique(np.concatenate(parts).round(12), axis=0, return_inverse=True)
        faces = inverse.reshape(-1)[np.arange(3 * len(parts)).reshape(-1, 3)]
        mesh = trimesh.creation.extrude_triangulation(vertices, faces, self.top - self.base)
        mesh.apply_translation((0, 0, self.base))
        return mesh

    def holds(self, point: np.ndarray) -> bool:
        """Whether a point (x, y, z) lies in the interior."""
        return self.base < point[2] < self.top and bool(shapely.contains_xy(self.plan, *point[:2]))


@dataclass(frozen=True)
class Glass:
    """One lite: ``start`` and ``end`` in plan (2,), ``sill`` and ``head``; ``wall`` the centreline (2, 2)."""

    name: str
    start: np.ndarray
    end: np.ndarray
    sill: float
    head: float
    wall: np.ndarray

    def grid(self, count: int) -> np.ndarray:
        """The middles (count², 3) of a grid of cells, row by row from the sill."""
        steps = (np.arange(count) + 0.5) / count
        z, u = np.meshgrid(self.sill + steps * (self.head - self.sill), steps, indexing="ij")
        plan = self.start + u.reshape(-1, 1) * (self.end - self.start)
        return np.column_stack([plan, z.ravel()])


def length_of(wall: Value) -> float:
    return math.dist(wall["a"], wall["b"])


def footprint(wall: Value, start: float = 0.0, end: float | None = None) -> np.ndarray:
    """The plan of a wall's body between two distances along it."""
    a, b = np.array(wall["a"], dtype=float), np.array(wall["b"], dtype=float)
    along = (b - a) / length_of(wall)
    off = np.array([-along[1], along[0]]) * wall.get("thickness", 0.375) / 2
    first, last = a + along * start, a + along * (length_of(wall) if end is None else end)
    return np.array([first - off, last - off, last + off, first + off])


def solids_of(plan: Value, level: Value) -> list[Solid]:
    """Every solid body of a level as contract §3 states them."""
    ceiling, doors_open = level.get("ceiling", 9.0), plan.get("practice", {}).get("doors.taken_as") == "open"
    voids: dict[str, list[Value]] = {}
    for opening in level.get("openings", []):
        if opening["kind"] == "cased" or (doors_open and opening["kind"] == "door"):
            voids.setdefault(opening["wall"], []).append(opening)
    solids = []
    for wall in level.get("walls", []):
        top = min(ceiling if wall.get("height") is None else wall["height"], ceiling)
        cuts = {0.0, length_of(wall)}
        for void in voids.get(wall["id"], []):
            cuts |= {void["offset"], void["offset"] + void["width"]}
        for start, end in pairwise(sorted(cuts)):
            middle = (start + end) / 2
            here = [v for v in voids.get(wall["id"], []) if v["offset"] < middle < v["offset"] + v["width"]]
            for low, high in _solid_heights(here, top):
                line = np.array([wall["a"], wall["b"]], dtype=float)
                solids.append(_stretched(Solid(footprint(wall, start, end), low, high, line), ceiling))
    for fixture in level.get("fixtures", []):
        if fixture["kind"] == "obstruction":
            high = ceiling if fixture.get("top") is None else fixture["top"]
            ring = np.array(fixture["polygon"], dtype=float)
            solids.append(_stretched(Solid(ring, fixture.get("base", 0.0), high), ceiling))
    return solids


def _solid_heights(voids: list[Value], top: float) -> list[tuple[float, float]]:
    """What voids, one above another, leave of a wall's height."""
    left, floor = [], 0.0
    for void in sorted(voids, key=lambda one: one.get("sill", 0.0)):
        left.append((floor, min(top, void.get("sill", 0.0))))
        floor = void.get("head", 6.667)
    left.append((floor, top))
    return [(low, high) for low, high in left if high > low]


def _stretched(solid: Solid, ceiling: float) -> Solid:
    base = -MARGIN if solid.base <= 0 else solid.base
    top = ceiling + MARGIN if solid.top >= ceiling else solid.top
    return Solid(solid.ring, base, top, solid.line)


def panes_of(level: Value) -> list[Glass]:
    """Every lite of every glazed opening."""
    walls = {wall["id"]: wall for wall in level.get("walls", [])}
    panes = []
    for opening in level.get("openings", []):
        glazed = opening.get("glazed")
        if not (opening["kind"] == "window" if glazed is None else glazed):
            continue
        wall = walls[opening["wall"]]
        line = np.array([wall["a"], wall["b"]], dtype=float)
        along = (line[1] - line[0]) / length_of(wall)
        lite = opening["width"] / opening.get("panes", 1)
        for index in range(opening.get("panes", 1)):
            start = line[0] + along * (opening["offset"] + index * lite)
            name, heights = f"{opening['id']}/{index + 1}", (opening.get("sill", 0.0), opening.get("head", 6.667))
            panes.append(Glass(name, start, start + along * lite, *heights, line))
    return panes


def blockers(solids: list[Solid], pane: Glass) -> list[Solid]:
    """All solids but the walls both of whose ends lie on the pane's own wall line."""
    along = pane.wall[1] - pane.wall[0]
    normal = np.array([-along[1], along[0]]) / np.hypot(*along)

    def on_line(solid: Solid) -> bool:
        return solid.line is not None and bool((np.abs((solid.line - pane.wall[0]) @ normal) <= SAME_LINE).all())

    return [solid for solid in solids if not on_line(solid)]


def floor_of(level: Value) -> Any:
    """The floor of a house whose outside is a rectangle: that rectangle of centrelines less every wall's plan."""
    ends = [point for wall in level["walls"] for point in (wall["a"], wall["b"])]
    building = shapely.MultiPoint(ends).convex_hull
    return shapely.difference(building, shapely.union_all([shapely.Polygon(footprint(w)) for w in level["walls"]]))
