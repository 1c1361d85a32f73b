"""Fixtures as plans draw them: obstructions lightly hatched, and small signs for switches, chimes, registers, outlets.

A bed is drawn with its head to the nearest wall, unless walls leave no room for one: then its sign alone.
"""

from __future__ import annotations

import math
from collections.abc import Mapping

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.board import Box
from app.drawing.palette import PAPER, QUIET
from app.drawing.strokes import Look, Strokes
from app.drawing.view import Spot, View, line_through, written
from app.drawing.weights import FINE, THIN
from app.plan.model import Fixture, Level, Wall

HATCH_STEP = 2.2  # mm of paper
_MOST_LINES = 2000
OUTLETS_FROM = 4.5  # mm a foot: 3/16" = 1'-0" and larger
SIGN = 1.25  # mm: half width of a small sign
BED = (5.0, 6.667)  # ft: width and length of the mattress, a queen's
_PILLOWED = 2.5  # ft: a bed's point nearer to a wall than this is its pillow

_OUTLINE = Look(FINE, fill=PAPER)
_HUNG = Look(FINE, colour=QUIET, dash="1.2 0.8")
_HATCH = Look(FINE, colour="#C4C4C4")
_SIGN = Look(THIN, fill=PAPER)
_SIGN_LINE = Look(THIN)

SIGN_WORDS = {
    "obstruction": "Furniture or built-in",
    "light_switch": "Light switch",
    "chime": "Doorbell chime",
    "supply_register": "Supply register",
    "bed": "Bed",
    "outlet": "Outlet",
}


def draw_obstructions(strokes: Strokes, level: Level, view: View, limits: Box) -> None:
    """Outline and hatch every obstruction within ``limits``; one that hangs above the floor is dashed."""
    seen = shapely.box(*limits)
    for fixture in level.fixtures:
        if fixture.polygon is not None:
            shape = shapely.Polygon([view.spot(corner) for corner in fixture.polygon])
            if not shape.intersects(seen):
                continue
            outline = view.rings([fixture.polygon])
            strokes.add(_HUNG if fixture.base > 0 else _OUTLINE, outline)
            strokes.add(_HATCH, hatching(shape))


def hatching(area: BaseGeometry, step: float = HATCH_STEP, *, rising: bool = True) -> str:
    """Path data of slanted lines through an area of the picture, ``step`` apart, that rise or fall to the right."""
    left, top, right, bottom = area.bounds
    gap = step * math.sqrt(2)
    lean = 1 if rising else -1
    marks = [x + lean * y for x in (left, right) for y in (top, bottom)]
    first, last = math.floor(min(marks) / gap), math.ceil(max(marks) / gap)
    if last - first > _MOST_LINES:
        return ""
    at = np.arange(first, last + 1) * gap
    ends = np.stack([at - lean * bottom, np.full_like(at, bottom), at - lean * top, np.full_like(at, top)], axis=1)
    cut = shapely.intersection(shapely.multilinestrings(shapely.linestrings(ends.reshape(-1, 2, 2))), area)
    return "".join(
        line_through(shapely.get_coordinates(part).tolist())
        for part in shapely.get_parts(cut)
        if part.geom_type == "LineString"
    )


def draw_beds(strokes: Strokes, level: Level, solid: BaseGeometry, view: View) -> None:
    """Draw every bed; ``solid`` is what stands in its way, in feet."""
    for fixture in level.fixtures:
        if fixture.kind == "bed" and fixture.at is not None:
            rings = _bed_in_place(fixture.at, level, solid)
            if rings:
                strokes.add(_OUTLINE, *(view.rings([ring]) for ring in rings))
            else:
                strokes.add(_SIGN, sign_path("bed", view.spot(fixture.at)))


def bed_outlines(level: Level, solid: BaseGeometry) -> list[list[Spot]]:
    """The mattress of every bed that is drawn, in feet."""
    beds = [fixture.at for fixture in level.fixtures if fixture.kind == "bed" and fixture.at is not None]
    return [rings[0] for at in beds if (rings := _bed_in_place(at, level, solid))]


def _bed_in_place(at: Spot, level: Level, solid: BaseGeometry) -> list[list[Spot]]:
    """A bed's outlines where no wall is in their way, else nothing."""
    rings = _bed_outline(at, level)
    return [] if rings is None or shapely.Polygon(rings[0]).buffer(-0.05).intersects(solid) else rings


def _bed_outline(at: Spot, level: Level) -> list[list[Spot]] | None:
    """The mattress and two pillows, in feet, with the head to the nearest wall; None where there is none."""
    nearest = _nearest_wall(at, level)
    if nearest is None:
        return None
    (foot_x, foot_y), distance, half = nearest
    if distance <= half:
        return None
    ux, uy = (at[0] - foot_x) / distance, (at[1] - foot_y) / distance
    width, length = BED
    if distance - half > _PILLOWED:
        base_x, base_y = at[0] - ux * length / 2, at[1] - uy * length / 2
    else:
        base_x, base_y = foot_x + ux * (half + 0.1), foot_y + uy * (half + 0.1)

    def box(low: float, high: float, left: float, right: float) -> list[Spot]:
        return [
            (base_x + u * ux - v * uy, base_y + u * uy + v * ux)
            for u, v in ((low, left), (high, left), (high, right), (low, right))
        ]

    return [box(0, length, -width / 2, width / 2), box(0.3, 1.6, -2.2, -0.3), box(0.3, 1.6, 0.3, 2.2)]


def _nearest_wall(at: Spot, level: Level) -> tuple[Spot, float, float] | None:
    """The nearest point of any centreline, the distance to it and that wall's half thickness, in feet."""

    def foot(wall: Wall) -> Spot:
        (ax, ay), (bx, by) = wall.a, wall.b
        share = ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / wall.length**2
        return wall.along(min(max(share, 0.0), 1.0) * wall.length)

    found = [(math.dist(at, foot(wall)), foot(wall), wall.thickness / 2) for wall in level.walls]
    if not found:
        return None
    distance, point, half = min(found)
    return point, distance, half


def shown_signs(level: Level, scale: float) -> list[Fixture]:
    """The fixtures that have a sign at a scale in mm a foot; outlets, by which nothing is placed, on large plans."""
    return [
        fixture
        for fixture in level.fixtures
        if fixture.at is not None and fixture.kind != "bed" and (fixture.kind != "outlet" or scale >= OUTLETS_FROM)
    ]


def draw_signs(strokes: Strokes, level: Level, view: View, sign: float) -> list[Spot]:
    """Draw the small signs, of half width ``sign``; gives back their places on paper."""
    spots = []
    for fixture in shown_signs(level, view.scale):
        if fixture.at is not None:
            at = view.spot(fixture.at)
            spots.append(at)
            strokes.add(_SIGN, sign_path(fixture.kind, at, sign))
            strokes.add(_SIGN_LINE, sign_lines(fixture.kind, at, sign))
    return spots


def sign_path(kind: str, at: Spot, sign: float = SIGN) -> str:
    """The closed outline of a fixture's sign of half width ``sign`` about a place of the picture."""
    x, y = at
    if kind == "supply_register":
        return _box(x, y, sign * 1.5, sign * 0.8)
    if kind in ("bed", "obstruction"):
        return _box(x, y, sign * 1.5, sign)
    return f"M{written(x - sign, y)}a{sign} {sign} 0 1 0 {2 * sign} 0a{sign} {sign} 0 1 0 {-2 * sign} 0Z"


def sign_lines(kind: str, at: Spot, sign: float = SIGN) -> str:
    """The lines within a fixture's sign."""
    x, y = at
    if kind == "obstruction":
        return hatching(shapely.box(x - sign * 1.5, y - sign, x + sign * 1.5, y + sign), 0.9)
    return "".join(
        line_through((x + sign * dx, y + sign * dy) for dx, dy in line) for line in _SIGN_LINES.get(kind, ())
    )


_SIGN_LINES: Mapping[str, tuple[tuple[Spot, ...], ...]] = {
    "light_switch": (((0.45, -0.6), (-0.35, -0.6), (-0.45, -0.1), (0.45, 0.1), (0.35, 0.6), (-0.45, 0.6)),),
    "chime": (
        ((-0.55, 0.4), (-0.35, 0.2), (-0.3, -0.4), (0, -0.65), (0.3, -0.4), (0.35, 0.2), (0.55, 0.4), (-0.55, 0.4)),
    ),
    "supply_register": tuple(((dx, -0.8), (dx, 0.8)) for dx in (-0.75, 0.0, 0.75)),
    "outlet": tuple(((dx, -0.5), (dx, 0.5)) for dx in (-0.35, 0.35)),
}


def _box(x: float, y: float, half_width: float, half_height: float) -> str:
    corners = ((-1, -1), (1, -1), (1, 1), (-1, 1))
    return line_through((x + dx * half_width, y + dy * half_height) for dx, dy in corners) + "Z"
