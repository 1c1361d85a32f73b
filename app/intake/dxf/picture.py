"""A small picture of a drawing, a group a layer, so that the page can show what each layer holds.

It carries no text of the drawing: layers are numbered in the order that the caller lists them.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from app.intake.strokes import Sheet

WIDTH = 1000.0
_MOST_STROKES = 30_000
_SMALLEST = 0.4  # of the picture's units: shorter strokes are not seen


def layers_picture(sheet: Sheet, layers: Sequence[str]) -> dict[str, Any]:
    """The ``picture`` as SVG text, each group with ``data-layer``, and its ``frame``: west, north, units of it to one.

    A point of the drawing stands in the picture at (x - west) and (north - y), times the last.
    """
    paths: dict[str, list[tuple[float, float, float, float]]] = {layer: [] for layer in layers}
    for stroke in sheet.strokes:
        paths[stroke.layer].append((*stroke.a, *stroke.b))
    for arc in sheet.arcs:
        paths[arc.layer] += [(*chord.a, *chord.b) for chord in arc.chords(15)]
    words = [(one.layer, one.at, one.height) for one in sheet.words]
    ends = [value for lines in paths.values() for line in lines for value in (line[:2], line[2:])]
    west, east = _bounds([x for x, _ in ends])
    south, north = _bounds([y for _, y in ends])
    scale = WIDTH / max(east - west, 1e-9)
    height = max(min((north - south) * scale, 3 * WIDTH), 1.0)
    if (north - south) * scale > 3 * WIDTH:
        scale = height / (north - south)
    each = max(1, -(-sum(map(len, paths.values())) // _MOST_STROKES))
    groups = []
    for index, layer in enumerate(layers):
        drawn = "".join(
            f"M{(x - west) * scale:.1f} {(north - y) * scale:.1f}L{(u - west) * scale:.1f} {(north - v) * scale:.1f}"
            for x, y, u, v in paths[layer][::each]
            if abs(u - x) + abs(v - y) > _SMALLEST / scale
        )
        dots = "".join(
            f'<circle cx="{(x - west) * scale:.1f}" cy="{(north - y) * scale:.1f}" r="4"/>'
            for name, (x, y), _ in words[:2000]
            if name == layer
        )
        groups.append(f'<g data-layer="{index}"><path d="{drawn}"/>{dots}</g>')
    box = f"-10 -10 {WIDTH + 20:g} {height + 20:g}"
    picture = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" fill="none" stroke="#000" role="img" '
        f'aria-label="The drawing, layer by layer">{"".join(groups)}</svg>'
    )
    return {"picture": picture, "frame": [west, north, scale]}


def _bounds(values: list[float]) -> tuple[float, float]:
    """From the least to the greatest, less the outermost of a few strays that would make all else a speck."""
    if not values:
        return 0.0, 1.0
    ordered = sorted(values)
    low, high = ordered[len(ordered) // 200], ordered[-1 - len(ordered) // 200]
    slack = 0.15 * (high - low)
    return max(ordered[0], low - slack), min(ordered[-1], high + slack)
