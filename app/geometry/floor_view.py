"""What one eye sees of the floor: targets at one height, in a sector of one reach, past bodies in three dimensions.

Bodies that block every sight line at both ends are swept by angle (an exact polygon from the nearest edges); a body
lower or higher than some sight lines only shadows a strip behind itself, taken off as a polygon. ``plain_view`` states
the same with one shadow polygon a body; the tests hold the two against each other.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import CORNERS, Bodies, FloatArray, IntArray
from app.geometry.eye import TOUCH, Eye

ARC_STEP = math.radians(0.2)
_TINY = 1e-12
_MOST_PAIRS = 500_000


def floor_view(bodies: Bodies, eye: Eye, reach: float, facing: float, angle: float, target: float) -> BaseGeometry:
    """The seen region in plan of an eye clear of bodies.

    ``reach`` in feet in plan, ``facing`` and ``angle`` (whole) in degrees, ``target`` the height that is looked for.
    Areas are good to 1e-5 of the whole: arcs are drawn every 0.2°.
    """
    near = bodies.near(eye.x, eye.y, reach)
    low, high = min(target, eye.z), max(target, eye.z)
    near = near[(bodies.base[near] < high) & (bodies.top[near] > low)]
    # A line that is level at the bottom or the top of a body touches it and no more.
    full = (bodies.base[near] <= low) & (bodies.top[near] >= high)
    seen = _swept(bodies.corners[near[full]], eye, reach, facing, angle)
    low_ones = near[~full]
    # The way to every seen spot is seen too, so a body that comes nowhere into the region hides none of it.
    low_ones = low_ones[shapely.intersects(bodies.footprints[low_ones], seen)]
    if not len(low_ones):
        return seen
    strips = _shadows(bodies.corners[low_ones], bodies.base[low_ones], bodies.top[low_ones], eye, reach, target)
    return shapely.difference(seen, shapely.union_all(strips))


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


def _swept(corners: FloatArray, eye: Eye, reach: float, facing: float, angle: float) -> BaseGeometry:
    """The sector as far as the nearest edge of any body, exactly, by a sweep over the angles where that may change."""
    start, stop = _bounds(facing, angle)
    first, second = _facing_edges(corners, eye, reach, start, stop)
    spots = [first, second, _circle_crossings(first, second, reach), _edge_crossings(first, second)]
    marks = _turns(np.concatenate(spots), start)
    marks = np.unique(np.concatenate([[0.0], marks[(marks > 0) & (marks < stop - start)], [stop - start]]))
    marks = marks[np.concatenate([[True], np.diff(marks) > _TINY])]
    nearest = _nearest_edges(first, second, start + (marks[:-1] + marks[1:]) / 2, reach)
    marks, nearest = _with_arcs(marks, nearest)
    ring = _ring(first, second, nearest, start + marks, reach)
    if angle < 360:
        ring = np.vstack([[[0.0, 0.0]], ring])
    region = shapely.Polygon(ring + np.array([eye.x, eye.y]))
    return region if region.is_valid else shapely.make_valid(region)


def _with_arcs(marks: FloatArray, nearest: IntArray) -> tuple[FloatArray, IntArray]:
    """The same intervals, those that end on the circle cut into steps of an arc."""
    steps = np.where(nearest < 0, np.ceil(np.diff(marks) / ARC_STEP), 1).astype(np.int64)
    which = np.repeat(np.arange(len(nearest)), steps)
    within = np.arange(len(which)) - np.repeat(np.cumsum(steps) - steps, steps)
    cut = marks[which] + np.diff(marks)[which] * within / steps[which]
    return np.concatenate([cut, marks[-1:]]), nearest[which]


def _facing_edges(
    corners: FloatArray, eye: Eye, reach: float, start: float, stop: float
) -> tuple[FloatArray, FloatArray]:
    """Both ends (n, 2), from the eye, of the edges that face it, come within reach and into the sector."""
    first = (corners - np.array([eye.x, eye.y])).reshape(-1, 2)
    second = np.roll(first.reshape(-1, CORNERS, 2), -1, axis=1).reshape(-1, 2)
    # Counter-clockwise bodies show the eye the edges that it sees from their right.
    faces = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0] < -_TINY
    first, second = first[faces], second[faces]
    along = second - first
    share = np.clip(-np.einsum("ij,ij->i", first, along) / np.einsum("ij,ij->i", along, along), 0, 1)
    foot = first + share[:, None] * along
    # Seen from the eye such an edge runs clockwise, from its first end to its second.
    right, left = _turns(second, start), _turns(first, start)
    keep = (np.einsum("ij,ij->i", foot, foot) < reach**2) & ((right < stop - start) | (right > left))
    return first[keep], second[keep]


def _turns(points: FloatArray, start: float) -> FloatArray:
    turns: FloatArray = (np.arctan2(points[:, 1], points[:, 0]) - start) % (2 * math.pi)
    return turns


def _circle_crossings(first: FloatArray, second: FloatArray, reach: float) -> FloatArray:
    """Where edges cross the circle of the reach."""
    along = second - first
    a = np.einsum("ij,ij->i", along, along)
    b = np.einsum("ij,ij->i", first, along)
    c = np.einsum("ij,ij->i", first, first) - reach**2
    root = b * b - a * c
    cuts = root > 0
    found = []
    for sign in (-1, 1):
        share = (-b[cuts] + sign * np.sqrt(root[cuts])) / a[cuts]
        on = (share > 0) & (share < 1)
        found.append((first[cuts] + share[:, None] * along[cuts])[on])
    return np.concatenate(found) if found else np.empty((0, 2))


def _edge_crossings(first: FloatArray, second: FloatArray) -> FloatArray:
    """Where edges of overlapping bodies cross each other."""
    along = second - first
    found = [np.empty((0, 2))]
    for some in _lots(len(first), len(first)):
        cross = along[some, None, 0] * along[None, :, 1] - along[some, None, 1] * along[None, :, 0]
        gap = first[None] - first[some, None]
        with np.errstate(divide="ignore", invalid="ignore"):
            t = (gap[..., 0] * along[None, :, 1] - gap[..., 1] * along[None, :, 0]) / cross
            s = (gap[..., 0] * along[some, None, 1] - gap[..., 1] * along[some, None, 0]) / cross
            meets = (t > 0) & (t < 1) & (s > 0) & (s < 1) & (np.abs(cross) > _TINY)
        one, _ = np.nonzero(meets)
        found.append(first[some][one] + t[meets][:, None] * along[some][one])
    return np.concatenate(found)


def _lots(rows: int, columns: int) -> list[slice]:
    """Slices of ``rows`` so that a table of a lot by ``columns`` stays small, however crowded the plan is."""
    lot = max(1, _MOST_PAIRS // max(1, columns))
    return [slice(start, start + lot) for start in range(0, rows, lot)]


def _nearest_edges(first: FloatArray, second: FloatArray, middles: FloatArray, reach: float) -> IntArray:
    """For each ray the edge that it meets first within reach, or −1."""
    nearest = np.full(len(middles), -1, dtype=np.int64)
    if not len(first):
        return nearest
    rays = np.column_stack([np.cos(middles), np.sin(middles)])
    along = second - first
    moment = first[:, 0] * along[:, 1] - first[:, 1] * along[:, 0]
    for some in _lots(len(middles), len(first)):
        ray = rays[some]
        cross = ray[:, 0, None] * along[None, :, 1] - ray[:, 1, None] * along[None, :, 0]
        with np.errstate(divide="ignore", invalid="ignore"):
            away = moment[None] / cross
            share = (first[None, :, 0] * ray[:, 1, None] - first[None, :, 1] * ray[:, 0, None]) / cross
        met = (np.abs(cross) > _TINY) & (away > 0) & (share >= 0) & (share <= 1)
        away = np.where(met, away, np.inf)
        edge = np.argmin(away, axis=1)
        nearest[some] = np.where(away[np.arange(len(edge)), edge] < reach, edge, -1)
    return nearest


def _ring(first: FloatArray, second: FloatArray, nearest: IntArray, turns: FloatArray, reach: float) -> FloatArray:
    """Corners (2m, 2), from the eye, of the seen region: both ends of each interval on its edge or on the circle."""
    ray = np.stack([np.cos(turns), np.sin(turns)], axis=1)
    both = np.stack([ray[:-1], ray[1:]], axis=1)
    distance = np.full(both.shape[:2], float(reach))
    on_edge = nearest >= 0
    if on_edge.any():
        start, along = first[nearest[on_edge]], (second - first)[nearest[on_edge]]
        rays = both[on_edge]
        cross = rays[..., 0] * along[:, None, 1] - rays[..., 1] * along[:, None, 0]
        distance[on_edge] = (start[:, 0] * along[:, 1] - start[:, 1] * along[:, 0])[:, None] / cross
    corners = (both * distance[..., None]).reshape(-1, 2)
    moved = np.concatenate([[True], np.abs(np.diff(corners, axis=0)).max(axis=1) > 1e-10])
    ring: FloatArray = corners[moved]
    return ring
