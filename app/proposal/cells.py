"""Places that are worth a detector: one interior point of each cell where regions overlap, dominated cells left out.

Every point of the plane lies in one cell of the arrangement of all regions' outlines, and what it sees is that cell's
set of regions. So a cover by cells that no other cell betters is as small as any cover by points: nothing is sampled.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import FloatArray

NARROWEST = 1e-3  # ft: a cell thinner than this is rounding, and no place for a detector
MOST_OVERLAPS = 25_000  # pairs of regions; beyond it the arrangement is thinned to a lattice
MOST_LATTICE = 20_000  # points


@dataclass(frozen=True, slots=True)
class Place:
    """A point in feet that lies in the ``regions`` by number, with the sum of the penalties of the zones it lies in."""

    x: float
    y: float
    regions: frozenset[int]
    penalty: int


@dataclass(frozen=True)
class Places:
    """The places of some regions; ``complete`` where no point of the plane is better than all of them."""

    places: tuple[Place, ...]
    complete: bool


def places_of(regions: Sequence[BaseGeometry], zones: Sequence[tuple[int, BaseGeometry]]) -> Places:
    """The undominated places of overlapping regions; ``zones`` are (penalty, region) pairs of unloved places."""
    shapes = np.array(regions, dtype=object)
    overlaps = len(shapely.STRtree(shapes).query(shapes, predicate="intersects")[0])
    complete = overlaps <= MOST_OVERLAPS
    zone_shapes = np.array([zone for _, zone in zones], dtype=object)
    points = _cell_points(shapes, zone_shapes) if complete else _lattice(shapes)
    held = _holding(shapes, points)
    penalties = np.zeros(len(points), dtype=np.int64)
    if len(zones):
        weights = np.array([weight for weight, _ in zones])
        zone, point = shapely.STRtree(shapely.points(points)).query(zone_shapes, predicate="intersects")
        np.add.at(penalties, point, weights[zone])
    return Places(tuple(_undominated(points, held, penalties)), complete)


def _cell_points(shapes: NDArray[np.object_], zones: NDArray[np.object_]) -> FloatArray:
    """A point inside every cell of the arrangement of outlines that lies in some region."""
    if len(shapes) == 1 and not len(zones):
        alone: FloatArray = shapely.get_coordinates(shapely.point_on_surface(shapes))
        return alone
    outlines = shapely.boundary(shapes)
    if len(zones):
        within = shapely.union_all(shapes)
        outlines = np.concatenate([outlines, shapely.intersection(shapely.boundary(zones), within)])
    noded = shapely.union_all(outlines)
    cells = shapely.get_parts(shapely.polygonize(shapely.get_parts(noded)))
    wide = shapely.area(cells) > NARROWEST * shapely.length(cells) / 2
    points: FloatArray = shapely.get_coordinates(shapely.point_on_surface(cells[wide]))
    return points


def _lattice(shapes: NDArray[np.object_]) -> FloatArray:
    """A point of each region, and as fine a lattice over all of them as its greatest number allows."""
    low_x, low_y, high_x, high_y = shapely.total_bounds(shapes)
    step = max(0.5, float(np.sqrt((high_x - low_x) * (high_y - low_y) / MOST_LATTICE)))
    x, y = np.meshgrid(np.arange(low_x, high_x, step), np.arange(low_y, high_y, step))
    own = shapely.get_coordinates(shapely.point_on_surface(shapes))
    return np.concatenate([own, np.column_stack([x.ravel(), y.ravel()])])


def _holding(shapes: NDArray[np.object_], points: FloatArray) -> list[frozenset[int]]:
    """For each point the numbers of the regions that hold it."""
    held: list[list[int]] = [[] for _ in points]
    region, point = shapely.STRtree(shapely.points(points)).query(shapes, predicate="intersects")
    for number, index in zip(region.tolist(), point.tolist(), strict=True):
        held[index].append(number)
    return [frozenset(numbers) for numbers in held]


def _undominated(points: FloatArray, held: Sequence[frozenset[int]], penalties: NDArray[np.int64]) -> list[Place]:
    """The places, most regions first, that no other place betters in what it sees and in what it costs."""
    order = sorted(
        (index for index in range(len(points)) if held[index]),
        key=lambda index: (-len(held[index]), int(penalties[index]), *np.round(points[index], 9).tolist()),
    )
    kept: list[Place] = []
    by_region: dict[int, list[Place]] = {}
    seen: dict[frozenset[int], int] = {}
    for index in order:
        regions, penalty = held[index], int(penalties[index])
        if seen.get(regions, penalty + 1) <= penalty:
            continue
        seen[regions] = penalty
        rivals = min((by_region.get(region, []) for region in regions), key=len)
        if any(regions <= rival.regions and rival.penalty <= penalty for rival in rivals):
            continue
        place = Place(float(points[index, 0]), float(points[index, 1]), regions, penalty)
        kept.append(place)
        for region in regions:
            by_region.setdefault(region, []).append(place)
    return kept
