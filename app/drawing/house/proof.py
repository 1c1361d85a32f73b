"""The proof marked on the plan: covered glass filled, missed glass hatched, and a line from detector to glass it hears.

What motion detectors see of the floor is hatched lightly the other way. All of it reads in grey.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.course import Course
from app.drawing.house.board import Board, Box
from app.drawing.house.fixtures import hatching
from app.drawing.lettering import CAP_HEIGHT, lettered, shortened, text_width
from app.drawing.maker import SVG
from app.drawing.palette import COVERED, INK, MISSED, PAPER, REACH, SEEN_FLOOR
from app.drawing.pane_marks import STATUS_WORDS, covered_spans, mark_path
from app.drawing.strokes import Look, Strokes
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import CUT, FINE, MEDIUM, THIN
from app.geometry.scene import LevelScene

HEARD = Look(CUT, colour=COVERED)
MISSED_EDGE = Look(MEDIUM, colour=MISSED, dash="1.5 0.7", fill=PAPER)
MISSED_HATCH = Look(THIN, colour=MISSED)
WATCH = Look(FINE, colour=REACH, dash="0.35 1.05")
SEEN = Look(FINE, colour=SEEN_FLOOR)
SEEN_EDGE = Look(FINE, colour=REACH, dash="2.4 0.8 0.4 0.8")
SEEN_STEP = 3.6  # mm between the lines that hatch seen floor
MARK = 1.0  # mm: half width of a status's mark
_MOST_MARKS = 6
_LONGEST_TAG = 16.0  # mm

Answers = Sequence[Mapping[str, Any]]


def draw_seen_floor(strokes: Strokes, motions: Answers, view: View) -> None:
    """Hatch what motion detectors see."""
    for motion in motions:
        for ring in motion.get("outline", ()):
            seen_hatch(strokes, shapely.Polygon([view.spot(corner) for corner in ring]))
            strokes.add(SEEN_EDGE, view.rings([ring]))


def seen_hatch(strokes: Strokes, area: BaseGeometry) -> None:
    """Hatch an area of the picture as seen floor."""
    if area.is_valid and area.area > 0:
        strokes.add(SEEN, hatching(area, SEEN_STEP, rising=False))


def draw_watch_lines(strokes: Strokes, scene: LevelScene, panes: Answers, view: View) -> None:
    """A dotted line from the detector that hears an opening's glass best to the middle of that opening."""
    devices = {device.id: device.at for device in scene.level.devices}
    drawn: dict[tuple[str, str], list[Spot]] = {}
    for pane in panes:
        best = pane["best"]
        if best is not None and pane["status"] != "uncovered":
            (ax, ay), (bx, by) = pane["segment"]
            drawn.setdefault((best["device"], pane["opening"]), []).append(((ax + bx) / 2, (ay + by) / 2))
    for (device, _), middles in drawn.items():
        heart = (sum(x for x, _ in middles) / len(middles), sum(y for _, y in middles) / len(middles))
        strokes.add(WATCH, view.line((devices[device], heart)))


def draw_glass(strokes: Strokes, scene: LevelScene, panes: Answers, view: View) -> None:
    """Fill what is covered of each pane and hatch the exact stretches that are not."""
    half = {opening.id: scene.level.wall_by_id[opening.wall].thickness / 2 for opening in scene.level.openings}
    for pane in panes:
        line = Course.of(pane["segment"])
        stretches = pane["stretches"] if pane["status"] != "covered" else []
        for low, high in covered_spans(stretches, line.length):
            strokes.add(HEARD, view.line((line.at(low), line.at(high))))
        wide = max(half[pane["opening"]] + 0.5 / view.scale, 1.1 / view.scale)
        for span in stretches:
            corners = [view.spot(corner) for corner in line.bar(span, wide, least=1.2 / view.scale)]
            strokes.add(MISSED_EDGE, line_through(corners) + "Z")
            strokes.add(MISSED_HATCH, crossed(shapely.Polygon(corners)))


def crossed(area: BaseGeometry) -> str:
    """Path data of a close cross hatch within an area of the picture."""
    return hatching(area, 0.85) + hatching(area, 0.85, rising=False)


def draw_tags(scene: LevelScene, panes: Answers, board: Board, view: View, size: float) -> Any:
    """Outside each glazed opening its id with a mark for each lite, in the order in which they are read."""
    group = SVG.g(class_="glass-tags")
    by_opening: dict[str, list[Mapping[str, Any]]] = {}
    for pane in panes:
        by_opening.setdefault(pane["opening"], []).append(pane)
    for opening in scene.level.openings:
        lites = by_opening.get(opening.id)
        if not lites:
            continue
        wall = scene.level.wall_by_id[opening.wall]
        line = Course.of((wall.along(opening.offset), wall.along(min(opening.end, wall.length))))
        left, right = scene.sides[opening.id]
        side = -1.0 if right < 0 <= left or (left >= 0 and right >= 0 and left in scene.room_of_face) else 1.0
        text = shortened(opening.id, size, _LONGEST_TAG, bold=True)
        statuses = _statuses(lites, view)
        wide = text_width(text, size, bold=True) + 0.8 + len(statuses) * 2.5 * MARK
        boxes = _beside(line, side, wall.thickness / 2, wide, size, view)
        index = board.place(boxes)
        if index is not None:
            _draw_tag(group, boxes[index], text, statuses, size)
    return group


def _statuses(lites: Answers, view: View) -> list[str]:
    """A status a lite from left to right (or downward), or the worst one where they are many."""
    if len(lites) > _MOST_MARKS:
        order = ("uncovered", "partial", "covered")
        return [min((lite["status"] for lite in lites), key=order.index)]

    def place(lite: Mapping[str, Any]) -> tuple[float, float]:
        (ax, ay), (bx, by) = lite["segment"]
        x, y = view.spot(((ax + bx) / 2, (ay + by) / 2))
        return (round(x, 2), round(y, 2))

    return [lite["status"] for lite in sorted(lites, key=place)]


def _beside(line: Course, side: float, half: float, wide: float, size: float, view: View) -> list[Box]:
    """Boxes for a tag beside an opening: outside at its middle, then shifted along, farther out, and inside."""
    nx, ny = -line.along[1] * side, line.along[0] * side
    high = size * 1.2
    reach = abs(nx) * wide / 2 + abs(ny) * high / 2
    boxes = []
    for way in (1.0, -1.0):
        for out in (1.1, 2.4, 4.0):
            for shift in (0.0, -0.25, 0.25, -0.45, 0.45, -0.7, 0.7):
                x, y = view.spot(line.at(line.length * (0.5 + shift)))
                away = half * view.scale + out + reach
                x, y = x + nx * away * way, y - ny * away * way
                boxes.append((x - wide / 2, y - high / 2, x + wide / 2, y + high / 2))
    return boxes


def _draw_tag(group: Any, box: Box, text: str, statuses: Sequence[str], size: float) -> None:
    middle = (box[1] + box[3]) / 2
    x = box[0] + MARK
    for status in statuses:
        group.add(status_mark(status, (x, middle)))
        x += 2.5 * MARK
    group.add(lettered(text, (x - 0.3, middle + size * CAP_HEIGHT / 2), size, bold=True, halo=True, colour=INK))


def status_mark(status: str, at: Spot) -> Any:
    """A status's mark as it stands in tags, tables and the legend."""
    mark = SVG.path(
        d=mark_path(status, at, MARK),
        fill="none",
        stroke=COVERED if status == "covered" else MISSED,
        stroke_width=MEDIUM if status == "covered" else CUT,
        class_=f"mark {status}",
    )
    mark.set_desc(title=STATUS_WORDS[status])
    return mark
