"""From where a whole pane is seen: the exact region, at one height, of eyes that reach every point of it.

A convex body K hides some point of a pane A from an eye exactly when the eye lies in K ⊕ cone(K − A), which is convex;
its slice at the eye's height is a polygon. The region is what the discs about the pane's ends share, less those
polygons. Discs are drawn as polygons inside them, so a point of the region is within range.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import FloatArray
from app.geometry.discs import disc_ring
from app.geometry.eye import TOUCH
from app.geometry.scene import LevelScene
from app.geometry.shadows import SAME_LINE

_DISC_CORNERS = 128
_DISC_INSIDE = math.cos(math.pi / _DISC_CORNERS)  # share of a disc's radius that its polygon reaches on every side
_FAN = np.linspace(0.0, 1.0, 9)


def vantage_region(scene: LevelScene, pane: int, z: float, reach: float, within: BaseGeometry) -> BaseGeometry:
    """The part of ``within`` (a plan region in feet) from which an eye at height ``z`` sees the whole of a pane.

    ``reach`` is the greatest slant distance. Empty where there is none. Solid bodies are not cut out of ``within``.
    """
    panes = scene.panes
    drop = max(abs(z - panes.sill[pane]), abs(z - panes.head[pane]))
    if reach <= drop:
        return Polygon()
    radius = math.sqrt(reach**2 - drop**2)
    region = within
    for end in panes.ends[pane]:
        # A room is often so small that all of it is within reach, and that is told by its corners.
        away = shapely.get_coordinates(region) - end
        if len(away) and np.einsum("ij,ij->i", away, away).max() > (radius * _DISC_INSIDE) ** 2:
            region = shapely.intersection(region, Polygon(disc_ring((end[0], end[1]), radius, _DISC_CORNERS)))
    if region.is_empty:
        return region
    hidden = _blind_regions(scene, pane, z, region, reach)
    hidden = hidden[shapely.intersects(hidden, region)]
    return shapely.difference(region, shapely.union_all(hidden)) if len(hidden) else region


def _blind_regions(scene: LevelScene, pane: int, z: float, region: BaseGeometry, reach: float) -> NDArray[np.object_]:
    """For every body that could come between, the plan region from which it hides some of the pane."""
    panes, bodies = scene.panes, scene.bodies
    between = shapely.convex_hull(shapely.union(region, shapely.LineString(panes.ends[pane])))
    near = bodies.tree.query(between, predicate="intersects")
    low, high = min(float(panes.sill[pane]), z), max(float(panes.head[pane]), z)
    near = near[(bodies.base[near] < high) & (bodies.top[near] > low)]
    origin, along = panes.origin[pane], panes.direction[pane]
    across = np.array([-along[1], along[0]])
    glass = (float(panes.width[pane]), float(panes.sill[pane]), float(panes.head[pane]))
    # A comparison with NaN, an obstruction's centreline, is never true.
    near = near[~(np.abs((bodies.centreline[near] - origin) @ across) <= SAME_LINE).all(axis=1)]
    offset = bodies.corners[near] - origin
    u, height = offset @ along, (shapely.get_coordinates(region) - origin) @ across
    outlines: list[FloatArray] = []
    for side in (1.0, -1.0):
        c, farthest = side * (offset @ across), float((side * height).max())
        # What lies in the pane's plane or behind it, or farther off than any eye, hides nothing.
        comes_between = (c.max(axis=1) > TOUCH) & (c.min(axis=1) < farthest)
        if farthest <= TOUCH or not comes_between.any():
            continue
        upright = (bodies.base[near] <= low) & (bodies.top[near] >= high)
        whole = comes_between & upright & (c.min(axis=1) >= 0)
        found = list(_upright(np.stack([u[whole], c[whole]], axis=2), glass[0], reach))
        for index in np.flatnonzero(comes_between & ~whole):
            plan = _cut_at_pane(np.column_stack([u[index], c[index]]))
            span = (float(bodies.base[near[index]]), float(bodies.top[near[index]]))
            corners = (
                _upright(plan[None], glass[0], reach)[0] if upright[index] else _slice(plan, span, glass, z, reach)
            )
            if corners is not None:
                found.append(corners)
        outlines += [origin + corners[:, :1] * along + side * corners[:, 1:] * across for corners in found]
    if not outlines:
        return np.empty(0, dtype=object)
    owner = np.repeat(np.arange(len(outlines)), [len(outline) for outline in outlines])
    hulls: NDArray[np.object_] = shapely.convex_hull(shapely.linestrings(np.concatenate(outlines), indices=owner))
    return hulls


def _cut_at_pane(plan: FloatArray) -> FloatArray:
    """Corners (n, 2) of (u, c) of the part on the side c ≥ 0 of a convex footprint that reaches beyond it."""
    if plan[:, 1].min() >= 0:
        return plan
    kept = []
    for (u, c), (next_u, next_c) in zip(plan, np.roll(plan, -1, axis=0), strict=True):
        if c >= 0:
            kept.append((u, c))
        if c * next_c < 0:
            kept.append((u + (next_u - u) * c / (c - next_c), 0.0))
    return np.array(kept)


def _upright(plans: FloatArray, width: float, reach: float) -> FloatArray:
    """Spots (k, n, 2) whose hulls are the blind regions of bodies (k, m, 2) that no line passes above or below."""
    directions = np.concatenate([plans, plans - (width, 0.0)], axis=1)
    return _blown(plans, np.arctan2(directions[..., 1], directions[..., 0]), reach)


def _slice(
    plan: FloatArray, span: tuple[float, float], pane: tuple[float, float, float], z: float, reach: float
) -> FloatArray | None:
    """Corners of the blind region, at height ``z``, of a body that some sight lines pass above or below."""
    width, sill, head = pane
    body = np.array([(u, c, level) for u, c in plan for level in span])
    glass = np.array([(u, 0.0, level) for u in (0.0, width) for level in (sill, head)])
    rays = (body[:, None] - glass[None]).reshape(-1, 3)
    spots = [*_crossings_of_body(body, z), *_crossings_of_rays(body, rays, z)]
    up, down = rays[rays[:, 2] > TOUCH], rays[rays[:, 2] < -TOUCH]
    level = rays[np.abs(rays[:, 2]) <= TOUCH][:, :2]
    both = (up[:, None, :2] * -down[None, :, 2:] + down[None, :, :2] * up[:, None, 2:]).reshape(-1, 2)
    endless = np.concatenate([level, both])
    endless = endless[np.hypot(endless[:, 0], endless[:, 1]) > TOUCH]
    if not spots:
        return None
    corners = np.array(spots)
    if not len(endless):
        return corners
    blown: FloatArray = _blown(corners[None], np.arctan2(endless[None, :, 1], endless[None, :, 0]), reach)[0]
    return blown


def _crossings_of_body(body: FloatArray, z: float) -> list[FloatArray]:
    """Where the body itself stands at the height: its plan, or nothing (uprights join equal corners)."""
    low, high = body[:, 2].min(), body[:, 2].max()
    return list(np.unique(body[:, :2], axis=0)) if low < z < high else []


def _crossings_of_rays(body: FloatArray, rays: FloatArray, z: float) -> list[FloatArray]:
    """Where the rays that leave the body's corners away from the pane pass the height."""
    rise = z - body[:, 2]
    with np.errstate(divide="ignore", invalid="ignore"):
        share = rise[:, None] / rays[None, :, 2]
    start, ray = np.nonzero((share >= 0) & np.isfinite(share))
    return list(body[start, :2] + share[start, ray, None] * rays[ray, :2])


def _blown(corners: FloatArray, turns: FloatArray, reach: float) -> FloatArray:
    """Corners (k, m, 2) with their images far away in the outermost of ``turns`` (k, t), which lie from 0 to π.

    Between those two directions one corner's images are enough: they only keep the far end from being cut short.
    """
    turns = np.where(turns < -1e-9, turns + 2 * math.pi, np.abs(turns))
    first, last = turns.min(axis=1)[:, None], turns.max(axis=1)[:, None]
    fan = first + (last - first) * _FAN
    far = 4 * reach * np.stack([np.cos(fan), np.sin(fan)], axis=2)
    return np.concatenate([corners, corners + far[:, :1], corners + far[:, -1:], corners[:, :1] + far], axis=1)
