"""The fast path of a drag: the panes and bodies about a cell of the plan, laid out once for all eyes that hang in it.

Which are near, how high they come and where their corners lie before each pane stays the same from eye to eye. About a
house's cell they are so few that plain numbers are quicker than arrays: the same sums as in ``shadows``, for exactly
what ``pane_views.views_of_eyes`` gives.
"""

from __future__ import annotations

import math
from collections import OrderedDict
from collections.abc import Iterator
from functools import partial
from itertools import pairwise
from operator import attrgetter
from typing import NamedTuple

import numpy as np

from app.geometry.bodies import CORNERS, Bodies, FloatArray, IntArray
from app.geometry.eye import TOUCH, Eye, clear_eye
from app.geometry.pane_views import Draft, PaneView, Row, Shade, drafted, pane_views, views_of
from app.geometry.panes import Panes
from app.geometry.shadows import IN_PLANE, MERGE, SAME_LINE, SHORT

CELL = 8.0  # ft: a drag stays in one for a few positions
_SLACK = 1e-3  # ft about a cell: an eye is moved off surfaces by less
_MOST_PAIRS = 800  # of a pane and a body: with more of them arrays are quicker
_MOST_KEPT = 16


class Vicinities:
    """Those of a level asked about last."""

    def __init__(self, panes: Panes, bodies: Bodies) -> None:
        self._panes, self._bodies = panes, bodies
        self._kept: OrderedDict[tuple[int, int, float, float], _Vicinity] = OrderedDict()

    def views(self, eye: Eye, reach: float, ceiling: float) -> tuple[Eye, list[PaneView]] | None:
        """The eye moved off what it touches and what it sees within ``reach`` feet, or None inside a solid body."""
        key = (math.floor(eye.x / CELL), math.floor(eye.y / CELL), eye.z, reach)
        about = self._kept.pop(key, None) or _Vicinity(self._panes, self._bodies, *key)
        self._kept[key] = about
        if len(self._kept) > _MOST_KEPT:
            self._kept.popitem(last=False)
        if about.may_touch(eye):
            clear = clear_eye(self._bodies, eye, ceiling)
            if clear is None:
                return None
            eye = clear
        return eye, about.views(eye) if about.is_small else pane_views(self._panes, self._bodies, eye, reach)


class _Box(NamedTuple):
    """What a body's plan lies in."""

    left: float
    bottom: float
    right: float
    top: float

    def comes_near(self, x: float, y: float, reach: float) -> bool:
        """Whether it comes into the square of half side ``reach`` about a point."""
        return self.left <= x + reach and self.right >= x - reach and self.bottom <= y + reach and self.top >= y - reach


class _Body(NamedTuple):
    """A body before a pane: its four corners along the pane and off its plane (left positive), the first one again at
    the end, and the ``least`` and ``most`` off it; ``is_full`` where it is as high and as low as every sight line.
    """

    box: _Box
    along: list[float]
    across: list[float]
    least: float
    most: float
    base: float
    top: float
    is_full: bool


class _Glass(NamedTuple):
    """A pane, and the bodies that may hide some of it."""

    pane: int
    origin: list[float]
    direction: list[float]
    width: float
    sill: float
    head: float
    bodies: list[_Body]


class _Vicinity:
    """One cell with what lies about it, for eyes of one height and reach."""

    def __init__(self, panes: Panes, bodies: Bodies, column: int, row: int, z: float, reach: float) -> None:
        self._z, self._reach = z, reach
        place = (column + 0.5) * CELL, (row + 0.5) * CELL, CELL / 2 + reach + _SLACK
        near, about = panes.near(*place), np.sort(bodies.near(*place))
        corners = bodies.corners[about]
        sides = np.concatenate([corners.min(axis=1), corners.max(axis=1)], axis=1)
        self._boxes = [_Box(*side) for side in sides.tolist()]
        self.is_small = len(near) * len(about) <= _MOST_PAIRS
        self._glass = self._laid_out(panes, bodies, near, about) if self.is_small else []

    def _laid_out(self, panes: Panes, bodies: Bodies, near: IntArray, about: IntArray) -> list[_Glass]:
        """The panes ``near`` (p,), each with those bodies ``about`` (k,) that may hide some of it."""
        origin, direction = panes.origin[near], panes.direction[near]
        low, high = np.minimum(panes.sill[near], self._z)[:, None], np.maximum(panes.head[near], self._z)[:, None]
        base, top = bodies.base[about], bodies.top[about]
        _, off_line = _along_and_across(origin, direction, bodies.lines_first[:, :, about])
        # A comparison with NaN, an obstruction's centreline, is never true.
        on_line = np.abs(off_line).max(axis=0) <= SAME_LINE
        which, body = np.nonzero((base < high) & (top > low) & ~on_line)
        corners = bodies.corners_first[:, [*range(CORNERS), 0]][:, :, about]
        along, across = (side[:, which, body] for side in _along_and_across(origin, direction, corners))
        is_full = (base <= low + MERGE) & (top >= high - MERGE)
        columns = along.T, across.T, across.min(axis=0), across.max(axis=0), base[body], top[body], is_full[which, body]
        boxes = [self._boxes[index] for index in body.tolist()]
        paired = list(map(_Body, boxes, *(column.tolist() for column in columns)))
        spans = pairwise(np.searchsorted(which, np.arange(len(near) + 1)).tolist())
        own = [paired[first:last] for first, last in spans]
        glass = near, origin, direction, panes.width[near], panes.sill[near], panes.head[near]
        return list(map(_Glass, *(column.tolist() for column in glass), own))

    def may_touch(self, eye: Eye) -> bool:
        """Whether an eye may touch a body or lie in one."""
        return any(box.comes_near(eye.x, eye.y, 10 * TOUCH) for box in self._boxes)

    def views(self, eye: Eye) -> list[PaneView]:
        """What an eye of the cell, clear of bodies, sees of every pane that comes within its reach."""
        edge_on: list[PaneView] = []
        drafts: list[Draft] = []
        for glass in self._glass:
            (x, y), (dx, dy) = glass.origin, glass.direction
            x, y = eye.x - x, eye.y - y
            u, across = x * dx + y * dy, dx * y - dy * x
            row = self._row(glass, u, abs(across))
            if row is None:
                continue
            if row.h < IN_PLANE:
                edge_on.append(PaneView(row.pane, 0.0, row.farthest, edge_on=True))
            else:
                shades = self._shades(eye, row, glass.bodies, -1.0 if across < 0 else 1.0)
                drafts.append(drafted(row, sorted(shades, key=attrgetter("low"))))
        return edge_on + views_of(drafts)

    def _row(self, glass: _Glass, u: float, h: float) -> Row | None:
        """An eye before a pane, or None where it comes nowhere within reach."""
        width, sill, head, z = glass.width, glass.sill, glass.head, self._z
        off_u, off_z = max(0.0, -u, u - width), max(0.0, sill - z, z - head)
        if off_u * off_u + off_z * off_z + h * h >= self._reach * self._reach:
            return None
        far_u, far_z = max(abs(u), abs(u - width)), max(abs(sill - z), abs(head - z))
        farthest = math.sqrt(far_u * far_u + far_z * far_z + h * h)
        return Row(glass.pane, farthest, width, sill, head, u, h, z, self._reach)

    def _shades(self, eye: Eye, row: Row, bodies: list[_Body], side: float) -> Iterator[Shade]:
        """The shadows that fall on a pane."""
        for body in bodies:
            far, near = (body.most, body.least) if side > 0 else (-body.least, -body.most)
            if far <= TOUCH or near >= row.h - TOUCH or not body.box.comes_near(eye.x, eye.y, self._reach):
                continue
            c = [side * off for off in body.across]
            corners = [(row.u + (u - row.u) * stretch, stretch) for u, stretch in _stretched(body.along, c, row.h)]
            if not corners:
                continue
            low, high = min(corners)[0], max(corners)[0]
            if high > MERGE and low < row.width - MERGE and high - low > MERGE:
                yield Shade(low, high, None if body.is_full else partial(_veil, corners, body, row.z))


def _along_and_across(origin: FloatArray, direction: FloatArray, points: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Points (2, n, k) in plan along each of some panes (p, 2) and off its plane, left positive: (n, p, k) each."""
    x, y = points[:, :, None] - origin.T[:, None, :, None]
    dx, dy = direction.T[:, :, None]
    return dx * x + dy * y, dx * y - dy * x


def _stretched(along: list[float], c: list[float], h: float) -> Iterator[tuple[float, float]]:
    """The corners of a footprint cut to 0 ≤ c ≤ h, its own and then its crossings of both lines, and how far the eye's
    projection stretches each.
    """
    limit = h * (1 - SHORT)
    for u, off in zip(along[:-1], c[:-1], strict=True):
        if 0 <= off <= limit:
            yield u, h / (h - off)
    for line in (0.0, limit):
        for (u, off), (next_u, next_off) in pairwise(zip(along, c, strict=True)):
            if (off - line) * (next_off - line) < 0:
                yield u + (line - off) / (next_off - off) * (next_u - u), h / (h - line)


def _veil(corners: list[tuple[float, float]], body: _Body, z: float) -> FloatArray:
    return np.array([(u, z + (edge - z) * stretch) for edge in (body.base, body.top) for u, stretch in corners])
