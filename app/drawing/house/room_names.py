"""Room names and areas, set where the room's floor has space for them.

A long name breaks into lines, a narrow room turns it, a small one leaves the area out; the largest that fits is taken.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.board import Board, Box, aside, leader_end
from app.drawing.lettering import CAP_HEIGHT, SMALLEST, lettered, text_width, wrapped
from app.drawing.maker import SVG
from app.drawing.palette import INK, QUIET
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import FINE
from app.plan.measures import area_text

_EDGE = 0.8  # mm kept from walls
_STEPS = 13
_LAST_RESORTS = 30
_GENEROUS = 8  # settings that are tried clear of furniture


@dataclass(frozen=True)
class _Setting:
    """Lines of a name at one size: ``box`` is its width and height in mm before it is turned."""

    lines: tuple[str, ...]
    area: str
    size: float
    turned: bool
    width: float
    height: float


def draw_room_names(
    rooms: Sequence[Mapping[str, Any]],
    marks: Mapping[str, Spot],
    furniture: BaseGeometry,
    board: Board,
    view: View,
    units: str,
    size: float,
) -> Any:
    """Every room's name and area, clear of ``furniture`` where the room is large enough.

    ``rooms`` are the check's answers, ``marks`` the rooms' own points in plan.
    """
    group = SVG.g(class_="room-names")
    for room in rooms:
        rings = [shapely.Polygon([view.spot(corner) for corner in ring]) for ring in room["outline"]]
        floor = max(rings, key=lambda ring: float(ring.area), default=None)
        name = room["name"] or room["id"]
        if floor is None or floor.is_empty:
            if room["id"] in marks:
                spot = view.spot(marks[room["id"]])
                group.add(lettered(name, spot, size, bold=True, anchor="middle", halo=True))
            continue
        setting, middle = _fitting(name, area_text(room["area_sqft"], units), floor, furniture, board, size)
        heart = floor.representative_point()
        if not floor.contains(shapely.Point(middle)):
            group.add(_leader((heart.x, heart.y), _box(setting, middle)))
        for text in _set(setting, middle):
            group.add(text)
    return group


def _fitting(
    name: str, area: str, floor: BaseGeometry, furniture: BaseGeometry, board: Board, size: float
) -> tuple[_Setting, Spot]:
    """The best setting with its middle; where none is free the smallest, on a wall or beside the room if need be."""
    inner = floor.buffer(-_EDGE)
    inner = floor if inner.is_empty else inner
    middles = _middles(inner)
    settings = list(_settings(name, area, size))
    generous = [setting for setting in settings[:_GENEROUS] if not setting.turned]
    # Full size over furniture reads better than half size beside it.
    for some, space in ((generous, shapely.difference(inner, furniture)), (settings, inner)):
        shapely.prepare(space)
        for setting in some:
            boxes = np.array([_box(setting, middle) for middle in middles])
            inside = np.flatnonzero(shapely.contains(space, shapely.box(*boxes.T)))
            free = inside[board.free(boxes[inside])] if len(inside) else inside
            if len(free):
                board.take(_box(setting, middles[free[0]]))
                return setting, middles[free[0]]
    smallest = min(settings, key=lambda setting: setting.width * setting.height)
    places = [_box(smallest, middle) for middle in middles[:_LAST_RESORTS]]
    places += aside(middles[0], places[0][2] - places[0][0], places[0][3] - places[0][1])
    left, top, right, bottom = places[board.place(places) or 0]
    return smallest, ((left + right) / 2, (top + bottom) / 2)


def _leader(heart: Spot, box: Box) -> Any:
    """From a room too small for its name to the name beside it."""
    group = SVG.g(stroke=INK, stroke_width=FINE, class_="leader")
    group.add(SVG.path(d=line_through((heart, leader_end(heart, box))), fill="none"))
    group.add(SVG.circle((round(heart[0], 3), round(heart[1], 3)), 0.35, fill=INK))
    return group


def _settings(name: str, area: str, size: float) -> Iterator[_Setting]:
    """Settings of a name from the best to the last resort."""
    least = min(size, SMALLEST)
    for scale, with_area, turned in (
        (1.0, True, False),
        (0.85, True, False),
        (0.85, True, True),
        (0.72, True, False),
        (0.85, False, False),
        (0.72, False, False),
        (0.72, False, True),
    ):
        here = max(size * scale, least)
        for breadth in (math.inf, 24.0, 15.0, 10.0):
            if any(text_width(word, here, bold=True) > breadth for word in name.upper().split()):
                continue
            lines = tuple(wrapped(name.upper(), here, breadth, bold=True)) if breadth < math.inf else (name.upper(),)
            if len(lines) > 4 or (breadth < math.inf and len(lines) == 1):
                continue
            small = max(least, here * 0.85)
            below = area if with_area else ""
            width = max(text_width(line, here, bold=True) for line in lines)
            width = max(width, text_width(below, small))
            height = len(lines) * here * 1.15 + (small * 1.25 if below else 0.0)
            yield _Setting(lines, below, here, turned, width + 0.8, height)


def _middles(inner: BaseGeometry) -> list[Spot]:
    """Places to try, nearest to the middle of the room's floor first."""
    left, top, right, bottom = inner.bounds
    heart = shapely.maximum_inscribed_circle(inner, tolerance=0.5).coords[0]
    xs, ys = np.linspace(left, right, _STEPS + 2)[1:-1], np.linspace(top, bottom, _STEPS + 2)[1:-1]
    grid = [(float(x), float(y)) for x in xs for y in ys]
    inside = shapely.contains_xy(inner, [x for x, _ in grid], [y for _, y in grid])
    centre = inner.centroid
    first = (centre.x, centre.y) if inner.contains(centre) else (heart[0], heart[1])
    kept = [spot for spot, within in zip(grid, inside.tolist(), strict=True) if within]
    kept.sort(key=lambda spot: math.dist(spot, first))
    return [first, (heart[0], heart[1]), *kept]


def _box(setting: _Setting, middle: Spot) -> Box:
    width, height = (setting.height, setting.width) if setting.turned else (setting.width, setting.height)
    return (middle[0] - width / 2, middle[1] - height / 2, middle[0] + width / 2, middle[1] + height / 2)


def _set(setting: _Setting, middle: Spot) -> Iterator[Any]:
    group = SVG.g()
    if setting.turned:
        group["transform"] = f"rotate(-90 {middle[0]:.3f} {middle[1]:.3f})"
    line_height = setting.size * 1.15
    y = middle[1] - setting.height / 2 + setting.size * (CAP_HEIGHT + 0.2)
    for line in setting.lines:
        group.add(lettered(line, (middle[0], y), setting.size, bold=True, anchor="middle", halo=True))
        y += line_height
    if setting.area:
        small = max(SMALLEST, setting.size * 0.85)
        group.add(lettered(setting.area, (middle[0], y + 0.1), small, anchor="middle", halo=True, colour=QUIET))
    yield group
