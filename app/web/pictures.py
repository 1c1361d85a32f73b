"""A small picture of a plan for the list: the walls of its levels side by side, glass drawn open.

An SVG of its own, so that it may stand in an ``img``; it has no text, and no name of the plan in it.
"""

from __future__ import annotations

import svgwrite
import svgwrite.container

from app.plan.model import Level, Plan

WIDTH, HEIGHT, MARGIN = 240.0, 150.0, 10.0
_INK, _GLASS, _PAPER = "#000000", "#0072B2", "#FFFFFF"
_MOST_WALLS = 3000


def picture_of(plan: Plan) -> str:
    """The picture as SVG text."""
    drawing = svgwrite.Drawing(size=(WIDTH, HEIGHT), viewBox=f"0 0 {WIDTH:g} {HEIGHT:g}", debug=False)
    levels = [level for level in plan.levels if level.walls][:3]
    share = (WIDTH - MARGIN) / max(len(levels), 1)
    for place, level in enumerate(levels):
        drawing.add(_level(drawing, level, MARGIN + place * share, share - MARGIN))
    text: str = drawing.tostring()
    return text


def _level(drawing: svgwrite.Drawing, level: Level, left: float, width: float) -> svgwrite.container.Group:
    walls = level.walls[:_MOST_WALLS]
    xs = [end[0] for wall in walls for end in (wall.a, wall.b)]
    ys = [end[1] for wall in walls for end in (wall.a, wall.b)]
    wide, deep = max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)
    scale = min(width / wide, (HEIGHT - 2 * MARGIN) / deep)
    middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2

    def on_paper(point: tuple[float, float]) -> tuple[float, float]:
        x = left + width / 2 + (point[0] - middle[0]) * scale
        y = HEIGHT / 2 - (point[1] - middle[1]) * scale
        return round(x, 2), round(y, 2)

    group = drawing.g(stroke=_INK, stroke_linecap="square", fill="none")
    for wall in walls:
        weight = max(1.2, min(4.0, wall.thickness * scale))
        group.add(drawing.line(on_paper(wall.a), on_paper(wall.b), stroke_width=round(weight, 2)))
    for opening in level.openings:
        wall = level.wall_by_id[opening.wall]
        ends = on_paper(wall.along(opening.offset)), on_paper(wall.along(opening.end))
        weight = max(1.2, min(4.0, wall.thickness * scale))
        group.add(drawing.line(*ends, stroke=_PAPER, stroke_width=round(weight + 1, 2), stroke_linecap="butt"))
        if opening.has_glass:
            group.add(drawing.line(*ends, stroke=_GLASS, stroke_width=1.2))
    return group
