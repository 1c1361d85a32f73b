"""Windows, doors and cased openings as plans draw them: glazing lines, leaves with their swing, headers dashed."""

from __future__ import annotations

import math
from itertools import pairwise

import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.course import Course
from app.drawing.house.swings import swing_side
from app.drawing.palette import PAPER
from app.drawing.strokes import Look, Strokes
from app.drawing.view import View, written
from app.drawing.weights import FINE, MEDIUM, THIN
from app.geometry.scene import LevelScene
from app.plan.model import Opening

PAIR_FROM = 4.5  # ft: a wider swinging door has two leaves
HIGH_SILL = 5.0  # ft: a window above is over the plane in which a plan is cut
LEAF = 0.146  # ft, 1 3/4 in: the usual thickness of a door leaf
_UP = 7.0  # ft that an overhead door reaches into the room when it is up

_GLAZING = Look(MEDIUM)
_FACE = Look(THIN)
_LEAF = Look(THIN, fill=PAPER)
_ARC = Look(FINE)
_OVERHEAD = Look(FINE, dash="1.6 0.9")


def draw_openings(strokes: Strokes, scene: LevelScene, view: View) -> None:
    """Draw every opening of a level."""
    for opening in scene.level.openings:
        wall = scene.level.wall_by_id[opening.wall]
        gap = Course.of((wall.along(opening.offset), wall.along(min(opening.end, wall.length))))
        _draw(strokes, opening, gap, wall.thickness / 2, swing_side(scene, opening), view)


def swept_floor(scene: LevelScene) -> list[BaseGeometry]:
    """The floor that the leaves of swinging doors sweep, in feet, as their bounding boxes along the wall."""
    swept: list[BaseGeometry] = []
    for opening in scene.level.openings:
        if opening.kind == "door" and opening.leaf == "swing":
            wall = scene.level.wall_by_id[opening.wall]
            gap = Course.of((wall.along(opening.offset), wall.along(min(opening.end, wall.length))))
            reach = gap.length / 2 if gap.length >= PAIR_FROM else gap.length
            far = swing_side(scene, opening) * (wall.thickness / 2 + reach)
            swept.append(shapely.Polygon([gap.at(0), gap.at(gap.length), gap.at(gap.length, far), gap.at(0, far)]))
    return swept


def _draw(strokes: Strokes, opening: Opening, gap: Course, half: float, side: int, view: View) -> None:
    if opening.kind == "window":
        _window(strokes, opening, gap, half, view)
    elif opening.kind == "cased":
        strokes.add(_OVERHEAD, *(_along(gap, aside, view) for aside in (-half, half)))
    elif opening.leaf == "slide":
        _sliding(strokes, opening, gap, half, view)
    elif opening.leaf == "overhead":
        _overhead(strokes, gap, half, side, view)
    elif opening.leaf == "fixed":
        _window(strokes, opening, gap, half, view)
    else:
        _swinging(strokes, opening, gap, half, side, view)


def _along(gap: Course, aside: float, view: View) -> str:
    return view.line((gap.at(0, aside), gap.at(gap.length, aside)))


def _window(strokes: Strokes, opening: Opening, gap: Course, half: float, view: View) -> None:
    """Both faces of the wall, two glazing lines and a tick at each joint of lites; dashed where it sits high."""
    face, glass = (_OVERHEAD, _OVERHEAD) if opening.sill >= HIGH_SILL else (_FACE, _GLAZING)
    strokes.add(face, *(_along(gap, aside, view) for aside in (-half, half)))
    apart = min(half * 0.3, 0.45 / view.scale)
    strokes.add(glass, *(_along(gap, aside, view) for aside in (-apart, apart)))
    marks = [gap.length * lite / opening.panes for lite in range(1, opening.panes)]
    strokes.add(_FACE, *(view.line((gap.at(u, -half), gap.at(u, half))) for u in marks))


def _sliding(strokes: Strokes, opening: Opening, gap: Course, half: float, view: View) -> None:
    """Panels one behind another, each lapping its neighbour."""
    panels = max(2, opening.panes)
    strokes.add(_FACE, *(_along(gap, aside, view) for aside in (-half, half)))
    thick = min(half * 0.38, LEAF / 2)
    lap = min(0.15, gap.length / panels / 4)
    edges = [gap.length * panel / panels for panel in range(panels + 1)]
    for number, (low, high) in enumerate(pairwise(edges)):
        centre = thick if number % 2 else -thick
        span = (max(0.0, low - lap), min(gap.length, high + lap))
        corners = [gap.at(u, v) for v, us in ((centre - thick, span), (centre + thick, span[::-1])) for u in us]
        strokes.add(_LEAF, view.rings([corners]))
        if opening.has_glass:
            strokes.add(_ARC, view.line((gap.at(span[0], centre), gap.at(span[1], centre))))


def _overhead(strokes: Strokes, gap: Course, half: float, side: int, view: View) -> None:
    """The closed door in the wall, and dashed where it goes when it is up."""
    strokes.add(_LEAF, view.rings([gap.bar((0, gap.length), min(half * 0.5, LEAF))]))
    strokes.add(_FACE, _along(gap, -side * half, view))
    inner = [
        gap.at(0, side * half),
        gap.at(0, side * _UP),
        gap.at(gap.length, side * _UP),
        gap.at(gap.length, side * half),
    ]
    strokes.add(_OVERHEAD, view.line(inner))


def _swinging(strokes: Strokes, opening: Opening, gap: Course, half: float, side: int, view: View) -> None:
    """One leaf at right angles with its arc, or a pair of them; an outer door has its sill lines."""
    if min(opening.sill, 1.0) == 0 and opening.has_glass:
        strokes.add(_FACE, _along(gap, 0.0, view))
    strokes.add(_ARC, _along(gap, -side * half, view))
    middle, end = gap.length / 2, gap.length
    if gap.length >= PAIR_FROM:
        _leaf(strokes, gap, (0.0, middle), side * half, side, view)
        _leaf(strokes, gap, (end, middle), side * half, side, view)
    elif opening.hinge == "b":
        _leaf(strokes, gap, (end, 0.0), side * half, side, view)
    else:
        _leaf(strokes, gap, (0.0, end), side * half, side, view)


def _leaf(strokes: Strokes, gap: Course, span: tuple[float, float], face: float, side: int, view: View) -> None:
    """A leaf hinged at the first mark of a span, open at right angles, and the arc to the second mark."""
    hinge, strike = span
    width = abs(strike - hinge)
    thick = math.copysign(min(LEAF, width / 8), strike - hinge)
    tip = face + side * width
    corners = [gap.at(hinge, face), gap.at(hinge, tip), gap.at(hinge + thick, tip), gap.at(hinge + thick, face)]
    strokes.add(_LEAF, view.rings([corners]))
    start, end, centre = (view.spot(gap.at(u, v)) for u, v in ((hinge, tip), (strike, face), (hinge, face)))
    turn = (start[0] - centre[0]) * (end[1] - centre[1]) - (start[1] - centre[1]) * (end[0] - centre[0])
    radius = width * view.scale
    strokes.add(_ARC, f"M{written(*start)}A{radius:.3f} {radius:.3f} 0 0 {int(turn > 0)} {written(*end)}")
