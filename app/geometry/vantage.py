"""From where a whole pane is seen: the exact region, at one height, of eyes that reach every point of it.

A convex body K hides some point of a pane A from an eye exactly when the eye lies in K ⊕ cone(K − A), which is convex;
its slice at the eye's height is a polygon. The region is what the discs about the pane's ends share, less those
polygons. Discs are drawn as polygons inside them, so a point of the region is within range.
"""

from __future__ import annotations

import math

import numpy as np
import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import FloatArray
from app.geometry.discs import disc_ring
from app.geometry.eye import TOUCH
from app.geometry.scene import LevelScene
from app.geometry.shadows import SAME_LINE

_DISC_CORNERS = 128
_FAN = 9


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
        region = shapely.intersection(region, Polygon(disc_ring((end[0], end[1]), radius, _DISC_CORNERS)))
    if region.is_empty:
        return region
    hidden = _blind_regions(scene, pane, z, region, reach)
    return shapely.difference(region, shapely.union_all(hidden)) if hidden else region


def _blind_regions(scene: LevelScene, pane: int, z: float, region: BaseGeometry, reach: float) -> list[BaseGeometry]:
    """For every body that could come between, the plan region from which it hides some of the pane."""
    panes, bodies = scene.panes, scene.bodies
    between = shapely.convex_hull(shapely.union(region, shapely.LineString(panes.ends[pane])))
    near = bodies.tree.query(between, predicate="intersects")
    low, high = min(float(panes.sill[pane]), z), max(float(panes.head[pane]), z)
    near = near[(bodies.base[near] < high) & (bodies.top[near] > low)]
    origin, along = panes.origin[pane], panes.direction[pane]
    across = np.array([-along[1], along[0]])
    width, sill, head = float(panes.width[pane]), float(panes.sill[pane]), float(panes.head[pane])
    reached = (shapely.get_coordinates(region) - origin) @ across
    sides = [side for side in (1.0, -1.0) if (side * reached).max() > TOUCH]
    regions = []
    for body in near:
        ends = bodies.centreline[body] - origin
        if np.all(np.abs(ends @ across) <= SAME_LINE):
            continue
        offset = bodies.corners[body] - origin
        for side in sides:
            plan = _cut_at_pane(np.column_stack([offset @ along, side * (offset @ across)]))
            if plan is None:
                continue
            corners: FloatArray | None
            if bodies.base[body] <= low and bodies.top[body] >= high:
                corners = _upright(plan, width, reach)
            else:
                corners = _slice(plan, (bodies.base[body], bodies.top[body]), (width, sill, head), z, reach)
            if corners is not None:
                place = origin + corners[:, :1] * along + side * corners[:, 1:] * across
                regions.append(shapely.MultiPoint(place).convex_hull)
    return regions


def _cut_at_pane(plan: FloatArray) -> FloatArray | None:
    """Corners (n, 2) of (u, c) of the part of a convex footprint on the side c ≥ 0, None where there is none."""
    if plan[:, 1].max() <= TOUCH:
        return None
    if plan[:, 1].min() >= 0:
        return plan
    kept = []
    for (u, c), (next_u, next_c) in zip(plan, np.roll(plan, -1, axis=0), strict=True):
        if c >= 0:
            kept.append((u, c))
        if c * next_c < 0:
            kept.append((u + (next_u - u) * c / (c - next_c), 0.0))
    return np.array(kept)


def _upright(plan: FloatArray, width: float, reach: float) -> FloatArray:
    """Corners of the blind region of a body that is higher and lower than every sight line."""
    directions = np.concatenate([plan, plan - (width, 0.0)])
    return _blown(plan, np.arctan2(directions[:, 1], directions[:, 0]), reach)


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
    return _blown(corners, np.arctan2(endless[:, 1], endless[:, 0]), reach)


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
    """The corners and the corners moved far away in every direction between the outermost of ``turns`` (0 to π)."""
    turns = np.where(turns < -1e-9, turns + 2 * math.pi, np.abs(turns))
    fan = np.linspace(turns.min(), turns.max(), _FAN)
    far = 4 * reach * np.column_stack([np.cos(fan), np.sin(fan)])
    return np.concatenate([corners, (corners[:, None] + far[None]).reshape(-1, 2)])
