"""What one eye sees of the floor: targets at one height, in a sector of one reach, past bodies in three dimensions.

Bodies that block every sight line at both ends are swept by angle (an exact polygon from the nearest edges); a body
lower or higher than some sight lines only shadows a strip behind itself, taken off as a polygon. ``plain_view`` states
the same with one shadow polygon a body; the tests hold the two against each other.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import CORNERS, NEXT_CORNER, Bodies, BoolArray, FloatArray, IntArray
from app.geometry.eye import TOUCH, Eye
from app.geometry.rows import counted, lots

ARC_STEP = math.radians(0.2)
_TINY = 1e-12
_MOST_PAIRS = 500_000


@dataclass(frozen=True)
class Watch:
    """What an eye clear of bodies looks at: ``reach`` in feet in plan, ``facing`` and ``angle`` (whole) in degrees."""

    eye: Eye
    reach: float
    facing: float
    angle: float


def floor_view(bodies: Bodies, eye: Eye, reach: float, facing: float, angle: float, target: float) -> BaseGeometry:
    """The seen region in plan of one eye; ``target`` is the height that is looked for, all else as ``Watch`` says.

    Areas are good to 1e-5 of the whole: arcs are drawn every 0.2°.
    """
    return floor_views(bodies, [Watch(eye, reach, facing, angle)], target)[0]


def floor_views(bodies: Bodies, watches: Sequence[Watch], target: float) -> list[BaseGeometry]:
    """The same for many eyes, swept in the same passes over arrays."""
    if not watches:
        return []
    sectors = _Sectors.of(watches)
    low, high = sectors.place - sectors.reach[:, None], sectors.place + sectors.reach[:, None]
    eye, near = bodies.tree.query(shapely.box(*low.T, *high.T))
    z = np.array([watch.eye.z for watch in watches])[eye]
    floor, head = np.minimum(target, z), np.maximum(target, z)
    # A line that is level at the bottom or the top of a body touches it and no more.
    full = (bodies.base[near] <= floor) & (bodies.top[near] >= head)
    seen = _swept(bodies.corners[near[full]], eye[full], sectors)
    # The way to every seen spot is seen too, so a body that comes nowhere into the region hides none of it.
    low_one = ~full & (bodies.base[near] < head) & (bodies.top[near] > floor)
    eye, near = eye[low_one], near[low_one]
    hides = shapely.intersects(bodies.footprints[near], seen[eye])
    eye, near = eye[hides], near[hides]
    for one in np.unique(eye).tolist():
        own, watch = near[eye == one], watches[one]
        strips = _shadows(bodies.corners[own], bodies.base[own], bodies.top[own], watch.eye, watch.reach, target)
        seen[one] = shapely.difference(seen[one], shapely.union_all(strips))
    regions: list[BaseGeometry] = seen.tolist()
    return regions


def plain_view(bodies: Bodies, eye: Eye, reach: float, facing: float, angle: float, target: float) -> BaseGeometry:
    """The same region stated without shortcuts: the sector less one shadow polygon a body of the level."""
    seen: BaseGeometry = shapely.Polygon(_sector(eye, reach, facing, angle))
    low, high = min(target, eye.z), max(target, eye.z)
    some = (bodies.base < high) & (bodies.top > low)
    for shadow in _shadows(bodies.corners[some], bodies.base[some], bodies.top[some], eye, reach, target):
        seen = shapely.difference(seen, shadow)
    return seen


def _sector(eye: Eye, reach: float, facing: float, angle: float) -> FloatArray:
    start, stop = _bounds(facing, angle)
    turn = np.linspace(start, stop, max(2, math.ceil((stop - start) / ARC_STEP) + 1))
    arc = np.column_stack([eye.x + reach * np.cos(turn), eye.y + reach * np.sin(turn)])
    return arc if angle >= 360 else np.vstack([[eye.x, eye.y], arc])


def _bounds(facing: float, angle: float) -> tuple[float, float]:
    middle, half = math.radians(facing % 360), math.radians(min(angle, 360.0)) / 2
    return middle - half, middle + half


def _shadows(
    corners: FloatArray, base: FloatArray, top: FloatArray, eye: Eye, reach: float, target: float
) -> NDArray[np.object_]:
    """The targets that each convex body hides: the hull of its plan, blown up from the eye by the sight line's course.

    A line from the eye's height to the target's passes heights between base and top from share ``first`` to ``last`` of
    its way, so a corner at offset p hides targets from p / last to p / first, without end where first is nought.
    """
    drop = target - eye.z
    if abs(drop) < _TINY:
        first, last = np.zeros(len(base)), np.ones(len(base))
    else:
        ends = np.sort([(top - eye.z) / drop, (base - eye.z) / drop], axis=0)
        first, last = np.maximum(0.0, ends[0]), np.minimum(1.0, ends[1])
    here = np.array([eye.x, eye.y])
    nearest = np.maximum(TOUCH, shapely.distance(shapely.polygons(corners), shapely.Point(here)))
    endless = first <= _TINY
    farthest = np.maximum(1 / last, np.where(endless, 4 * reach / nearest, 1 / np.where(endless, 1.0, first)))
    offset = corners - here
    spots = here + np.concatenate([offset / last[:, None, None], offset * farthest[:, None, None]], axis=1)
    hulls: NDArray[np.object_] = shapely.convex_hull(shapely.multipoints(spots))
    return hulls


class _Sectors(NamedTuple):
    """Sectors as arrays (n,): the eyes' ``place`` (n, 2), ``reach``, the turn at which each starts and its ``span``."""

    place: FloatArray
    reach: FloatArray
    start: FloatArray
    span: FloatArray
    whole: BoolArray

    @classmethod
    def of(cls, watches: Sequence[Watch]) -> _Sectors:
        bounds = [_bounds(watch.facing, watch.angle) for watch in watches]
        return cls(
            np.array([(watch.eye.x, watch.eye.y) for watch in watches]),
            np.array([watch.reach for watch in watches], dtype=float),
            np.array([start for start, _ in bounds]),
            np.array([stop - start for start, stop in bounds]),
            np.array([watch.angle >= 360 for watch in watches]),
        )


class _Edges(NamedTuple):
    """Edges (e,) of bodies by both ends (e, 2), from the eye ``owner`` that they face; sorted by owner."""

    first: FloatArray
    second: FloatArray
    owner: IntArray

    @property
    def along(self) -> FloatArray:
        return self.second - self.first

    def beside(self, owners: IntArray) -> Iterator[tuple[slice, IntArray, IntArray]]:
        """In lots, for sorted ``owners`` (m,) of things: the lot's things, and pairs of one's number in the lot and an
        edge of the same eye, however crowded the plan is.
        """
        first = np.searchsorted(self.owner, owners)
        count = np.searchsorted(self.owner, owners, side="right") - first
        for lot in lots(count, _MOST_PAIRS):
            row, within = counted(count[lot])
            yield lot, row, first[lot][row] + within


class _Intervals(NamedTuple):
    """Turns (m,) from ``low`` to ``high`` past a sector's start, each with the nearest edge there, −1 for none; sorted
    by the eye ``owner``, then by turn.
    """

    low: FloatArray
    high: FloatArray
    nearest: IntArray
    owner: IntArray


def _swept(corners: FloatArray, owner: IntArray, sectors: _Sectors) -> NDArray[np.object_]:
    """The sectors as far as the nearest edge of any body of ``corners`` (b, 4, 2), which belongs to the eye ``owner``,
    exactly, by a sweep over the angles where that may change.
    """
    edges = _facing_edges(corners, owner, sectors)
    intervals = _with_arcs(_intervals(edges, sectors))
    ring, owner = _rings(edges, intervals, sectors)
    # A sector of less than the whole round has its eye for a corner, the first of its ring.
    eyes = np.flatnonzero(~sectors.whole)
    ring, owner = np.concatenate([np.zeros((len(eyes), 2)), ring]), np.concatenate([eyes, owner])
    order = np.argsort(owner, kind="stable")
    ring, owner = ring[order], owner[order]
    regions: NDArray[np.object_] = shapely.polygons(shapely.linearrings(ring + sectors.place[owner], indices=owner))
    crossed = ~shapely.is_valid(regions)
    regions[crossed] = shapely.make_valid(regions[crossed])
    return regions


def _intervals(edges: _Edges, sectors: _Sectors) -> _Intervals:
    """The turns between which the nearest edge stays the same, and that edge."""
    circle, crossing = _circle_crossings(edges, sectors), _edge_crossings(edges)
    spots = np.concatenate([edges.first, edges.second, circle[0], crossing[0]])
    owner = np.concatenate([edges.owner, edges.owner, circle[1], crossing[1]])
    marks = _turns(spots, sectors.start[owner])
    inside = (marks > 0) & (marks < sectors.span[owner])
    eyes = np.arange(len(sectors.reach))
    marks = np.concatenate([marks[inside], np.zeros(len(eyes)), sectors.span])
    owner = np.concatenate([owner[inside], eyes, eyes])
    order = np.lexsort((marks, owner))
    marks, owner = marks[order], owner[order]
    apart = (np.diff(owner, prepend=-1) > 0) | (np.diff(marks, prepend=-1.0) > _TINY)
    marks, owner = marks[apart], owner[apart]
    same = np.flatnonzero(owner[:-1] == owner[1:])
    low, high, owner = marks[same], marks[same + 1], owner[same]
    nearest = _nearest_edges(edges, sectors.start[owner] + (low + high) / 2, owner, sectors.reach)
    return _Intervals(low, high, nearest, owner)


def _with_arcs(whole: _Intervals) -> _Intervals:
    """The same intervals, those that end on the circle cut into steps of an arc."""
    wide = whole.high - whole.low
    steps = np.where(whole.nearest < 0, np.ceil(wide / ARC_STEP), 1).astype(np.int64)
    which, within = counted(steps)
    low = whole.low[which] + wide[which] * within / steps[which]
    ends = within + 1 == steps[which]
    high = np.where(ends, whole.high[which], np.append(low[1:], 0.0))
    return _Intervals(low, high, whole.nearest[which], whole.owner[which])


def _facing_edges(corners: FloatArray, owner: IntArray, sectors: _Sectors) -> _Edges:
    """The edges that face their eye, come within its reach and into its sector."""
    offset = corners - sectors.place[owner][:, None]
    first, second = offset.reshape(-1, 2), offset[:, NEXT_CORNER].reshape(-1, 2)
    owner = np.repeat(owner, CORNERS)
    # Counter-clockwise bodies show the eye the edges that it sees from their right.
    faces = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0] < -_TINY
    first, second, owner = first[faces], second[faces], owner[faces]
    along = second - first
    share = np.clip(-np.einsum("ij,ij->i", first, along) / np.einsum("ij,ij->i", along, along), 0, 1)
    foot = first + share[:, None] * along
    # Seen from the eye such an edge runs clockwise, from its first end to its second.
    right, left = _turns(second, sectors.start[owner]), _turns(first, sectors.start[owner])
    within = np.einsum("ij,ij->i", foot, foot) < sectors.reach[owner] ** 2
    keep = within & ((right < sectors.span[owner]) | (right > left))
    return _Edges(first[keep], second[keep], owner[keep])


def _turns(points: FloatArray, start: FloatArray) -> FloatArray:
    turns: FloatArray = (np.arctan2(points[:, 1], points[:, 0]) - start) % (2 * math.pi)
    return turns


def _circle_crossings(edges: _Edges, sectors: _Sectors) -> tuple[FloatArray, IntArray]:
    """Where edges cross the circle of the reach, and whose circle it is."""
    first, along = edges.first, edges.along
    a = np.einsum("ij,ij->i", along, along)
    b = np.einsum("ij,ij->i", first, along)
    c = np.einsum("ij,ij->i", first, first) - sectors.reach[edges.owner] ** 2
    root = b * b - a * c
    cuts = root > 0
    spots, owners = [], []
    for sign in (-1, 1):
        share = (-b[cuts] + sign * np.sqrt(root[cuts])) / a[cuts]
        on = (share > 0) & (share < 1)
        spots.append((first[cuts] + share[:, None] * along[cuts])[on])
        owners.append(edges.owner[cuts][on])
    return np.concatenate(spots), np.concatenate(owners)


def _edge_crossings(edges: _Edges) -> tuple[FloatArray, IntArray]:
    """Where edges of overlapping bodies cross each other, and before whose eye."""
    first, along = edges.first, edges.along
    spots, owners = [np.empty((0, 2))], [np.empty(0, dtype=np.int64)]
    for some, row, other in edges.beside(edges.owner):
        here, course = first[some][row], along[some][row]
        cross = course[:, 0] * along[other, 1] - course[:, 1] * along[other, 0]
        gap = first[other] - here
        with np.errstate(divide="ignore", invalid="ignore"):
            t = (gap[:, 0] * along[other, 1] - gap[:, 1] * along[other, 0]) / cross
            s = (gap[:, 0] * course[:, 1] - gap[:, 1] * course[:, 0]) / cross
            meets = (t > 0) & (t < 1) & (s > 0) & (s < 1) & (np.abs(cross) > _TINY)
        spots.append(here[meets] + t[meets][:, None] * course[meets])
        owners.append(edges.owner[some][row[meets]])
    return np.concatenate(spots), np.concatenate(owners)


def _nearest_edges(edges: _Edges, middles: FloatArray, owner: IntArray, reach: FloatArray) -> IntArray:
    """For each ray (m,) from the eye ``owner`` the edge that it meets first within reach, or −1."""
    nearest = np.full(len(middles), -1, dtype=np.int64)
    rays = np.column_stack([np.cos(middles), np.sin(middles)])
    first, along = edges.first, edges.along
    moment = first[:, 0] * along[:, 1] - first[:, 1] * along[:, 0]
    for some, row, edge in edges.beside(owner):
        ray = rays[some][row]
        cross = ray[:, 0] * along[edge, 1] - ray[:, 1] * along[edge, 0]
        with np.errstate(divide="ignore", invalid="ignore"):
            away = moment[edge] / cross
            share = (first[edge, 0] * ray[:, 1] - first[edge, 1] * ray[:, 0]) / cross
        met = (np.abs(cross) > _TINY) & (away > 0) & (share >= 0) & (share <= 1) & (away < reach[owner[some][row]])
        row, edge, away = row[met], edge[met], away[met]
        order = np.lexsort((edge, away, row))
        hit, least = np.unique(row[order], return_index=True)
        nearest[np.arange(len(middles))[some][hit]] = edge[order][least]
    return nearest


def _rings(edges: _Edges, intervals: _Intervals, sectors: _Sectors) -> tuple[FloatArray, IntArray]:
    """Corners (r, 2), from the eye, of the seen regions: both ends of each interval on its edge or on the circle."""
    owner = intervals.owner
    turns = sectors.start[owner][:, None] + np.stack([intervals.low, intervals.high], axis=1)
    rays = np.stack([np.cos(turns), np.sin(turns)], axis=2)
    distance = np.repeat(sectors.reach[owner][:, None], 2, axis=1)
    on_edge = intervals.nearest >= 0
    start, along = edges.first[intervals.nearest[on_edge]], edges.along[intervals.nearest[on_edge]]
    cross = rays[on_edge][..., 0] * along[:, None, 1] - rays[on_edge][..., 1] * along[:, None, 0]
    distance[on_edge] = (start[:, 0] * along[:, 1] - start[:, 1] * along[:, 0])[:, None] / cross
    corners, owner = (rays * distance[..., None]).reshape(-1, 2), np.repeat(owner, 2)
    moved = np.abs(np.diff(corners, axis=0, prepend=np.inf)).max(axis=1) > 1e-10
    moved |= np.diff(owner, prepend=-1) > 0
    return corners[moved], owner[moved]
