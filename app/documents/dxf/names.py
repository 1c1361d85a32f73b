"""Names of rooms and of what stands in them, where they lie over no device and over no other name."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from app.documents.dxf import layers
from app.documents.dxf.ground import Ground
from app.documents.plan_answers import PlanAnswers
from app.drawing.house.board import Board, about
from app.drawing.lettering import text_width
from app.plan.measures import area_text
from app.review.house import Storey

ROOM_LETTER = 0.5  # ft
OBSTRUCTION_LETTER = 0.26  # ft
EM = 1.45  # of a letter's height: the font's size that widths are reckoned by
_TRIED = [(dx, dy) for dy in (0.0, 1.4, -1.4, 2.8, -2.8, 4.2, -4.2) for dx in (0.0, 2.0, -2.0)]  # ft from the mark


def draw_room_names(ground: Ground, storey: Storey, answers: PlanAnswers, board: Board) -> None:
    """The name and area of every room, near its mark and within its floor."""
    marks = {room.id: room.at for room in storey.level.rooms}
    for room in answers.of_level("rooms", storey.level.id):
        name, area = answers.room_name(room["id"]), area_text(room["area_sqft"], storey.units)
        x, y = marks[room["id"]]
        wide = max(text_width(name, ROOM_LETTER * EM), text_width(area, ROOM_LETTER * EM * 0.7))
        boxes = [about((x + dx, -(y + dy)), wide, 2.6 * ROOM_LETTER) for dx, dy in _TRIED]
        floor = shapely.union_all([shapely.Polygon(ring) for ring in room["outline"]])
        inside = [box for box in boxes if floor.contains(shapely.box(box[0], -box[3], box[2], -box[1]))]
        box = (inside or boxes)[board.place(inside or boxes) or 0]
        middle = ((box[0] + box[2]) / 2, -(box[1] + box[3]) / 2)
        ground.text(layers.ROOM_NAME, name, (middle[0], middle[1] + 0.5 * ROOM_LETTER), ROOM_LETTER, middle=True)
        lower = (middle[0], middle[1] - 0.8 * ROOM_LETTER)
        ground.text(layers.ROOM_NAME, area, lower, 0.7 * ROOM_LETTER, middle=True)


def draw_obstruction_name(ground: Ground, name: str, height: str, polygon: Sequence[Sequence[float]]) -> None:
    """The name, with the height where there is room, level or upright; nothing where even the name is too long."""
    if not name.strip():
        return
    shape = shapely.Polygon(polygon)
    west, south, east, north = shape.bounds
    middle = shape.representative_point()
    for words in (f"{name}, {height}", name):
        wide = text_width(words, OBSTRUCTION_LETTER * EM)
        for turn, room in ((0.0, east - west), (90.0, north - south)):
            if wide <= room - OBSTRUCTION_LETTER:
                at = (middle.x, middle.y)
                ground.text(layers.OBSTRUCTION, words, at, OBSTRUCTION_LETTER, middle=True, turn=turn)
                return
