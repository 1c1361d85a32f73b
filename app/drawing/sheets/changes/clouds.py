"""Revision clouds: a scalloped outline about each changed place, one about places that lie near each other.

Works in the picture's own units with y downward, so that a sheet and the page's drawing get theirs alike.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass

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
    """The clouds about numbered places, ``pad`` away from each; places within some twice ``pad`` are one cloud.

    A number whose place has two parts that lie far from each other stands at both.
    """
    parts = [(number, part.buffer(pad)) for number, place in places for part in shapely.get_parts(place)]
    if not parts:
        return []
    merged = shapely.union_all([rounded for _, rounded in parts]).buffer(pad * 0.6).buffer(-pad * 0.6)
    outlines = [shapely.Polygon(polygon.exterior) for polygon in shapely.get_parts(merged)]
    tree = shapely.STRtree(outlines)
    numbers: dict[int, set[int]] = {}
    for number, rounded in parts:
        home = int(tree.query(rounded.representative_point(), predicate="within")[0])
        numbers.setdefault(home, set()).add(number)
    found = [Cloud(outlines[home], tuple(sorted(inside))) for home, inside in numbers.items()]
    return sorted(found, key=lambda cloud: cloud.numbers)


def scalloped(outline: shapely.Polygon, chord: float) -> str:
    """Path data of arcs that bulge outward along an outline."""
    ring = orient(outline).exterior
    count = max(_FEWEST, round(ring.length / chord))
    spots: list[Spot] = [(point.x, point.y) for point in ring.interpolate([i / count for i in range(count)], True)]
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
