"""Revision clouds: a scalloped outline about each changed place, one about places that lie near each other.

Works in the picture's own units with y downward, so that a sheet and the page's drawing get theirs alike.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient

from app.drawing.view import Spot, written
from app.review.comparison.changes import Change

Transform = Callable[[BaseGeometry], BaseGeometry]

_FEWEST = 7  # arcs of a small cloud
_BULGE = 0.6  # of a chord: the radius of its arc, little more than half makes it nearly a half circle


@dataclass(frozen=True)
class Cloud:
    """``outline`` is what the arcs stand on; ``numbers`` are those of the changes within, ascending."""

    outline: shapely.Polygon
    numbers: tuple[int, ...]

    def path(self, chord: float) -> str:
        """Path data of the scallops, each about ``chord`` wide."""
        return scalloped(self.outline, chord)

    def words(self) -> str:
        """Its numbers as people write them: "1–3, 7"."""
        return number_words(self.numbers)


def places_of(changes: Iterable[Change], to_picture: Transform, near: float) -> Iterator[tuple[int, BaseGeometry]]:
    """What a cloud goes about, by the change's number: the new place, and the old one of what moved or is gone.

    Both stand in one cloud where they lie nearer than ``near`` in the picture.
    """
    for change in changes:
        shapes = [change.shape, change.was_shape if change.what in ("moved", "removed") else None]
        parts = [to_picture(shape) for shape in shapes if shape is not None]
        if change.moves and len(parts) == 2 and parts[0].distance(parts[1]) < near:
            parts = [shapely.union_all(parts).convex_hull]
        yield change.number, shapely.GeometryCollection(parts)


def clouds_about(places: Iterable[tuple[int, BaseGeometry]], pad: float) -> list[Cloud]:
    """The clouds about numbered places, ``pad`` away from each; those that leave less than ``pad`` between are one.

    A number whose place has two parts that lie far from each other stands at both.
    """
    parts = [(number, part.buffer(pad)) for number, place in places for part in shapely.get_parts(place)]
    if not parts:
        return []
    outlines = _joined([rounded for _, rounded in parts], pad)
    within = shapely.STRtree(outlines).query(
        shapely.point_on_surface(np.array([rounded for _, rounded in parts])), predicate="within"
    )
    numbers: dict[int, set[int]] = {}
    for part, home in within.T.tolist():
        numbers.setdefault(home, set()).add(parts[part][0])
    found = [Cloud(outlines[home], tuple(sorted(inside))) for home, inside in numbers.items()]
    return sorted(found, key=lambda cloud: cloud.numbers)


def _joined(rounds: Sequence[BaseGeometry], pad: float) -> list[shapely.Polygon]:
    """The outlines of what touches or nearly does: a bridge is laid over every gap of less than ``pad``."""
    standing = np.array(shapely.get_parts(shapely.union_all(rounds)))
    tree = shapely.STRtree(standing)
    one, two = tree.query(standing, predicate="dwithin", distance=pad)
    apart = one < two
    gaps = shapely.shortest_line(standing[one[apart]], standing[two[apart]])
    merged = shapely.union_all([*standing, *shapely.buffer(gaps, pad * 0.8)])
    return [_without_small_holes(polygon, pad) for polygon in shapely.get_parts(merged)]


def _without_small_holes(polygon: shapely.Polygon, pad: float) -> shapely.Polygon:
    """A cloud along the walls of a room runs round it inside too, where there is room for its arcs."""
    holes = [hole for hole in polygon.interiors if shapely.Polygon(hole).buffer(-pad).area > 0]
    return shapely.Polygon(polygon.exterior, holes)


def scalloped(outline: shapely.Polygon, chord: float) -> str:
    """Path data of arcs that bulge outward along an outline."""
    facing = orient(outline)  # so that the outside lies on one side of every ring
    return "".join(_arcs(ring, chord) for ring in (facing.exterior, *facing.interiors))


def _arcs(ring: shapely.LinearRing, chord: float) -> str:
    count = max(_FEWEST, round(ring.length / chord))
    spots: list[Spot] = [(at.x, at.y) for at in ring.interpolate([i / count for i in range(count)], normalized=True)]
    path = f"M{written(*spots[0])}"
    for start, end in zip(spots, [*spots[1:], spots[0]], strict=True):
        radius = _BULGE * math.dist(start, end)
        path += f"A{radius:.3f} {radius:.3f} 0 0 1 {written(*end)}"
    return path + "Z"


def number_words(numbers: Sequence[int]) -> str:
    """Ascending numbers with runs drawn together: "1–3, 7"."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][1] + 1:
            runs[-1][1] = number
        else:
            runs.append([number, number])
    return ", ".join(
        f"{low}" if low == high else f"{low}–{high}" if high > low + 1 else f"{low}, {high}" for low, high in runs
    )
