"""The label of each obstruction, level or upright inside it where it fits and nothing else stands there."""

from __future__ import annotations

from typing import Any

import shapely

from app.drawing.house.board import Board, Box
from app.drawing.lettering import CAP_HEIGHT, SMALLEST, lettered, text_width
from app.drawing.maker import SVG
from app.drawing.palette import QUIET
from app.drawing.view import Spot, View
from app.plan.model import Level


def draw_obstruction_names(level: Level, board: Board, view: View, size: float) -> Any:
    """Every obstruction's label that finds room."""
    group = SVG.g(class_="obstruction-names")
    small = max(SMALLEST, size * 0.92)
    for fixture in level.fixtures:
        if fixture.polygon is None or not fixture.label:
            continue
        shape = shapely.Polygon([view.spot(corner) for corner in fixture.polygon])
        if not board.holds((shape.centroid.x, shape.centroid.y)):
            continue
        wide, high = text_width(fixture.label, small) + 0.6, small * 1.1
        middle = shape.representative_point() if not shape.contains(shape.centroid) else shape.centroid
        heart = (middle.x, middle.y)
        left, top, right, bottom = shape.bounds
        upright = right - left < wide <= bottom - top
        boxes = [_about(heart, high, wide)] if upright else [_about(heart, wide, high)]
        if right - left < wide and not upright:
            continue
        index = board.place(boxes, at_most=0.0)
        if index is not None:
            group.add(_set(fixture.label, boxes[index], small, upright))
    return group


def _about(at: Spot, wide: float, high: float) -> Box:
    return (at[0] - wide / 2, at[1] - high / 2, at[0] + wide / 2, at[1] + high / 2)


def _set(text: str, box: Box, size: float, upright: bool) -> Any:
    x, y, rise = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2, size * CAP_HEIGHT / 2
    at = (x + rise, y) if upright else (x, y + rise)
    return lettered(text, at, size, anchor="middle", turn=-90.0 if upright else 0.0, halo=True, colour=QUIET)
