"""Marks of what was: the ghost of an old place, an arrow to the new one, a cross on what was taken out."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

import shapely

from app.drawing.maker import SVG
from app.drawing.palette import INK, QUIET
from app.drawing.symbols import device_symbol
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import CUT, MEDIUM, THIN
from app.geometry.bodies import wall_corners
from app.plan.model import Device, Wall
from app.review.comparison.changes import Change, Move

_DASH = "1.1 0.7"
_HEAD = 1.9  # mm: the length of an arrow's head
_SHORTEST = 2.6  # mm: a shorter arrow would be all head
_OPENING = 0.35  # ft: half of what the ghost of an opening is drawn deep


def marks_of(change: Change, was: Any, view: View, symbol: float) -> Iterator[Any]:
    """What is drawn of a change's old place; ``was`` is the old thing, ``symbol`` half the width of a symbol in mm."""
    if change.was_shape is None or change.what not in ("moved", "removed"):
        return
    yield ghost(change, was, view, symbol)
    if change.what == "removed":
        yield cross(view.spot(_middle(change)), symbol * 0.95)
        return
    for move in change.moves:
        yield from arrow(move, view, symbol)


def ghost(change: Change, was: Any, view: View, symbol: float) -> Any:
    """The old thing in broken grey lines."""
    if isinstance(was, Device):
        drawn = device_symbol(was.kind, view.spot(was.at), symbol, was.facing, weight=THIN)
        drawn.attribs.update({"stroke": QUIET, "stroke-dasharray": _DASH, "fill": "none"})
        return drawn
    assert change.was_shape is not None
    shape = change.was_shape
    if isinstance(was, Wall):
        shape = shapely.Polygon(wall_corners(was))
    elif shape.geom_type == "LineString":
        shape = shape.buffer(_OPENING, cap_style="flat")
    elif shape.geom_type == "Point":
        shape = shape.buffer(symbol * 0.8 / view.scale)
    return SVG.path(
        d=view.rings([shape.exterior.coords[:-1]]), fill="none", stroke=QUIET, stroke_width=THIN, stroke_dasharray=_DASH
    )


def cross(at: Spot, half: float) -> Any:
    """A heavy cross on what was taken out."""
    (x, y), lines = at, SVG.g(stroke=INK, stroke_width=CUT, fill="none", class_="taken-out")
    for up in (-1, 1):
        lines.add(SVG.path(d=line_through(((x - half, y - up * half), (x + half, y + up * half)))))
    return lines


def arrow(move: Move, view: View, clear: float) -> Iterator[Any]:
    """An arrow from an old place to the new one, ``clear`` mm off both; none where they lie too near."""
    (ax, ay), (bx, by) = view.spot(move.start), view.spot(move.end)
    length = math.dist((ax, ay), (bx, by))
    if length - 2 * clear < _SHORTEST:
        return
    ux, uy = (bx - ax) / length, (by - ay) / length
    start, tip = (ax + ux * clear, ay + uy * clear), (bx - ux * clear, by - uy * clear)
    neck = (tip[0] - ux * _HEAD, tip[1] - uy * _HEAD)
    half = _HEAD * 0.36
    head = ((neck[0] - uy * half, neck[1] + ux * half), tip, (neck[0] + uy * half, neck[1] - ux * half))
    yield SVG.path(d=line_through((start, neck)), stroke=INK, stroke_width=MEDIUM, fill="none", class_="moved")
    yield SVG.path(d=line_through(head) + "Z", fill=INK)


def _middle(change: Change) -> Spot:
    assert change.was_shape is not None
    middle = change.was_shape.centroid
    return (middle.x, middle.y)
