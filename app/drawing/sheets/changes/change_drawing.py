"""A level as it is now, with clouds about what changed, triangles with the revision's letter, and marks of what was."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np
import shapely

from app.drawing.floor_plan import LevelDrawing, Sizes
from app.drawing.house.board import Board, Box
from app.drawing.house.dimensions import strings_on_paper
from app.drawing.lettering import CAP_HEIGHT, lettered, text_width, word_box
from app.drawing.maker import SVG
from app.drawing.palette import INK, MISSED, PAPER
from app.drawing.sheets.changes.clouds import Cloud, clouds_about, places_of
from app.drawing.sheets.changes.ghosts import arrow, cross, marks_of
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import CUT, MEDIUM, THIN
from app.geometry.bodies import wall_corners
from app.review.comparison.changes import Change, Move

_ABOVE_WALLS = 2  # parts of a floor plan that lie beneath its signs and words
_TRIED = 48  # places about a cloud where its triangle may stand


@dataclass(frozen=True)
class ChangeDrawing(LevelDrawing):
    """A level with its changes; ``was`` gives old things by their changes' numbers, ``mark`` is the new revision's."""

    changes: Sequence[Change] = ()
    was: Mapping[int, Any] | None = None
    mark: str = ""

    @cached_property
    def bounds(self) -> Box:
        """West, south, east and north of everything drawn, what was taken out among it."""
        west, south, east, north = super().bounds
        places = [shape for change in self.changes for shape in (change.shape, change.was_shape) if shape is not None]
        if not places:
            return (west, south, east, north)
        low_x, low_y, high_x, high_y = shapely.total_bounds(places).tolist()
        return (min(west, low_x), min(south, low_y), max(east, high_x), max(north, high_y))

    def draw(self, view: View, limits: Box, sizes: Sizes) -> Any:
        """The level as a group, clouds and triangles over it."""
        group = super().draw(view, limits, sizes)
        marks = SVG.g(class_="what-was")
        for change in self.changes:
            for piece in marks_of(change, (self.was or {}).get(change.number), view, sizes.symbol):
                marks.add(piece)
        places = places_of(self.changes, lambda shape: self._on_paper(shape, view), 4 * pad_of(sizes))
        clouds = clouds_about(places, pad_of(sizes))
        outlines = SVG.g(class_="clouds", fill="none", stroke=MISSED, stroke_width=CUT, stroke_linejoin="round")
        for cloud in clouds:
            outlines.add(SVG.path(d=cloud.path(chord_of(sizes))))
        board = self._board(group, view, limits, sizes)
        triangles = SVG.g(class_="triangles")
        for cloud in clouds:
            if shapely.box(*limits).intersects(cloud.outline):
                for piece in _triangle(cloud, self.mark, board, sizes.label):
                    triangles.add(piece)
        group.elements[_ABOVE_WALLS:_ABOVE_WALLS] = [marks, outlines]  # words and symbols stand over them
        group.add(triangles)
        return group

    def own_legend(self) -> Iterator[tuple[str, Callable[[Spot], Any]]]:
        """What the legend says of the changes."""
        if not self.changes:
            return
        yield (
            f"Changed place, revision {self.mark}; its numbers are those of the table",
            lambda at: _cloud_sign(at, self.mark),
        )
        if any(change.what == "moved" for change in self.changes):
            yield "Moved: from the old place, in broken lines", _moved_sign
        if any(change.what == "removed" for change in self.changes):
            yield "Taken out", _removed_sign

    def _board(self, group: Any, view: View, limits: Box, sizes: Sizes) -> Board:
        """What triangles keep clear of: words, symbols and walls."""
        walls = [self._on_paper(shapely.Polygon(wall_corners(wall)), view) for wall in self.scene.level.walls]
        board = Board(np.array(walls, dtype=object), limits)
        for box in (*_words_in(group), *strings_on_paper(self.facades, view, sizes.dimension)):
            board.take(box)
        for device in self.scene.level.devices:
            x, y = view.spot(device.at)
            board.take((x - sizes.symbol, y - sizes.symbol, x + sizes.symbol, y + sizes.symbol))
        for fixture in self.scene.level.fixtures:
            if fixture.at is not None:
                x, y = view.spot(fixture.at)
                board.take((x - 2 * sizes.sign, y - 2 * sizes.sign, x + 2 * sizes.sign, y + 2 * sizes.sign))
        return board


def pad_of(sizes: Sizes) -> float:
    """How far a cloud stands off what changed, in mm."""
    return sizes.symbol * 2.1


def chord_of(sizes: Sizes) -> float:
    """How wide a cloud's arcs are, in mm."""
    return sizes.symbol * 1.5


def _words_in(group: Any) -> Iterator[Box]:
    for element in group.elements:
        if element.elementname == "text":
            yield word_box(element)
        elif element.elementname == "g":
            yield from _words_in(element)


def _triangle(cloud: Cloud, mark: str, board: Board, size: float) -> Iterator[Any]:
    """A triangle with the revision's letter, and the numbers of the cloud's changes beside it, where there is room."""
    text = cloud.words()
    side = max(size * 2.3, text_width(mark, size, bold=True) + size * 1.5)
    high = side * math.sqrt(3) / 2
    wide = side + size * 0.4 + text_width(text, size, bold=True)
    rings = [cloud.outline.buffer(size * away).exterior for away in (1.3, 3.0, 5.5)]
    spots = [ring.interpolate(step / _TRIED, normalized=True) for ring in rings for step in range(_TRIED)]
    middle = cloud.outline.centroid
    boxes = [_beside((spot.x, spot.y), (middle.x, middle.y), wide, high) for spot in spots]
    left, top, _, bottom = boxes[board.place(boxes) or 0]
    corners = ((left, bottom), (left + side / 2, top), (left + side, bottom))
    yield from _leader(cloud, shapely.Polygon(corners), size)
    yield SVG.path(
        d=line_through(corners) + "Z", fill=PAPER, stroke=MISSED, stroke_width=MEDIUM, stroke_linejoin="miter"
    )
    at = (left + side / 2, bottom - high * 0.16)
    yield lettered(mark, at, size, bold=True, anchor="middle")
    at = (left + side + size * 0.4, (top + bottom) / 2 + size * CAP_HEIGHT / 2 + high * 0.12)
    yield lettered(text, at, size, bold=True, halo=True)


def _leader(cloud: Cloud, triangle: shapely.Polygon, size: float) -> Iterator[Any]:
    """A line from a triangle that found room only farther off to its cloud."""
    line = shapely.shortest_line(triangle, cloud.outline.exterior)
    if line.length > size * 1.5:
        yield SVG.path(d=line_through(list(line.coords)), fill="none", stroke=MISSED, stroke_width=THIN)


def _beside(at: Spot, middle: Spot, wide: float, high: float) -> Box:
    """A box that touches a place from the side that lies away from a middle."""
    away = math.dist(at, middle) or 1.0
    x = at[0] + (at[0] - middle[0]) / away * wide / 2
    y = at[1] + (at[1] - middle[1]) / away * high / 2
    return (x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)


def _cloud_sign(at: Spot, mark: str) -> Any:
    group = SVG.g()
    cloud = Cloud(shapely.box(at[0] - 4, at[1] - 1.1, at[0] + 0.4, at[1] + 1.3), (1,))
    group.add(SVG.path(d=cloud.path(1.7), fill="none", stroke=MISSED, stroke_width=MEDIUM))
    corners = ((at[0] + 1.4, at[1] + 1.9), (at[0] + 3.5, at[1] - 1.7), (at[0] + 5.6, at[1] + 1.9))
    group.add(SVG.path(d=line_through(corners) + "Z", fill=PAPER, stroke=MISSED, stroke_width=MEDIUM))
    if len(mark) < 3:
        group.add(lettered(mark, (at[0] + 3.5, at[1] + 1.4), 2.2, bold=True, anchor="middle"))
    return group


def _moved_sign(at: Spot) -> Any:
    group = SVG.g()
    group.add(
        SVG.circle((at[0] - 3, at[1]), 1.2, fill="none", stroke=INK, stroke_width=0.25, stroke_dasharray="0.8 0.6")
    )
    for piece in arrow(Move((at[0] - 3, -at[1]), (at[0] + 5, -at[1])), View(), 1.4):
        group.add(piece)
    return group


def _removed_sign(at: Spot) -> Any:
    return cross(at, 1.3)
