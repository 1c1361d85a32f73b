"""Walls as they are cut in plan: one body with clean joints, its openings taken out; half walls for themselves.

The contract's wall ends flat on its centreline's end, which leaves a notch at a corner; the drawing fills it.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.strokes import Look, Strokes
from app.drawing.view import Spot, View
from app.drawing.weights import CUT, THIN
from app.geometry.bodies import wall_corners
from app.geometry.rooms import JOIN
from app.plan.model import Level, Opening, Wall

POCHE = "#595959"
HALF_WALL = "#E4E4E4"
LONGEST_MITRE = 3.0  # half thicknesses: a sharper corner is cut off square
_PAST = 0.03  # ft that an opening's cut goes past the wall's faces

_CUT = Look(CUT, fill=POCHE)
_LOW = Look(THIN, fill=HALF_WALL)


@dataclass(frozen=True)
class WallPlan:
    """The walls' bodies in plan, in feet: ``full`` to the ceiling, ``low`` the half walls, both less their openings;
    ``closed`` is all of them with the openings left solid.
    """

    full: BaseGeometry
    low: BaseGeometry
    closed: BaseGeometry


def wall_plan(level: Level) -> WallPlan:
    """The walls of a level as they are cut in plan."""
    tall = [wall for wall in level.walls if not is_half(wall, level)]
    low = [wall for wall in level.walls if is_half(wall, level)]
    gaps = shapely.union_all([_gap(opening, level.wall_by_id[opening.wall]) for opening in level.openings])
    full, half = jointed(tall), jointed(low)
    return WallPlan(
        shapely.difference(full, gaps),
        shapely.difference(shapely.difference(half, full), gaps),
        shapely.union(full, half),
    )


def is_half(wall: Wall, level: Level) -> bool:
    """Whether a wall stops short of the ceiling."""
    return wall.height is not None and wall.height < level.ceiling


def jointed(walls: Sequence[Wall]) -> BaseGeometry:
    """The bodies of some walls as one, with the notches at their corners filled."""
    if not walls:
        return shapely.Polygon()
    bodies = [shapely.Polygon(wall_corners(wall)) for wall in walls]
    return shapely.union_all([*bodies, *_fillings(walls)])


def _gap(opening: Opening, wall: Wall) -> BaseGeometry:
    wide = wall.model_copy(update={"thickness": wall.thickness + 2 * _PAST})
    return shapely.Polygon(wall_corners(wide, opening.offset, min(opening.end, wall.length)))


def _fillings(walls: Sequence[Wall]) -> Iterable[BaseGeometry]:
    """What closes the outer side of each corner that two walls' ends make."""
    ends = [(wall.a, wall.b, wall.thickness / 2) for wall in walls] + [
        (wall.b, wall.a, wall.thickness / 2) for wall in walls
    ]
    spots = shapely.points(np.array([end[0] for end in ends]))
    first, second = shapely.STRtree(spots).query(spots, predicate="dwithin", distance=JOIN)
    together: dict[int, list[int]] = {}
    for one, two in zip(first.tolist(), second.tolist(), strict=True):
        together.setdefault(one, []).append(two)
    for node, members in together.items():
        if node == min(members):
            for one, two in combinations(members, 2):
                filling = _corner(ends[one], ends[two])
                if filling is not None:
                    yield filling


def _corner(one: tuple[Spot, Spot, float], two: tuple[Spot, Spot, float]) -> BaseGeometry | None:
    """The outer side of the corner of two walls, each given as (shared end, other end, half thickness)."""
    (node, far_one, half_one), (_, far_two, half_two) = one, two
    ux, uy = _unit(node, far_one)
    vx, vy = _unit(node, far_two)
    turn = ux * vy - uy * vx
    if abs(turn) < 0.02:
        return None
    side = math.copysign(1.0, turn)
    corner_one = (node[0] + side * uy * half_one, node[1] - side * ux * half_one)
    corner_two = (node[0] - side * vy * half_two, node[1] + side * vx * half_two)
    # Where the outer faces, run on past the node, meet.
    gap_x, gap_y = corner_two[0] - corner_one[0], corner_two[1] - corner_one[1]
    run = (gap_x * vy - gap_y * vx) / turn
    tip = (corner_one[0] + ux * run, corner_one[1] + uy * run)
    if math.dist(tip, node) > LONGEST_MITRE * max(half_one, half_two):
        return shapely.MultiPoint([node, corner_one, corner_two]).convex_hull
    filling = shapely.Polygon([node, corner_one, tip, corner_two])
    return filling if filling.is_valid else filling.convex_hull


def _unit(start: Spot, end: Spot) -> Spot:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def draw_walls(strokes: Strokes, plan: WallPlan, view: View) -> None:
    """Draw half walls light and full walls as solid poché."""
    strokes.add(_LOW, area_path(plan.low, view))
    strokes.add(_CUT, area_path(plan.full, view))


def area_path(area: BaseGeometry, view: View) -> str:
    """Path data of an area's polygons with their holes."""
    return view.rings(
        shapely.get_coordinates(ring)[:-1]
        for part in shapely.get_parts(area)
        if part.geom_type == "Polygon" and not part.is_empty
        for ring in (part.exterior, *part.interiors)
    )
