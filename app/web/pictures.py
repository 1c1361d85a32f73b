"""A small picture of a plan for the list: the walls of its levels side by side, glass drawn open.

An SVG of its own, so that it may stand in an ``img``; it has no text, and no name of the plan in it.
"""

from __future__ import annotations

from dataclasses import dataclass

import svgwrite
import svgwrite.container

from app.plan.model import Level, Plan, Wall

WIDTH, HEIGHT, MARGIN = 240.0, 150.0, 10.0
_INK, _GLASS, _PAPER = "#000000", "#0072B2", "#FFFFFF"
_MOST_WALLS = 3000


def picture_of(plan: Plan) -> str:
    """The picture as SVG text: up to three levels, the lowest first, at one scale."""
    drawing = svgwrite.Drawing(size=(WIDTH, HEIGHT), viewBox=f"0 0 {WIDTH:g} {HEIGHT:g}", debug=False)
    levels = [level for level in sorted(plan.levels, key=lambda level: level.elevation) if level.walls][:3]
    boxes = [_box(level) for level in levels]
    wide, deep = sum(box.wide for box in boxes), max((box.deep for box in boxes), default=1.0)
    gaps = MARGIN * (len(levels) + 1)
    scale = min((WIDTH - gaps) / max(wide, 1.0), (HEIGHT - 2 * MARGIN) / deep)
    left = (WIDTH - wide * scale - gaps) / 2 + MARGIN
    for level, box in zip(levels, boxes, strict=True):
        drawing.add(_level(drawing, level, box, left, scale))
        left += box.wide * scale + MARGIN
    text: str = drawing.tostring()
    return text


@dataclass(frozen=True)
class _Box:
    """The extent of a level's walls: its west and south edges, width and depth in feet."""

    west: float
    south: float
    wide: float
    deep: float


def _box(level: Level) -> _Box:
    xs = [end[0] for wall in level.walls for end in (wall.a, wall.b)]
    ys = [end[1] for wall in level.walls for end in (wall.a, wall.b)]
    return _Box(min(xs), min(ys), max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0))


def _level(drawing: svgwrite.Drawing, level: Level, box: _Box, left: float, scale: float) -> svgwrite.container.Group:
    bottom = (HEIGHT + box.deep * scale) / 2

    def on_paper(point: tuple[float, float]) -> tuple[float, float]:
        return round(left + (point[0] - box.west) * scale, 2), round(bottom - (point[1] - box.south) * scale, 2)

    group = drawing.g(stroke=_INK, stroke_linecap="square", fill="none")
    for wall in level.walls[:_MOST_WALLS]:
        group.add(drawing.line(on_paper(wall.a), on_paper(wall.b), stroke_width=_weight(wall, scale)))
    for opening in level.openings[:_MOST_WALLS]:
        wall = level.wall_by_id[opening.wall]
        ends = on_paper(wall.along(opening.offset)), on_paper(wall.along(opening.end))
        over = round(_weight(wall, scale) + 1, 2)
        group.add(drawing.line(*ends, stroke=_PAPER, stroke_width=over, stroke_linecap="butt"))
        if opening.has_glass:
            group.add(drawing.line(*ends, stroke=_GLASS, stroke_width=1.2))
    return group


def _weight(wall: Wall, scale: float) -> float:
    """A wall's stroke: its thickness, but never so thin or so heavy that a small picture cannot be read."""
    return round(max(1.2, min(4.0, wall.thickness * scale)), 2)
