"""The proof marked on the plan: covered glass filled, missed glass hatched, and a line from detector to glass it hears.

What motion detectors see of the floor is hatched lightly the other way. All of it reads in grey.
"""

from __future__ import annotations

import math
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
MISSED_EDGE = Look(MEDIUM, colour=INK, dash="1.5 0.7", fill=PAPER)
MISSED_HATCH = Look(THIN, colour=MISSED)
WATCH = Look(FINE, colour=REACH, dash="0.35 1.05")
SEEN = Look(FINE, colour=SEEN_FLOOR)
SEEN_EDGE = Look(FINE, colour=REACH, dash="2.4 0.8 0.4 0.8")
_MISSED_STEP = 1.2  # mm along a bar between the lines that hatch it
SEEN_STEP = 3.6  # mm between the lines that hatch seen floor
MARK = 0.42  # of the size of the words beside it: half width of a status's mark
_MOST_MARKS = 6
_LONGEST_TAG = 7.0  # of the size of its words

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
            strokes.add(MISSED_HATCH, crossed(corners))


def crossed(corners: Sequence[Spot]) -> str:
    """Path data of a close cross hatch in a rectangle of the picture, at 45° to its sides."""
    edge, across = Course.of(corners[:2]), math.dist(corners[1], corners[2])
    side = 1.0 if edge.aside(corners[2]) > 0 else -1.0
    lines = []
    for step in range(1, math.ceil((edge.length + across) / _MISSED_STEP)):
        start = step * _MISSED_STEP - across
        low, high = max(start, 0.0), min(start + across, edge.length)
        for up, down in ((low - start, high - start), (across - low + start, across - high + start)):
            lines.append(line_through((edge.at(low, side * up), edge.at(high, side * down))))
    return "".join(lines)


def draw_tags(scene: LevelScene, panes: Answers, board: Board, view: View, size: float) -> Any:
    """Outside each glazed opening, along its wall, its id with a mark for each lite in the order they are read."""
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
        if not board.holds(view.spot(line.at(line.length / 2))):
            continue
        left, right = scene.sides[opening.id]
        side = -1.0 if right < 0 <= left or (left >= 0 and right >= 0 and left in scene.room_of_face) else 1.0
        text = shortened(opening.id, size, _LONGEST_TAG * size, bold=True)
        statuses = _statuses(lites, view)
        wide = text_width(text, size, bold=True) + 1.6 + len(statuses) * 2.5 * MARK * size
        turn = reading_turn(line)
        middles = _beside(line, side, wall.thickness / 2, size, view)
        index = board.place_run([_run(middle, wide, size * 1.1, turn) for middle in middles])
        group.add(_tag(middles[index], wide, turn, text, statuses, size))
    return group


def reading_turn(line: Course) -> float:
    """The turn in degrees of words along a course, read from below or from the right."""
    turn = math.degrees(math.atan2(-line.along[1], line.along[0]))
    turn = (turn + 90.0) % 180.0 - 90.0
    return -90.0 if abs(turn) > 89.5 else 0.0 if abs(turn) < 0.5 else turn


def _run(middle: Spot, wide: float, high: float, turn: float) -> list[Box]:
    """Upright boxes that together cover a line of words: one, or a run of small ones along a slanted line."""
    if turn in (0.0, -90.0):
        half_x, half_y = (wide / 2, high / 2) if turn == 0.0 else (high / 2, wide / 2)
        return [(middle[0] - half_x, middle[1] - half_y, middle[0] + half_x, middle[1] + half_y)]
    count = math.ceil(wide / high)
    cos, sin = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    half = high / 2 * (abs(cos) + abs(sin)) * 0.9
    places = [(number + 0.5 - count / 2) * wide / count for number in range(count)]
    spots = [(middle[0] + along * cos, middle[1] + along * sin) for along in places]
    return [(x - half, y - half, x + half, y + half) for x, y in spots]


def _statuses(lites: Answers, view: View) -> list[str]:
    """A status a lite from left to right (upward in an upright wall), or the worst one where they are many."""
    if len(lites) > _MOST_MARKS:
        order = ("uncovered", "partial", "covered")
        return [min((lite["status"] for lite in lites), key=order.index)]

    def place(lite: Mapping[str, Any]) -> tuple[float, float]:
        (ax, ay), (bx, by) = lite["segment"]
        x, y = view.spot(((ax + bx) / 2, (ay + by) / 2))
        upright = abs(bx - ax) < 0.01 * abs(by - ay)
        return (-y, x) if upright else (x, y)

    return [lite["status"] for lite in sorted(lites, key=place)]


def _beside(line: Course, side: float, half: float, size: float, view: View) -> list[Spot]:
    """Middles for a tag beside an opening: outside at its middle, shifted along it, farther out, and inside."""
    spots = []
    for way in (side, -side):
        for rows in (0, 1, 2):
            away = half + (0.55 + 0.9 * size + rows * 1.2 * size) / view.scale
            spots += [
                view.spot(line.at(line.length / 2 + shift * size / view.scale, way * away))
                for shift in (0, -1, 1, -2, 2, -3.5, 3.5, -5, 5)
            ]
    return spots


def _tag(middle: Spot, wide: float, turn: float, text: str, statuses: Sequence[str], size: float) -> Any:
    half = MARK * size
    x, y = middle[0] - wide / 2 + half + 0.4, middle[1]
    group = SVG.g()
    if turn:
        group["transform"] = f"rotate({turn:.3f} {middle[0]:.3f} {middle[1]:.3f})"
    for status in statuses:
        group.add(status_mark(status, (x, y), half))
        x += 2.5 * half
    group.add(lettered(text, (x - 0.3, y + size * CAP_HEIGHT / 2), size, bold=True, halo=True, colour=INK))
    return group


def status_mark(status: str, at: Spot, half: float) -> Any:
    """A status's mark of half width ``half``, as it stands in tags, tables and the legend."""
    mark = SVG.path(
        d=mark_path(status, at, half),
        fill="none",
        stroke=COVERED if status == "covered" else MISSED,
        stroke_width=MEDIUM if status == "covered" else CUT,
        class_=f"mark {status}",
    )
    mark.set_desc(title=STATUS_WORDS[status])
    return mark
