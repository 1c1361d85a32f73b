"""The exact area that a disc and a polygon share, and discs drawn as polygons that lie inside them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import cache

import numpy as np

from app.geometry.bodies import FloatArray


def disc_area(ring: Sequence[tuple[float, float]], centre: tuple[float, float], radius: float) -> float:
    """Area common to a disc and the polygon of a ring (first corner not repeated), positive where counter-clockwise.

    Sum over the edges of the signed area that the disc shares with the triangle of centre and edge: a triangle where
    the edge runs inside, a circular sector where it runs outside. Exact up to rounding, for any simple polygon.
    """
    cx, cy = centre
    corners = [(x - cx, y - cy) for x, y in ring]
    total = 0.0
    for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True):
        total += _edge_area(ax, ay, bx, by, radius)
    return total


def _edge_area(ax: float, ay: float, bx: float, by: float, radius: float) -> float:
    dx, dy = bx - ax, by - ay
    square = dx * dx + dy * dy
    if square == 0.0:
        return 0.0
    along = -(ax * dx + ay * dy) / square
    inside = radius * radius - (ax + along * dx) ** 2 - (ay + along * dy) ** 2
    if inside <= 0.0:
        return _sector(ax, ay, bx, by, radius)
    half = math.sqrt(inside / square)
    enter, leave = max(0.0, min(1.0, along - half)), max(0.0, min(1.0, along + half))
    if enter >= leave:
        return _sector(ax, ay, bx, by, radius)
    ex, ey, lx, ly = ax + enter * dx, ay + enter * dy, ax + leave * dx, ay + leave * dy
    area = (ex * ly - ey * lx) / 2
    if enter > 0.0:
        area += _sector(ax, ay, ex, ey, radius)
    if leave < 1.0:
        area += _sector(lx, ly, bx, by, radius)
    return area


def _sector(ax: float, ay: float, bx: float, by: float, radius: float) -> float:
    return radius * radius * math.atan2(ax * by - ay * bx, ax * bx + ay * by) / 2


def rectangle_in_disc(
    low: float, high: float, sill: float, head: float, centre: tuple[float, float], radius: float
) -> float:
    """Area that a disc shares with the rectangle [low, high] × [sill, head]."""
    return disc_area([(low, sill), (high, sill), (high, head), (low, head)], centre, radius)


def disc_ring(centre: tuple[float, float], radius: float, corners: int = 256) -> FloatArray:
    """Corners (n, 2) of a regular polygon on a circle, so inside the disc."""
    return np.asarray(centre) + radius * _unit_ring(corners)


@cache
def _unit_ring(corners: int) -> FloatArray:
    turn = np.linspace(0, 2 * np.pi, corners, endpoint=False)
    return np.column_stack([np.cos(turn), np.sin(turn)])


def polygon_area_in_disc(polygons: Iterable[object], centre: tuple[float, float], radius: float) -> float:
    """Area that a disc shares with shapely polygons, holes taken off."""
    total = 0.0
    for polygon in polygons:
        rings = [polygon.exterior, *polygon.interiors]  # type: ignore[attr-defined]
        areas = [abs(disc_area(list(ring.coords)[:-1], centre, radius)) for ring in rings]
        total += areas[0] - sum(areas[1:])
    return total
