"""The tag of each glazed opening: its id, with a mark for each lite in the order in which they are read.

It stands outside, along the wall; where the wall is slanted and shorter than its tag, level beside it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from app.drawing.course import Course
from app.drawing.house.board import Board, Box, leader_end
from app.drawing.house.proof import MARK, status_mark
from app.drawing.lettering import CAP_HEIGHT, lettered, shortened, text_width
from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import FINE
from app.geometry.scene import LevelScene
from app.plan.model import Opening

_MOST_MARKS = 6
_SHIFTS = (0, -1, 1, -2, 2, -3.5, 3.5, -5, 5)  # along the opening, of the size of its words
_FAR = 8  # rows farther out, where a tag wants a leader
_LONGEST = 7.0  # of the size of its words

Answers = Sequence[Mapping[str, Any]]


@dataclass(frozen=True)
class _Tag:
    """The words and marks of a tag, its width and the size of its words in mm, its turn in degrees."""

    text: str
    statuses: tuple[str, ...]
    wide: float
    size: float
    turn: float


def draw_tags(scene: LevelScene, panes: Answers, board: Board, view: View, size: float) -> Any:
    """The tags of all openings with glass whose middle lies within the board's limits."""
    group = SVG.g(class_="glass-tags")
    by_opening: dict[str, list[Mapping[str, Any]]] = {}
    for pane in panes:
        by_opening.setdefault(pane["opening"], []).append(pane)
    for opening in scene.level.openings:
        wall = scene.level.wall_by_id[opening.wall]
        line = Course.of((wall.along(opening.offset), wall.along(min(opening.end, wall.length))))
        lites = by_opening.get(opening.id)
        if lites and board.holds(view.spot(line.at(line.length / 2))):
            tag = _tag_of(opening, lites, line, view, size)
            middles = _beside(line, _outside(scene, opening), wall.thickness / 2, tag, view)
            index = board.place_run([_run(middle, tag) for middle in middles])
            if index >= len(middles) - _FAR * len(_SHIFTS):
                spot = view.spot(line.at(line.length / 2))
                group.add(_leader(spot, _run(middles[index], tag)))
            group.add(_drawn(middles[index], tag))
    return group


def _tag_of(opening: Opening, lites: Answers, line: Course, view: View, size: float) -> _Tag:
    text = shortened(opening.id, size, _LONGEST * size, bold=True)
    statuses = tuple(_statuses(lites, view))
    wide = text_width(text, size, bold=True) + 1.6 + len(statuses) * 2.5 * MARK * size
    turn = reading_turn(line)
    slanted = turn not in (0.0, -90.0)
    return _Tag(text, statuses, wide, size, 0.0 if slanted and wide > line.length * view.scale else turn)


def _outside(scene: LevelScene, opening: Opening) -> float:
    """1 where outdoors, or else the nameless room, lies to the left of the opening's wall, -1 where to the right."""
    left, right = scene.sides[opening.id]
    return -1.0 if right < 0 <= left or (left >= 0 and right >= 0 and left in scene.room_of_face) else 1.0


def reading_turn(line: Course) -> float:
    """The turn in degrees of words along a course, read from below or from the right."""
    turn = math.degrees(math.atan2(-line.along[1], line.along[0]))
    turn = (turn + 90.0) % 180.0 - 90.0
    return -90.0 if abs(turn) > 89.5 else 0.0 if abs(turn) < 0.5 else turn


def _run(middle: Spot, tag: _Tag) -> list[Box]:
    """Upright boxes that together cover a tag: one, or a run of small ones along a slanted one."""
    wide, high, turn = tag.wide, tag.size * 1.1, tag.turn
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


def _beside(line: Course, side: float, half: float, tag: _Tag, view: View) -> list[Spot]:
    """Middles for a tag beside an opening: outside at its middle, shifted along it, farther out, inside; then, for a
    leader, farther out still.
    """
    size, turn = tag.size, math.radians(tag.turn)
    out = (-line.along[1], line.along[0])
    # How far the tag's box reaches from its middle towards the wall.
    over = (
        abs(out[0] * math.cos(turn) - out[1] * math.sin(turn)),
        abs(out[0] * math.sin(turn) + out[1] * math.cos(turn)),
    )
    reach = over[0] * tag.wide / 2 + over[1] * 0.55 * size
    spots = []
    near = [(way, rows) for way in (side, -side) for rows in (0, 1, 2)]
    for way, rows in (*near, *((side, rows) for rows in range(3, 3 + _FAR))):
        away = half + (0.55 + reach + 0.35 * size + rows * 1.2 * size) / view.scale
        spots += [view.spot(line.at(line.length / 2 + shift * size / view.scale, way * away)) for shift in _SHIFTS]
    return spots


def _leader(spot: Spot, run: Sequence[Box]) -> Any:
    """From the glass to a tag that stands off."""
    end = min((leader_end(spot, box) for box in run), key=lambda end: math.dist(spot, end))
    return SVG.path(d=line_through((spot, end)), fill="none", stroke=INK, stroke_width=FINE, class_="leader")


def _drawn(middle: Spot, tag: _Tag) -> Any:
    half = MARK * tag.size
    x, y = middle[0] - tag.wide / 2 + half + 0.4, middle[1]
    group = SVG.g()
    if tag.turn:
        group["transform"] = f"rotate({tag.turn:.3f} {middle[0]:.3f} {middle[1]:.3f})"
    for status in tag.statuses:
        group.add(status_mark(status, (x, y), half))
        x += 2.5 * half
    group.add(lettered(tag.text, (x - 0.3, y + tag.size * CAP_HEIGHT / 2), tag.size, bold=True, halo=True, colour=INK))
    return group
