"""Key plans: each level small, all at one scale, walls and openings only, with the glass marked where it is proven."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

from app.drawing.floor_plan import LevelDrawing
from app.drawing.house.board import Box
from app.drawing.house.openings import draw_openings
from app.drawing.house.proof import draw_glass
from app.drawing.house.walls import draw_walls
from app.drawing.lettering import lettered, shortened
from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.strokes import Strokes
from app.drawing.view import View
from app.drawing.weights import FINE

_GAP = 6.0  # mm between two key plans
_NAME = 5.0  # mm that a level's name takes beneath its plan


def draw_key_plans(drawings: Sequence[LevelDrawing], box: Box, size: float) -> Any:
    """The levels side by side within a box, as large as they all can be at one scale; ``size`` is of their names."""
    left, top, right, bottom = box
    drawn = [drawing for drawing in drawings if not drawing.area.is_empty]
    group = SVG.g(class_="key-plans")
    if not drawn:
        return group
    scale, across = _best(drawn, right - left, bottom - top)
    wide, high = (right - left) / across, (bottom - top) / math.ceil(len(drawn) / across)
    deepest = max(_size(drawing)[1] for drawing in drawn) * scale
    for number, drawing in enumerate(drawn):
        x, middle = left + number % across * wide, top + number // across * high + (high - _NAME) / 2
        west, south, east, north = drawing.area.bounds
        view = View(scale, x + wide / 2 - (west + east) / 2 * scale, middle + (south + north) / 2 * scale)
        group.add(_level(drawing, view))
        # Beneath the deepest plan, so that the names of a row stand in one line.
        name = shortened(drawing.scene.level.name, size, wide - 2.0, bold=True)
        group.add(lettered(name, (x + wide / 2, middle + deepest / 2 + _NAME - 0.5), size, bold=True, anchor="middle"))
    return group


def _size(drawing: LevelDrawing) -> tuple[float, float]:
    """Width and depth of a level in feet."""
    west, south, east, north = drawing.area.bounds
    return east - west, north - south


def _best(drawn: Sequence[LevelDrawing], wide: float, high: float) -> tuple[float, int]:
    """The largest scale in mm a foot, and how many plans stand side by side at it."""
    broad = max(0.1, *(_size(drawing)[0] for drawing in drawn))
    deep = max(0.1, *(_size(drawing)[1] for drawing in drawn))
    found = []
    for across in range(1, len(drawn) + 1):
        down = math.ceil(len(drawn) / across)
        found.append((min((wide / across - _GAP) / broad, (high / down - _NAME - _GAP / 2) / deep), across))
    scale, across = max(found)
    return max(scale, 1e-3), across


def _level(drawing: LevelDrawing, view: View) -> Any:
    strokes = Strokes()
    draw_walls(strokes, drawing.walls, view)
    draw_openings(strokes, drawing.scene, view)
    draw_glass(strokes, drawing.scene, drawing.panes, view)
    group = strokes.group("key-plan")
    for device in drawing.scene.level.devices:
        x, y = view.spot(device.at)
        if device.kind == "can":
            group.add(SVG.rect((round(x - 1, 3), round(y - 1, 3)), (2, 2), fill=INK, stroke=INK, stroke_width=FINE))
    return group
