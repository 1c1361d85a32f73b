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
from app.drawing.house.fixtures import hatching
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
