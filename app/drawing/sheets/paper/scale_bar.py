"""The scale bar and the north arrow of a plan."""

from __future__ import annotations

from typing import Any

from app.drawing.lettering import lettered, text_width
from app.drawing.maker import SVG
from app.drawing.palette import INK, PAPER
from app.drawing.sheets.paper.scales import Scale
from app.drawing.view import Spot, line_through
from app.drawing.weights import MEDIUM, THIN
from app.plan.measures import FEET_PER_METRE

_STEPS = (0.25, 0.5, 1, 2, 4, 5, 10, 20, 40, 50, 100, 200, 500, 1000, 2000, 5000, 10000)


def scale_bar(scale: Scale, units: str, at: Spot, wide: float, size: float) -> Any:
    """Four equal parts, alternately filled, as long as ``wide`` mm allows, with their feet or metres beneath."""
    unit = scale.mm_per_foot * (FEET_PER_METRE if units == "metric" else 1.0)
    step = max((step for step in _STEPS if 4 * step * unit <= wide), default=_STEPS[0])
    word = "m" if units == "metric" else "ft"
    group = SVG.g(class_="scale-bar", stroke=INK, stroke_width=THIN)
    x, y = at
    for part in range(4):
        fill = INK if part % 2 == 0 else PAPER
        group.add(SVG.rect((round(x + part * step * unit, 4), y), (round(step * unit, 4), 1.6), fill=fill))
    words = SVG.g(stroke="none")
    free = x
    for part in (0, 1, 2, 4):
        text = f"{part * step:g}" + (f" {word}" if part == 4 else "")
        middle, half = x + part * step * unit, text_width(text, size) / 2
        if part and middle - half < free:
            continue  # it would run into the one before
        free = middle + (half if part else 2 * half) + 0.3 * size
        words.add(lettered(text, (x + part * step * unit, y + 2.4 + size), size, anchor="middle" if part else "start"))
    group.add(words)
    return group


def north_arrow(at: Spot, radius: float, size: float) -> Any:
    """A circle with a needle that points up the sheet: y of the plan runs north."""
    x, y = at
    group = SVG.g(class_="north", stroke=INK, stroke_width=MEDIUM, fill="none")
    group.add(SVG.circle((round(x, 3), round(y, 3)), round(radius, 3)))
    left = line_through(((x, y - radius), (x - radius * 0.5, y + radius * 0.75), (x, y + radius * 0.35))) + "Z"
    right = line_through(((x, y - radius), (x + radius * 0.5, y + radius * 0.75), (x, y + radius * 0.35))) + "Z"
    group.add(SVG.path(d=left, fill=INK, stroke_width=THIN))
    group.add(SVG.path(d=right, fill=PAPER, stroke_width=THIN))
    words = SVG.g(stroke="none")
    words.add(lettered("N", (x, y - radius - 0.9), size, bold=True, anchor="middle"))
    group.add(words)
    return group
