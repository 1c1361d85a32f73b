"""Where a thing is in plan, as a shape in feet, and which points of it moved."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.plan.model import Fixture, Level, Opening, Wall
from app.review.comparison.changes import Move, Spot

SAME = 1e-6  # ft: what rounding in a file may make of one place


def shape_of(thing: Any, level: Level | None) -> BaseGeometry:
    """A wall's or opening's stretch of centreline, an obstruction's outline, or the point where a thing is."""
    if isinstance(thing, Wall):
        return shapely.LineString((thing.a, thing.b))
    if isinstance(thing, Opening):
        assert level is not None
        return shapely.LineString(jambs_of(thing, level))
    if isinstance(thing, Fixture) and thing.polygon is not None:
        return shapely.Polygon(thing.polygon)
    return shapely.Point(thing.at)


def jambs_of(opening: Opening, level: Level) -> tuple[Spot, Spot]:
    """Both jambs on the wall's centreline, the one nearer the wall's ``a`` first."""
    wall = level.wall_by_id[opening.wall]
    return wall.along(opening.offset), wall.along(opening.end)


def moves_between(old: BaseGeometry, new: BaseGeometry) -> tuple[Move, ...]:
    """The points of a thing that moved, the farthest first; a thing that moved as a whole gives one, its middle."""
    if isinstance(old, shapely.Polygon) and isinstance(new, shapely.Polygon):
        return _outline_moves(old, new)
    before, after = _points(old), _points(new)
    if len(before) == 2 and len(after) == 2:
        after = _same_way(before, after)
    pairs = [Move(start, end) for start, end in zip(before, after, strict=True)]
    if all(_is_same(pair) for pair in pairs):
        return ()
    if len(pairs) == 1 or _is_shift(pairs[0], pairs[1]):
        return (Move(_middle(before), _middle(after)),)
    return tuple(sorted((pair for pair in pairs if not _is_same(pair)), key=lambda pair: -pair.feet))


def opening_moves(old: BaseGeometry, new: BaseGeometry) -> tuple[Move, ...]:
    """An opening has moved where neither a jamb nor the middle stays; else it only became wider or narrower."""
    before, after = _points(old), _same_way(_points(old), _points(new))
    middle = Move(_middle(before), _middle(after))
    pairs = [*(Move(start, end) for start, end in zip(before, after, strict=True)), middle]
    return () if any(_is_same(pair) for pair in pairs) else (middle,)


def is_reversed(old: BaseGeometry, new: BaseGeometry) -> bool:
    """Whether a stretch runs the other way than it did."""
    (ax, ay), (bx, by) = _points(old)
    (cx, cy), (dx, dy) = _points(new)
    return (bx - ax) * (dx - cx) + (by - ay) * (dy - cy) < 0


def same_outline(old: shapely.Polygon, new: shapely.Polygon) -> bool:
    """Whether two outlines are one, whatever corner each begins with; up to a shift of its middle."""
    before, after = _middle(_corners(old)), _middle(_corners(new))
    shift = np.subtract(after, before)
    shifted = shapely.transform(old, lambda points: points + shift)
    return bool(shapely.equals_exact(shapely.normalize(shifted), shapely.normalize(new), SAME * 10))


def place_key(shape: BaseGeometry) -> tuple[Any, ...]:
    """A shape's place to a ten-thousandth of a foot, whichever way it was drawn."""
    return (shape.geom_type, tuple(sorted((round(x, 4) + 0.0, round(y, 4) + 0.0) for x, y in set(_points(shape)))))


def _outline_moves(old: shapely.Polygon, new: shapely.Polygon) -> tuple[Move, ...]:
    if not same_outline(old, new):
        return ()
    move = Move(_middle(_corners(old)), _middle(_corners(new)))
    return () if _is_same(move) else (move,)


def _corners(polygon: shapely.Polygon) -> list[Spot]:
    return _points(polygon)[:-1]


def _points(shape: BaseGeometry) -> list[Spot]:
    found: list[list[float]] = shapely.get_coordinates(shape).tolist()
    return [(x, y) for x, y in found]


def _same_way(before: list[Spot], after: list[Spot]) -> list[Spot]:
    """The second pair of ends in the order in which they lie nearer to the first."""
    turned = after[::-1]
    return turned if _apart(before, turned) < _apart(before, after) else after


def _apart(one: Sequence[Spot], two: Sequence[Spot]) -> float:
    return sum(math.dist(a, b) for a, b in zip(one, two, strict=True))


def _middle(points: Sequence[Spot]) -> Spot:
    return (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))


def _is_same(move: Move) -> bool:
    return move.feet <= SAME


def _is_shift(one: Move, two: Move) -> bool:
    shifts = [(move.end[0] - move.start[0], move.end[1] - move.start[1]) for move in (one, two)]
    return math.dist(shifts[0], shifts[1]) <= SAME
