"""The cable plan of a level: the house with its devices, and the home runs in bundles that tell how many cables run."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from app.drawing.floor_plan import LevelDrawing, Sizes
from app.drawing.house.board import Board, Box, about, aside
from app.drawing.lettering import CAP_HEIGHT, SMALLEST, lettered
from app.drawing.maker import SVG
from app.drawing.palette import PAPER, REACH
from app.drawing.sheets.order import Answer, Order, rooms_of_devices
from app.drawing.strokes import Look, Strokes
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import CUT, FINE, MEDIUM, THIN

_LEAST = 7.0  # mm: a shorter stretch of a bundle has no room for its count
_SHARES = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)  # of a bundle's length where its count may stand
_ABOVE_WALLS = 2  # parts of a floor plan that lie beneath its signs and words
_MANY = 8  # cables that make a bundle's line heavy


@dataclass(frozen=True)
class CableDrawing(LevelDrawing):
    """A level with its home runs: ``bundles`` are the wiring answer's for this level."""

    bundles: Sequence[Answer] = ()

    def draw(self, view: View, limits: Box, sizes: Sizes) -> Any:
        """The level as a group, with the runs over its walls and under signs and words."""
        group = super().draw(view, limits, sizes)
        runs = Strokes()
        for bundle in self.bundles:
            start, end = (view.spot(point) for point in bundle["segment"])
            runs.add(_look(bundle["count"]), line_through((start, end)))
        group.elements.insert(_ABOVE_WALLS, runs.group("home-runs"))
        return group

    def own_marks(self, board: Board, view: View, limits: Box, sizes: Sizes) -> Iterator[Any]:
        """How many cables run in each bundle."""
        counts = SVG.g(class_="run-counts")
        for bundle in self.bundles:
            for piece in _count(bundle, board, view, sizes.label):
                counts.add(piece)
        yield counts

    def own_legend(self) -> Iterator[tuple[str, Callable[[Spot], Any]]]:
        """What the legend says of the runs."""
        if self.bundles:
            yield "Home run; a number counts the cables", _sign


def cable_drawings(order: Order) -> list[LevelDrawing]:
    """One drawing a level, without the marks of the proof, which would hide the runs."""
    bundles = order.wiring["bundles"]
    return [
        CableDrawing(
            storey.scene,
            [],
            [],
            order.of_level("rooms", storey),
            storey.names,
            rooms_of_devices(storey),
            storey.units,
            [bundle for bundle in bundles if bundle["level"] == storey.level.id],
        )
        for storey in order.house
    ]


def _look(count: int) -> Look:
    return Look(CUT if count >= _MANY else MEDIUM if count > 1 else THIN, REACH)


def _count(bundle: Answer, board: Board, view: View, size: float) -> Iterator[Any]:
    """The number of cables in a ring on a bundle, where more than one runs and it is long enough; near its middle."""
    (ax, ay), (bx, by) = (view.spot(point) for point in bundle["segment"])
    if bundle["count"] < 2 or math.hypot(bx - ax, by - ay) < _LEAST:
        return
    spots = [(ax + (bx - ax) * share, ay + (by - ay) * share) for share in _SHARES]
    spots = [spot for spot in spots if board.holds(spot)]
    if not spots:
        return
    boxes = [about(spot, 1.7 * size, 1.7 * size) for spot in spots]
    boxes += aside(spots[0], 1.7 * size, 1.7 * size)
    index = board.place(boxes) or 0
    left, top, right, bottom = boxes[index]
    x, y = (left + right) / 2, (top + bottom) / 2
    if index >= len(spots):
        yield SVG.path(
            d=line_through((spots[0], (x, y))), fill="none", stroke=REACH, stroke_width=FINE, class_="leader"
        )
    yield _ring((x, y), size * 0.8)
    text, small = str(bundle["count"]), max(SMALLEST, size * 0.9)
    yield lettered(text, (round(x, 3), round(y + small * CAP_HEIGHT / 2, 3)), small, bold=True, anchor="middle")


def _ring(at: Spot, radius: float) -> Any:
    return SVG.circle((round(at[0], 3), round(at[1], 3)), round(radius, 3), fill=PAPER, stroke=REACH, stroke_width=THIN)


def _sign(at: Spot) -> Any:
    strokes = Strokes()
    strokes.add(_look(_MANY), line_through(((at[0] - 4.5, at[1]), (at[0] + 5, at[1]))))
    group = strokes.group("home-run")
    group.add(_ring((at[0] + 0.2, at[1]), 1.4))
    group.add(lettered("8", (at[0] + 0.2, at[1] + 0.78), SMALLEST, bold=True, anchor="middle"))
    return group
