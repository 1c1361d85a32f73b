"""The key of a level that takes several sheets: its outline small, parted as the sheets are, with this one hatched."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import shapely

from app.drawing.floor_plan import LevelDrawing
from app.drawing.house.board import Box
from app.drawing.house.fixtures import hatching
from app.drawing.lettering import CAP_HEIGHT, lettered, text_width
from app.drawing.maker import SVG
from app.drawing.palette import INK, PAPER, QUIET
from app.drawing.view import View
from app.drawing.weights import CUT, FINE, MEDIUM

Place = tuple[int, int]  # column and row of a part


def draw_part_key(
    drawing: LevelDrawing,
    windows: Mapping[Place, Box],
    numbers: Mapping[Place, str],
    here: Place,
    box: Box,
    size: float,
) -> Any:
    """The key within a box of the sheet; ``windows`` are west, south, east and north of the parts in feet.

    A part bears the number of its sheet where that fits into it.
    """
    group = SVG.g(class_="part-key")
    all_windows = list(windows.values())
    west, south = min(window[0] for window in all_windows), min(window[1] for window in all_windows)
    east, north = max(window[2] for window in all_windows), max(window[3] for window in all_windows)
    left, top, right, bottom = box
    scale = min((right - left) / (east - west), (bottom - top) / (north - south))
    view = View(scale, left + ((right - left) - (east - west) * scale) / 2 - west * scale, top + north * scale)
    group.add(_outline(drawing, view))
    for place, window in windows.items():
        group.add(_part(window, view, place == here))
    for place, window in windows.items():
        words = numbers[place]
        x, y = view.spot(((window[0] + window[2]) / 2, (window[1] + window[3]) / 2))
        wide, bold = text_width(words, size, bold=place == here) + 0.8, place == here
        if wide <= (window[2] - window[0]) * scale and size <= (window[3] - window[1]) * scale:
            group.add(
                SVG.rect((round(x - wide / 2, 3), round(y - size * 0.6, 3)), (round(wide, 3), size * 1.2), fill=PAPER)
            )
            group.add(lettered(words, (x, y + size * CAP_HEIGHT / 2), size, bold=bold, anchor="middle"))
    return group


def _outline(drawing: LevelDrawing, view: View) -> Any:
    rings: list[Sequence[Sequence[float]]] = []
    for polygon in shapely.get_parts(drawing.area):
        rings += [list(ring.coords)[:-1] for ring in (polygon.exterior, *polygon.interiors)]
    return SVG.path(d=view.rings(rings) or "M0 0", fill="none", stroke=INK, stroke_width=MEDIUM)


def _part(window: Box, view: View, here: bool) -> Any:
    west, south, east, north = window
    left, top = view.spot((west, north))
    right, bottom = view.spot((east, south))
    group = SVG.g(fill="none", stroke=INK if here else QUIET, stroke_width=FINE)
    size = (round(right - left, 3), round(bottom - top, 3))
    if here:
        group.add(SVG.path(d=hatching(shapely.box(left, top, right, bottom), 1.1) or "M0 0"))
        group.add(SVG.rect((round(left, 3), round(top, 3)), size, stroke_width=CUT))
    else:
        group.add(SVG.rect((round(left, 3), round(top, 3)), size, stroke_dasharray="1.6 0.9"))
    return group
