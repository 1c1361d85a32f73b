"""What one eye sees of panes: on the pane's own plane the range is a disc and every body between casts a shadow.

The shadow of a body is the projection from the eye of the part that lies between eye and pane plane. Most bodies are
lower and higher than every sight line, so their shadow is a strip of full height and visibility along the pane is a
union of intervals: a sort, no polygon. Only half walls, obstructions and headers over voids need polygons ("veils"),
the convex hull of the same corners projected at the body's base and top. ``plain_fraction`` states the same with one
polygon a body and no shortcut; the tests hold the two against each other.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import Bodies, BoolArray, FloatArray, IntArray
from app.geometry.discs import disc_ring, polygon_area_in_disc, rectangle_in_disc
from app.geometry.eye import TOUCH, Eye
from app.geometry.panes import Panes

SAME_LINE = 0.02  # ft: walls whose both ends lie this near to the pane's wall line are no blockers
IN_PLANE = 1e-5  # ft: an eye this near to a pane's plane sees it edge-on
_SHORT = 1e-7  # share of the eye's distance left off, so that projections stay finite
_MERGE = 1e-9  # ft
_NOTHING = 5e-7  # share of a pane: a sliver smaller than what answers are rounded to is not seen
_MOST_PAIRS = 1_000_000

Interval = tuple[float, float]


@dataclass(frozen=True, slots=True)
class PaneView:
    """What one eye sees of one pane. ``u`` runs along the pane and z up, in feet.

    ``fraction`` is the seen share of the pane's area, ``farthest`` the distance to its farthest corner; ``hidden`` are
    the merged strips of full height in shadow, ``veils`` convex shadows (n, 2) of (u, z), ``disc`` the range on the
    pane's plane as (u, z, radius) where it cuts the pane, else None; ``edge_on``: the eye lies in the pane's plane.
    """

    pane: int
    fraction: float
    farthest: float
    hidden: tuple[Interval, ...] = ()
    veils: tuple[FloatArray, ...] = ()
    disc: tuple[float, float, float] | None = None
    edge_on: bool = False


@dataclass(frozen=True, slots=True)
class _Frame:
    """The eye in each near pane's own frame: ``u`` along it, ``side`` and ``h`` of its plane; all (p,)."""

    pane: IntArray
    origin: FloatArray
    direction: FloatArray
    width: FloatArray
    sill: FloatArray
    head: FloatArray
    u: FloatArray
    side: FloatArray
    h: FloatArray
    farthest: FloatArray


@dataclass(frozen=True, slots=True)
class Shadows:
    """Shadows of bodies on the planes of panes, one row a pair: ``low`` and ``high`` ends along the pane in feet,
    ``full`` where the shadow has full height, and the corners ``u`` (k, 12), ``stretch`` = h / (h − c), ``real`` they
    are projected from.
    """

    row: IntArray
    body: IntArray
    low: FloatArray
    high: FloatArray
    full: BoolArray
    u: FloatArray
    stretch: FloatArray
    real: BoolArray


def pane_views(panes: Panes, bodies: Bodies, eye: Eye, reach: float) -> list[PaneView]:
    """What an eye clear of bodies sees, within ``reach`` feet, of every pane that comes nearer than that."""
    frame = _frame(panes, panes.near(eye.x, eye.y, reach), eye, reach)
    flat = frame.h < IN_PLANE
    views = [
        PaneView(int(pane), 0.0, float(far), edge_on=True)
        for pane, far in zip(frame.pane[flat], frame.farthest[flat], strict=True)
    ]
    frame = _only(frame, ~flat)
    near = bodies.near(eye.x, eye.y, reach)
    # A crowd of panes is taken in lots, so that memory stays bounded on a plan made to be heavy.
    lot = max(1, _MOST_PAIRS // max(1, len(near)))
    for start in range(0, len(frame.pane), lot):
        some = np.zeros(len(frame.pane), dtype=bool)
        some[start : start + lot] = True
        views.extend(_views(_only(frame, some) if lot < len(frame.pane) else frame, bodies, near, eye, reach))
    return views


def _views(frame: _Frame, bodies: Bodies, near: IntArray, eye: Eye, reach: float) -> list[PaneView]:
    shadows = cast_shadows(frame, bodies, near, eye.z)
    order = np.lexsort((shadows.low, shadows.row))
    bounds = np.searchsorted(shadows.row[order], np.arange(len(frame.pane) + 1))
    return [
        _view(frame, row, shadows, order[bounds[row] : bounds[row + 1]], bodies, eye.z, reach)
        for row in range(len(frame.pane))
    ]


def _frame(panes: Panes, near: IntArray, eye: Eye, reach: float) -> _Frame:
    """The eye in the frames of those of some panes that come within its reach."""
    origin, direction, width = panes.origin[near], panes.direction[near], panes.width[near]
    sill, head = panes.sill[near], panes.head[near]
    offset = np.array([eye.x, eye.y]) - origin
    u = offset[:, 0] * direction[:, 0] + offset[:, 1] * direction[:, 1]
    across = direction[:, 0] * offset[:, 1] - direction[:, 1] * offset[:, 0]
    h = np.abs(across)
    off_u = np.maximum(0.0, np.maximum(-u, u - width))
    off_z = np.maximum(0.0, np.maximum(sill - eye.z, eye.z - head))
    far_u = np.maximum(np.abs(u), np.abs(u - width))
    far_z = np.maximum(np.abs(sill - eye.z), np.abs(head - eye.z))
    farthest = np.sqrt(far_u**2 + far_z**2 + h**2)
    within = off_u**2 + off_z**2 + h**2 < reach**2
    whole = _Frame(near, origin, direction, width, sill, head, u, np.where(across < 0, -1.0, 1.0), h, farthest)
    return _only(whole, within)


def _only(frame: _Frame, keep: BoolArray) -> _Frame:
    return _Frame(*(getattr(frame, field)[keep] for field in _Frame.__slots__))


def cast_shadows(frame: _Frame, bodies: Bodies, near: IntArray, z: float) -> Shadows:
    """The shadows that the ``near`` bodies cast on each pane's plane from an eye at height ``z``."""
    lowest, highest = min(float(frame.sill.min()), z), max(float(frame.head.max()), z)
    near = near[(bodies.base[near] < highest) & (bodies.top[near] > lowest)]
    offset = bodies.corners[near][None] - frame.origin[:, None, None]
    dx, dy = frame.direction[:, 0, None, None], frame.direction[:, 1, None, None]
    c = frame.side[:, None, None] * (dx * offset[..., 1] - dy * offset[..., 0])
    row, column = np.nonzero(
        (c.max(axis=2) > TOUCH)
        & (c.min(axis=2) < frame.h[:, None] - TOUCH)
        & (bodies.base[near] < np.maximum(frame.head, z)[:, None])
        & (bodies.top[near] > np.minimum(frame.sill, z)[:, None])
        & ~_on_pane_line(frame, bodies.centreline[near])
    )
    c = c[row, column]
    u = (dx * offset[..., 0] + dy * offset[..., 1])[row, column]
    u, c, real = _clipped(u, c, frame.h[row])
    stretch = frame.h[row, None] / (frame.h[row, None] - c)
    u = frame.u[row, None] + (u - frame.u[row, None]) * stretch
    low = np.where(real, u, np.inf).min(axis=1)
    high = np.where(real, u, -np.inf).max(axis=1)
    falls = (high > _MERGE) & (low < frame.width[row] - _MERGE) & (high - low > _MERGE)
    row, column = row[falls], column[falls]
    body = near[column]
    full = (bodies.base[body] <= np.minimum(frame.sill[row], z) + _MERGE) & (
        bodies.top[body] >= np.maximum(frame.head[row], z) - _MERGE
    )
    return Shadows(row, body, low[falls], high[falls], full, u[falls], stretch[falls], real[falls])


def _on_pane_line(frame: _Frame, centreline: FloatArray) -> BoolArray:
    """Whether (p, n) both ends of a wall lie on the pane's wall line (NaN centrelines, of obstructions, never do)."""
    offset = centreline[None] - frame.origin[:, None, None]
    away = frame.direction[:, 0, None, None] * offset[..., 1] - frame.direction[:, 1, None, None] * offset[..., 0]
    on_line: BoolArray = np.abs(away).max(axis=2) <= SAME_LINE
    return on_line


def _clipped(u: FloatArray, c: FloatArray, h: FloatArray) -> tuple[FloatArray, FloatArray, BoolArray]:
    """Corners (k, 12) of each footprint cut to 0 ≤ c ≤ h: its own corners, then its crossings of both lines."""
    limit = (h * (1 - _SHORT))[:, None]
    next_u, next_c = np.roll(u, -1, axis=1), np.roll(c, -1, axis=1)
    all_u, all_c, real = [u], [c], [(c >= 0) & (c <= limit)]
    for line in (np.zeros_like(limit), limit):
        crosses = (c - line) * (next_c - line) < 0
        share = (line - c) / np.where(crosses, next_c - c, 1.0)
        all_u.append(np.where(crosses, u + share * (next_u - u), 0.0))
        all_c.append(np.where(crosses, line, 0.0))
        real.append(crosses)
    whole = np.concatenate(real, axis=1)
    return np.concatenate(all_u, axis=1), np.where(whole, np.concatenate(all_c, axis=1), 0.0), whole


def veil(shadows: Shadows, index: int, bodies: Bodies, z: float) -> FloatArray:
    """Corners (n, 2) of (u, z), not in order, whose convex hull is one shadow on the pane's plane."""
    real = shadows.real[index]
    u, stretch = shadows.u[index][real], shadows.stretch[index][real]
    body = shadows.body[index]
    low, high = z + (bodies.base[body] - z) * stretch, z + (bodies.top[body] - z) * stretch
    return np.column_stack([np.concatenate([u, u]), np.concatenate([low, high])])


def _view(frame: _Frame, row: int, shadows: Shadows, own: IntArray, bodies: Bodies, z: float, reach: float) -> PaneView:
    width, sill, head = float(frame.width[row]), float(frame.sill[row]), float(frame.head[row])
    full = shadows.full[own]
    strips = own[full]
    hidden = merged(list(zip(shadows.low[strips].tolist(), shadows.high[strips].tolist(), strict=True)), width)
    clear = gaps_between(hidden, width)
    pane, farthest = int(frame.pane[row]), float(frame.farthest[row])
    if not clear:
        return PaneView(pane, 0.0, farthest, hidden)
    veils = tuple(
        corners
        for corners in (veil(shadows, int(index), bodies, z) for index in own[~full])
        if corners[:, 1].max() > sill + _MERGE and corners[:, 1].min() < head - _MERGE
    )
    disc = None
    if farthest > reach + _MERGE:
        disc = (float(frame.u[row]), z, float(np.sqrt(max(0.0, reach**2 - frame.h[row] ** 2))))
    if veils:
        seen = _seen_area(clear, veils, sill, head, disc)
    elif disc is not None:
        seen = sum(rectangle_in_disc(low, high, sill, head, disc[:2], disc[2]) for low, high in clear)
    else:
        seen = sum(high - low for low, high in clear) * (head - sill)
    fraction = min(1.0, seen / (width * (head - sill)))
    return PaneView(pane, fraction if fraction > _NOTHING else 0.0, farthest, hidden, veils, disc)


def _seen_area(
    clear: list[Interval],
    veils: tuple[FloatArray, ...],
    sill: float,
    head: float,
    disc: tuple[float, float, float] | None,
) -> float:
    seen = _beside(clear, veils, sill, head)
    if disc is None:
        return float(seen.area)
    return polygon_area_in_disc(shapely.get_parts(seen), disc[:2], disc[2])


def _beside(clear: list[Interval], veils: tuple[FloatArray, ...], sill: float, head: float) -> BaseGeometry:
    """The clear strips less the veils, as polygons in (u, z)."""
    boxes = shapely.union_all(shapely.box(*np.array([(low, sill, high, head) for low, high in clear]).T))
    hulls = shapely.convex_hull([shapely.MultiPoint(corners) for corners in veils])
    left = shapely.difference(boxes, shapely.union_all(shapely.intersection(hulls, boxes)))
    return shapely.multipolygons([part for part in shapely.get_parts(left) if part.geom_type == "Polygon"])


def seen_region(view: PaneView, width: float, sill: float, head: float) -> BaseGeometry:
    """The part of a pane that a view sees, as polygons in (u, z); a cutting range is drawn as a fine polygon."""
    clear = gaps_between(view.hidden, width)
    if view.edge_on or not clear:
        return shapely.MultiPolygon()
    seen = _beside(clear, view.veils, sill, head)
    if view.disc is None:
        return seen
    radius = view.disc[2]
    if radius <= 0.0:
        return shapely.MultiPolygon()
    return shapely.intersection(seen, shapely.Polygon(disc_ring(view.disc[:2], radius)))


def merged(intervals: list[Interval], width: float) -> tuple[Interval, ...]:
    """Intervals, sorted by their low ends, cut to [0, width] and joined where they touch."""
    joined: list[Interval] = []
    for low, high in intervals:
        low, high = max(0.0, low), min(width, high)
        if joined and low <= joined[-1][1] + _MERGE:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return tuple(joined)


def gaps_between(hidden: tuple[Interval, ...], width: float) -> list[Interval]:
    """What merged intervals leave of [0, width]."""
    gaps, mark = [], 0.0
    for low, high in hidden:
        if low > mark + _MERGE:
            gaps.append((mark, low))
        mark = max(mark, high)
    if width > mark + _MERGE:
        gaps.append((mark, width))
    return gaps


def blockers_of(panes: Panes, bodies: Bodies, pane: int, eye: Eye, reach: float) -> dict[str, float]:
    """The share of a pane's width, or of its area for a veil, that each thing alone would hide from an eye."""
    frame = _frame(panes, np.array([pane]), eye, reach + TOUCH)
    frame = _only(frame, frame.h >= IN_PLANE)
    if not len(frame.pane):
        return {}
    shadows = cast_shadows(frame, bodies, _between(frame, bodies, eye), eye.z)
    width = float(frame.width[0])
    hidden = (np.minimum(shadows.high, width) - np.maximum(shadows.low, 0.0)) / width
    veiled = np.flatnonzero(~shadows.full)
    if len(veiled):
        glass = shapely.box(0, frame.sill[0], width, frame.head[0])
        hulls = [shapely.MultiPoint(veil(shadows, int(index), bodies, eye.z)) for index in veiled]
        hidden[veiled] = shapely.area(shapely.intersection(glass, shapely.convex_hull(hulls))) / glass.area
    shares: dict[str, float] = {}
    for body, share in zip(shadows.body.tolist(), hidden.tolist(), strict=True):
        shares[bodies.owner[body]] = min(1.0, shares.get(bodies.owner[body], 0.0) + share)
    return shares


def _between(frame: _Frame, bodies: Bodies, eye: Eye) -> IntArray:
    """Indices of the bodies that come near the triangle of an eye and the one pane of a frame."""
    start = frame.origin[0]
    corners = [(eye.x, eye.y), tuple(start), tuple(start + frame.width[0] * frame.direction[0])]
    found: IntArray = bodies.tree.query(shapely.Polygon(corners))
    return found


def plain_fraction(panes: Panes, bodies: Bodies, pane: int, eye: Eye, reach: float) -> float:
    """The seen share of one pane stated without shortcuts: one shadow polygon a body, over all bodies of the level."""
    frame = _frame(panes, np.array([pane]), eye, reach)
    frame = _only(frame, frame.h >= IN_PLANE)
    if not len(frame.pane):
        return 0.0
    shadows = cast_shadows(frame, bodies, np.arange(len(bodies)), eye.z)
    width, sill, head = float(frame.width[0]), float(frame.sill[0]), float(frame.head[0])
    seen: BaseGeometry = shapely.box(0, sill, width, head)
    for index in range(len(shadows.body)):
        seen = seen.difference(shapely.MultiPoint(veil(shadows, index, bodies, eye.z)).convex_hull)
    radius = float(np.sqrt(max(0.0, reach**2 - frame.h[0] ** 2)))
    polygons = [part for part in shapely.get_parts(seen) if part.geom_type == "Polygon"]
    return polygon_area_in_disc(polygons, (float(frame.u[0]), eye.z), radius) / (width * (head - sill))
