"""The note beside each half wall: its height above the finished floor."""

from __future__ import annotations

from typing import Any

from app.drawing.course import Course
from app.drawing.house.board import Board, Box
from app.drawing.house.walls import is_half
from app.drawing.lengths import drawn_length
from app.drawing.lettering import CAP_HEIGHT, lettered, text_width
from app.drawing.maker import SVG
from app.drawing.view import View
from app.plan.model import Level


def draw_half_wall_notes(level: Level, board: Board, view: View, units: str, size: float) -> Any:
    """A note along each half wall, on whichever side has room, shortened where neither has."""
    group = SVG.g(class_="half-wall-notes")
    for wall in level.walls:
        if not is_half(wall, level) or wall.height is None:
            continue
        line = Course.of((wall.a, wall.b))
        if board.holds(view.spot(line.at(line.length / 2))):
            height = drawn_length(wall.height, units)
            for text in (f"half wall {height} AFF", f"{height} AFF"):
                note = _note(text, line, wall.thickness / 2, board, view, size)
                if note is not None:
                    group.add(note)
                    break
    return group


def _note(text: str, line: Course, half: float, board: Board, view: View, size: float) -> Any | None:
    """A note beside a wall where it lies over nothing, or None."""
    upright = abs(line.along[1]) > abs(line.along[0])
    wide, high = text_width(text, size) + 0.6, size * 1.1
    boxes = _sides(line, half, (high, wide) if upright else (wide, high), view)
    index = board.place(boxes, at_most=0.0)
    if index is None:
        return None
    left, top, right, bottom = boxes[index]
    rise = size * CAP_HEIGHT / 2
    x, y = (left + right) / 2, (top + bottom) / 2
    at = (x + rise, y) if upright else (x, y + rise)
    return lettered(text, at, size, anchor="middle", turn=-90.0 if upright else 0.0, halo=True)


def _sides(line: Course, half: float, box_size: tuple[float, float], view: View) -> list[Box]:
    wide, high = box_size
    boxes = []
    for away in (0.5, 2.0):
        for share in (0.5, 0.3, 0.7):
            for side in (1, -1):
                reach = half + (away + min(wide, high) / 2) / view.scale
                x, y = view.spot(line.at(line.length * share, side * reach))
                boxes.append((x - wide / 2, y - high / 2, x + wide / 2, y + high / 2))
    return boxes
