"""What one eye sees of panes: on the pane's own plane the range is a disc and every body between casts a shadow.

Most bodies are lower and higher than every sight line, so their shadow is a strip of full height and visibility along
the pane is a union of intervals: a sort, no polygon. Only half walls, obstructions and headers over voids need polygons
("veils"), the convex hull of the same corners projected at the body's base and top. ``plain_fraction`` states the same
with one polygon a body and no shortcut; the tests hold the two against each other.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import pairwise
from typing import NamedTuple

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import Bodies, FloatArray, IntArray
from app.geometry.discs import disc_ring, polygon_area_in_disc, rectangle_in_disc
from app.geometry.eye import TOUCH, Eye
from app.geometry.panes import Panes
from app.geometry.rows import counted, lots
from app.geometry.shadows import IN_PLANE, MERGE, Frame, cast_shadows, eyes_before_panes, frame_of_one, only_rows, veil

_NOTHING = 5e-7  # share of a pane: a sliver smaller than what answers are rounded to is not seen
_MOST_PAIRS = 20_000
_MOST_SIGHTS = 200

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


def pane_views(panes: Panes, bodies: Bodies, eye: Eye, reach: float) -> list[PaneView]:
    """What an eye clear of bodies sees, within ``reach`` feet, of every pane that comes nearer than that."""
    return views_of_eyes(panes, bodies, [eye], [reach])[0]


def views_of_eyes(panes: Panes, bodies: Bodies, eyes: Sequence[Eye], reaches: Sequence[float]) -> list[list[PaneView]]:
    """The same for each of many eyes; all are weighed in the same few passes over arrays."""
    places = np.array([(eye.x, eye.y, eye.z, reach) for eye, reach in zip(eyes, reaches, strict=True)]).reshape(-1, 4)
    squares = shapely.box(*(places[:, :2] - places[:, 3:]).T, *(places[:, :2] + places[:, 3:]).T)
    views: list[list[PaneView]] = [[] for _ in eyes]
    frame = eyes_before_panes(panes, places, *_in_order(panes.tree.query(squares)))
    flat = frame.h < IN_PLANE
    if flat.any():
        edge_on = zip(*(part[flat].tolist() for part in (frame.eye, frame.pane, frame.farthest)), strict=True)
        for eye, pane, far in edge_on:
            views[eye].append(PaneView(pane, 0.0, far, edge_on=True))
        frame = only_rows(frame, ~flat)
    eye_of_body, body = _in_order(bodies.tree.query(squares))
    first = np.searchsorted(eye_of_body, np.arange(len(eyes) + 1))
    count = np.diff(first)[frame.eye]
    for lot in lots(count, _MOST_PAIRS):
        some = only_rows(frame, lot) if lot != slice(0, len(count)) else frame
        row, within = counted(count[lot])
        for eye, view in zip(
            some.eye.tolist(), _views(some, bodies, row, body[first[some.eye[row]] + within]), strict=True
        ):
            views[eye].append(view)
    return views


def _in_order(pairs: IntArray) -> tuple[IntArray, IntArray]:
    """Pairs (2, n) sorted by the first, then the second."""
    order = np.lexsort((pairs[1], pairs[0]))
    return pairs[0][order], pairs[1][order]


class Row(NamedTuple):
    """An eye before a pane as plain numbers: one row of a frame."""

    pane: int
    farthest: float
    width: float
    sill: float
    head: float
    u: float
    h: float
    z: float
    reach: float


class _Strips(NamedTuple):
    """The clear strips of a pane from ``sill`` to ``head``, and the veils across them."""

    clear: list[Interval]
    veils: tuple[FloatArray, ...]
    sill: float
    head: float


class Draft(NamedTuple):
    """What hides parts of one row's pane, before it is put together."""

    glass: Row
    hidden: tuple[Interval, ...]
    clear: list[Interval]
    veils: tuple[FloatArray, ...]

    @property
    def strips(self) -> _Strips:
        """What a region is cut from."""
        return _Strips(self.clear, self.veils, self.glass.sill, self.glass.head)


class Shade(NamedTuple):
    """A shadow's ends along the pane, and where it has not its full height what gives its corners (n, 2) of (u, z)."""

    low: float
    high: float
    corners: Callable[[], FloatArray] | None


def _views(frame: Frame, bodies: Bodies, row: IntArray, body: IntArray) -> list[PaneView]:
    """The view of each row of a frame past the bodies paired with it."""
    shadows = cast_shadows(frame, bodies, row, body)
    order = np.lexsort((shadows.low, shadows.row))
    bounds = np.searchsorted(shadows.row[order], np.arange(len(frame.pane) + 1)).tolist()
    columns = (order, shadows.full[order], shadows.low[order], shadows.high[order])
    z = frame.z[shadows.row]
    shades = [
        Shade(low, high, None if full else partial(veil, shadows, index, bodies, float(z[index])))
        for index, full, low, high in zip(*(column.tolist() for column in columns), strict=True)
    ]
    rows = zip(*(getattr(frame, field).tolist() for field in Row._fields), strict=True)
    spans = pairwise(bounds)
    return views_of(
        [drafted(glass, shades[first:last]) for glass, (first, last) in zip(map(Row._make, rows), spans, strict=True)]
    )


def drafted(glass: Row, shades: Sequence[Shade]) -> Draft:
    """What some shadows, sorted by their low ends, leave of a row's pane."""
    hidden = merged([(shade.low, shade.high) for shade in shades if shade.corners is None], glass.width)
    clear = gaps_between(hidden, glass.width)
    veils = (shade.corners() for shade in shades if clear and shade.corners is not None)
    return Draft(glass, hidden, clear, tuple(one for one in veils if _falls_on(one, glass.sill, glass.head)))


def views_of(drafts: Sequence[Draft]) -> list[PaneView]:
    """The view that each draft comes to."""
    regions = iter(_beside([draft.strips for draft in drafts if draft.veils]))
    return [_view(draft, next(regions) if draft.veils else None) for draft in drafts]


def _falls_on(shade: FloatArray, sill: float, head: float) -> bool:
    return bool(shade[:, 1].max() > sill + MERGE and shade[:, 1].min() < head - MERGE)


def _view(draft: Draft, beside: BaseGeometry | None) -> PaneView:
    """What is seen of one pane; ``beside`` is what veils leave of its clear strips, None where nothing veils it."""
    glass, hidden, clear, veils = draft
    if not clear:
        return PaneView(glass.pane, 0.0, glass.farthest, hidden)
    disc = None
    if glass.farthest > glass.reach + MERGE:
        disc = (glass.u, glass.z, math.sqrt(max(0.0, glass.reach**2 - glass.h**2)))
    if beside is not None:
        seen = beside.area if disc is None else polygon_area_in_disc(shapely.get_parts(beside), disc[:2], disc[2])
    elif disc is not None:
        seen = sum(rectangle_in_disc(low, high, glass.sill, glass.head, disc[:2], disc[2]) for low, high in clear)
    else:
        seen = sum(high - low for low, high in clear) * (glass.head - glass.sill)
    fraction = min(1.0, seen / (glass.width * (glass.head - glass.sill)))
    return PaneView(glass.pane, fraction if fraction > _NOTHING else 0.0, glass.farthest, hidden, veils, disc)


def _beside(strips: Sequence[_Strips]) -> list[BaseGeometry]:
    """For each pane its clear strips less its veils, as polygons in (u, z)."""
    if not strips:
        return []
    glass = np.array([_boxes(one.clear, one.sill, one.head) for one in strips])
    veils = [corners for one in strips for corners in one.veils]
    pane = np.repeat(np.arange(len(strips)), [len(one.veils) for one in strips])
    owner = np.repeat(np.arange(len(veils)), [len(corners) for corners in veils])
    hulls = shapely.convex_hull(shapely.linestrings(np.concatenate(veils), indices=owner))
    # Cut to the glass first: a projection's far corners are too far off to be joined exactly.
    cut = shapely.intersection(hulls, glass[pane])
    bounds = np.searchsorted(pane, np.arange(len(strips) + 1)).tolist()
    shade = [
        cut[first] if last == first + 1 else shapely.union_all(cut[first:last]) for first, last in pairwise(bounds)
    ]
    left: list[BaseGeometry] = shapely.difference(glass, shade).tolist()
    return left


def _boxes(clear: list[Interval], sill: float, head: float) -> BaseGeometry:
    """Strips that do not touch each other, as polygons in (u, z)."""
    boxes = [shapely.box(low, sill, high, head) for low, high in clear]
    return boxes[0] if len(boxes) == 1 else shapely.multipolygons(boxes)


def seen_region(view: PaneView, width: float, sill: float, head: float) -> BaseGeometry:
    """The part of a pane that a view sees, as polygons in (u, z); a cutting range is drawn as a fine polygon."""
    clear = gaps_between(view.hidden, width)
    if view.edge_on or not clear:
        return shapely.MultiPolygon()
    seen = _beside([_Strips(clear, view.veils, sill, head)])[0] if view.veils else _boxes(clear, sill, head)
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
        if joined and low <= joined[-1][1] + MERGE:
            joined[-1] = (joined[-1][0], max(joined[-1][1], high))
        else:
            joined.append((low, high))
    return tuple(joined)


def gaps_between(hidden: tuple[Interval, ...], width: float) -> list[Interval]:
    """What merged intervals leave of [0, width]."""
    gaps, mark = [], 0.0
    for low, high in hidden:
        if low > mark + MERGE:
            gaps.append((mark, low))
        mark = max(mark, high)
    if width > mark + MERGE:
        gaps.append((mark, width))
    return gaps


class Sight(NamedTuple):
    """A pane looked at by an eye, no farther than ``reach`` feet."""

    pane: int
    eye: Eye
    reach: float


def blockers_of_many(panes: Panes, bodies: Bodies, sights: Sequence[Sight]) -> list[dict[str, float]]:
    """For each sight the share of the pane's width, or of its area for a veil, that each thing alone would hide.

    Many are weighed in the same few passes over arrays.
    """
    shares: list[dict[str, float]] = []
    for lot in range(0, len(sights), _MOST_SIGHTS):
        shares += _blockers(panes, bodies, sights[lot : lot + _MOST_SIGHTS])
    return shares


def _blockers(panes: Panes, bodies: Bodies, sights: Sequence[Sight]) -> list[dict[str, float]]:
    places = np.array([(eye.x, eye.y, eye.z, reach + TOUCH) for _, eye, reach in sights])
    frame = eyes_before_panes(panes, places, np.arange(len(sights)), np.array([sight.pane for sight in sights]))
    frame = only_rows(frame, frame.h >= IN_PLANE)
    shares: list[dict[str, float]] = [{} for _ in sights]
    if not len(frame.pane):
        return shares
    shadows = cast_shadows(frame, bodies, *_between(frame, bodies, places))
    width = frame.width[shadows.row]
    hidden = (np.minimum(shadows.high, width) - np.maximum(shadows.low, 0.0)) / width
    veiled = np.flatnonzero(~shadows.full)
    if len(veiled):
        row = shadows.row[veiled]
        glass = shapely.box(0, frame.sill[row], frame.width[row], frame.head[row])
        hulls = [
            shapely.MultiPoint(veil(shadows, index, bodies, float(frame.z[shadows.row[index]])))
            for index in veiled.tolist()
        ]
        hidden[veiled] = shapely.area(shapely.intersection(glass, shapely.convex_hull(hulls))) / shapely.area(glass)
    for sight, body, share in zip(frame.eye[shadows.row].tolist(), shadows.body.tolist(), hidden.tolist(), strict=True):
        own, owner = shares[sight], bodies.owner[body]
        own[owner] = min(1.0, own.get(owner, 0.0) + share)
    return shares


def _between(frame: Frame, bodies: Bodies, places: FloatArray) -> IntArray:
    """Pairs (2, n) of a row and a body that comes near the triangle of the row's eye and its pane."""
    ends = frame.origin + frame.width[:, None] * frame.direction
    corners = np.stack([places[frame.eye, :2], frame.origin, ends], axis=1)
    found: IntArray = bodies.tree.query(shapely.polygons(corners))
    return found


def plain_fraction(panes: Panes, bodies: Bodies, pane: int, eye: Eye, reach: float) -> float:
    """The seen share of one pane stated without shortcuts: one shadow polygon a body, over all bodies of the level."""
    frame = frame_of_one(panes, pane, eye, reach)
    if not len(frame.pane):
        return 0.0
    shadows = cast_shadows(frame, bodies, np.zeros(len(bodies), dtype=np.int64), np.arange(len(bodies)))
    width, sill, head = float(frame.width[0]), float(frame.sill[0]), float(frame.head[0])
    seen: BaseGeometry = shapely.box(0, sill, width, head)
    for index in range(len(shadows.body)):
        seen = seen.difference(shapely.MultiPoint(veil(shadows, index, bodies, eye.z)).convex_hull)
    radius = float(np.sqrt(max(0.0, reach**2 - frame.h[0] ** 2)))
    polygons = [part for part in shapely.get_parts(seen) if part.geom_type == "Polygon"]
    return polygon_area_in_disc(polygons, (float(frame.u[0]), eye.z), radius) / (width * (head - sill))
