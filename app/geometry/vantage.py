"""From where a whole pane is seen: the exact region, at one height, of eyes that reach every point of it.

A convex body K hides some point of a pane A from an eye exactly when the eye lies in K ⊕ cone(K − A), which is convex;
its slice at the eye's height is a polygon (``blind_regions``). The region is what the discs about the pane's ends
share, less those polygons. Discs are drawn as polygons inside them, so a point of the region is within range.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from app.geometry.blind_regions import Hiders, blind_spots
from app.geometry.bodies import FloatArray, IntArray
from app.geometry.discs import disc_ring
from app.geometry.eye import TOUCH
from app.geometry.panes import Panes
from app.geometry.scene import LevelScene
from app.geometry.shadows import SAME_LINE

_DISC_CORNERS = 128
_DISC_INSIDE = math.cos(math.pi / _DISC_CORNERS)  # share of a disc's radius that its polygon reaches on every side
_LOT = 256  # asks weighed in one pass: memory stays bounded however many panes a level has

Regions = NDArray[np.object_]


class Ask(NamedTuple):
    """From where in ``within``, a plan region, does an eye at height ``z`` see the whole of a pane?

    ``reach`` is the greatest slant distance; all in feet.
    """

    pane: int
    z: float
    reach: float
    within: BaseGeometry


def vantage_region(scene: LevelScene, pane: int, z: float, reach: float, within: BaseGeometry) -> BaseGeometry:
    """The part of ``within`` from which an eye at height ``z`` sees the whole of a pane, as ``Ask`` says.

    Empty where there is none. Solid bodies are not cut out of ``within``.
    """
    return vantage_regions(scene, [Ask(pane, z, reach, within)])[0]


def vantage_regions(scene: LevelScene, asks: Sequence[Ask]) -> list[BaseGeometry]:
    """The same for many asks, weighed in the same few passes over arrays."""
    found: list[BaseGeometry] = []
    for start in range(0, len(asks), _LOT):
        found += _regions(scene, asks[start : start + _LOT])
    return found


class _Asks(NamedTuple):
    """Asks as arrays (n,), but for the regions that eyes may be in, which shrink."""

    pane: IntArray
    z: FloatArray
    reach: FloatArray

    def only(self, which: IntArray) -> _Asks:
        return _Asks(self.pane[which], self.z[which], self.reach[which])


def _regions(scene: LevelScene, lot: Sequence[Ask]) -> list[BaseGeometry]:
    pane, z, reach, _ = zip(*lot, strict=True)
    panes, asks = scene.panes, _Asks(np.array(pane), np.array(z), np.array(reach))
    drop = np.maximum(np.abs(asks.z - panes.sill[asks.pane]), np.abs(asks.z - panes.head[asks.pane]))
    radius = np.sqrt(np.maximum(0.0, asks.reach**2 - drop**2))
    regions = np.array([ask.within if far > 0 else Polygon() for ask, far in zip(lot, radius, strict=True)])
    for end in (0, 1):
        _cut_to_discs(regions, panes.ends[asks.pane, end], radius)
    some = np.flatnonzero(~shapely.is_empty(regions))
    if len(some):
        hidden, owner = _blind_regions(scene, asks.only(some), regions[some])
        _take_off(regions, hidden, some[owner])
    left: list[BaseGeometry] = regions.tolist()
    return left


def _cut_to_discs(regions: Regions, centres: FloatArray, radius: FloatArray) -> None:
    """Cut regions (n,) to the discs about ``centres`` (n, 2)."""
    corners, owner = shapely.get_coordinates(regions, return_index=True)
    away = corners - centres[owner]
    # A room is often so small that all of it is within reach, and that is told by its corners.
    beyond = np.einsum("ij,ij->i", away, away) > (radius[owner] * _DISC_INSIDE) ** 2
    cut = np.unique(owner[beyond])
    if len(cut):
        discs = [disc_ring((x, y), far, _DISC_CORNERS) for (x, y), far in zip(centres[cut], radius[cut], strict=True)]
        regions[cut] = shapely.intersection(regions[cut], shapely.polygons(np.array(discs)))


def _take_off(regions: Regions, hidden: Regions, owner: IntArray) -> None:
    """Take the blind regions ``hidden`` (k,) off those of ``regions`` (n,) that they belong to; ``owner`` is sorted."""
    hides = shapely.intersects(hidden, regions[owner])
    hidden, owner = hidden[hides], owner[hides]
    which, first = np.unique(owner, return_index=True)
    if len(which):
        blind = [shapely.union_all(own) for own in np.split(hidden, first[1:])]
        regions[which] = shapely.difference(regions[which], blind)


def _blind_regions(scene: LevelScene, asks: _Asks, regions: Regions) -> tuple[Regions, IntArray]:
    """The plan regions (k,) from which a body hides some of a pane, for every body that could come between; and the
    ask (k,) that each is about, in order. ``regions`` (n,) are where the eyes may be, none of them empty.
    """
    ask, body = _bodies_between(scene, asks, regions)
    panes, bodies, pane = scene.panes, scene.bodies, asks.pane[ask]
    offset = bodies.corners[body] - panes.origin[pane][:, None]
    u, c = _dot(offset, panes.direction[pane]), _dot(offset, _across(panes.direction[pane]))
    side, row = _sides_hidden(c, _farthest(panes, asks.pane, regions)[:, ask])
    ask, body, pane, plan = ask[row], body[row], pane[row], np.stack([u[row], side[:, None] * c[row]], axis=2)
    spots, owner = blind_spots(
        Hiders(
            plan,
            bodies.base[body],
            bodies.top[body],
            panes.width[pane],
            panes.sill[pane],
            panes.head[pane],
            asks.z[ask],
            asks.reach[ask],
        )
    )
    along = panes.direction[pane[owner]]
    places = panes.origin[pane[owner]] + spots[:, :1] * along + side[owner, None] * spots[:, 1:] * _across(along)
    row, owner = np.unique(owner, return_inverse=True)
    hulls: Regions = shapely.convex_hull(shapely.linestrings(places, indices=owner))
    order = np.argsort(ask[row], kind="stable")
    return hulls[order], ask[row][order]


def _bodies_between(scene: LevelScene, asks: _Asks, regions: Regions) -> tuple[IntArray, IntArray]:
    """Pairs of an ask and a body that comes between pane and region and is not part of the pane's own wall line."""
    panes, bodies = scene.panes, scene.bodies
    between = shapely.convex_hull(shapely.union(regions, shapely.linestrings(panes.ends[asks.pane])))
    ask, body = bodies.tree.query(between, predicate="intersects")
    pane, z = asks.pane[ask], asks.z[ask]
    tall = (bodies.base[body] < np.maximum(panes.head[pane], z)) & (bodies.top[body] > np.minimum(panes.sill[pane], z))
    off_line = _dot(bodies.centreline[body] - panes.origin[pane][:, None], _across(panes.direction[pane]))
    # A comparison with NaN, an obstruction's centreline, is never true.
    hides = tall & ~(np.abs(off_line) <= SAME_LINE).all(axis=1)
    return ask[hides], body[hides]


def _farthest(panes: Panes, pane: IntArray, regions: Regions) -> FloatArray:
    """How far (2, n) regions reach off the planes of their panes, to the left and to the right of the glass."""
    corners, owner = shapely.get_coordinates(regions, return_index=True)
    off = _dot((corners - panes.origin[pane[owner]])[:, None], _across(panes.direction[pane[owner]]))[:, 0]
    first = np.searchsorted(owner, np.arange(len(regions)))
    return np.stack([np.maximum.reduceat(off, first), -np.minimum.reduceat(off, first)])


def _sides_hidden(c: FloatArray, farthest: FloatArray) -> tuple[FloatArray, IntArray]:
    """The sides of the glass, 1 left and −1 right, on which bodies hide some of it, and the bodies' rows.

    ``c`` (k, 4) are corners of bodies off the pane's plane. What lies in that plane or behind it, or farther off than
    any eye, hides nothing.
    """
    sides, rows = [], []
    for side, far in zip((1.0, -1.0), farthest, strict=True):
        off = side * c
        row = np.flatnonzero((far > TOUCH) & (off.max(axis=1) > TOUCH) & (off.min(axis=1) < far))
        sides.append(np.full(len(row), side))
        rows.append(row)
    return np.concatenate(sides), np.concatenate(rows)


def _across(along: FloatArray) -> FloatArray:
    """Directions (n, 2) turned to the left by a quarter."""
    return np.column_stack([-along[:, 1], along[:, 0]])


def _dot(points: FloatArray, directions: FloatArray) -> FloatArray:
    """How far points (n, k, 2) lie along directions (n, 2): (n, k)."""
    return points[..., 0] * directions[:, :1] + points[..., 1] * directions[:, 1:]
