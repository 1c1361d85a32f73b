"""Walls of a building model as runs: straight ones by the box about their body, curved ones as short straight walls."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from app.intake.ifc.library import Building
from app.intake.tracing.carriers import Direction
from app.intake.tracing.runs import Run

_THINNEST, _THICKEST, _SHORTEST = 0.08, 3.5, 0.15  # ft
_FILLED = 0.72  # of its box: less is a wall that bends
_CHORD = math.radians(10)


@dataclass
class ModelWall:
    """A run with the element it is of and its top, in feet above the model's nought."""

    run: Run
    element: Any
    top: float


def wall_of(element: Any, building: Building) -> list[ModelWall]:
    """The runs of a wall; none where its body gives no wall."""
    points = building.points(element)
    if points is None:
        return []
    flat, top = points[:, :2], float(points[:, 2].max())
    direction = _direction(flat)
    uv = np.array([direction.uv((x, y)) for x, y in flat])
    (low_u, low_v), (high_u, high_v) = uv.min(axis=0), uv.max(axis=0)
    long, thick = high_u - low_u, high_v - low_v
    hull = shapely.convex_hull(shapely.multipoints(flat))
    bends = thick > _THICKEST or _footprint_share(uv, long * thick) < _FILLED
    if bends and hull.area > 0 and (curved := _curved(element, flat, top)):
        return curved
    if not (_THINNEST <= thick <= _THICKEST and long >= _SHORTEST):
        return []
    run = Run(direction, float(low_v + high_v) / 2, float(thick), [(float(low_u), float(high_u))])
    return [ModelWall(run, element, top)]


def _direction(flat: NDArray[np.float64]) -> Direction:
    """Along the longer side of the narrowest box about the points."""
    box = shapely.oriented_envelope(shapely.multipoints(flat))
    corners = shapely.get_coordinates(box)
    if len(corners) < 4:
        along = flat[np.argmax(np.hypot(*(flat - flat[0]).T))] - flat[0]
    else:
        sides = corners[1:3] - corners[0:2]
        along = max(sides, key=lambda side: float(np.hypot(*side)))
    length = float(np.hypot(*along)) or 1.0
    cosine, sine = float(along[0]) / length, float(along[1]) / length
    turn = math.atan2(sine, cosine) % math.pi
    turn = 0.0 if math.pi - turn < 1e-6 else turn
    return Direction(math.cos(turn), math.sin(turn))


def _footprint_share(uv: NDArray[np.float64], box: float) -> float:
    """How much of its box a footprint's corners fill, taken as one ring about their middle line."""
    if box <= 0:
        return 1.0
    spots = np.unique(np.round(uv, 4), axis=0)
    if len(spots) <= 6:
        return 1.0
    return float(shapely.concave_hull(shapely.multipoints(spots), ratio=0.2).area) / box


def _curved(element: Any, flat: NDArray[np.float64], top: float) -> list[ModelWall]:
    """A wall on a circle's arc: two radii about the centre that all corners lie on give its middle line."""
    spots = np.unique(np.round(flat, 5), axis=0)
    if len(spots) < 6:
        return []
    # x² + y² = 2ax + 2by + c by least squares gives the centre; the corners then lie near two radii.
    terms = np.column_stack([2 * spots, np.ones(len(spots))])
    centre = np.linalg.lstsq(terms, (spots**2).sum(axis=1), rcond=None)[0][:2]
    for _ in range(20):
        away = np.hypot(*(spots - centre).T)
        outer = away > (away.min() + away.max()) / 2
        inner_radius, outer_radius = away[~outer].mean(), away[outer].mean()
        wanted = np.where(outer, outer_radius, inner_radius)
        toward = (spots - centre) / away[:, None]
        step = np.linalg.lstsq(toward, away - wanted, rcond=None)[0]
        centre = centre + step
        if np.hypot(*step) < 1e-9:
            break
    away = np.hypot(*(spots - centre).T)
    thick = float(outer_radius - inner_radius)
    if np.abs(away - wanted).max() > 0.05 or not _THINNEST <= thick <= _THICKEST:
        return []
    return _chords(element, spots, centre, (inner_radius + outer_radius) / 2, thick, top)


def _chords(
    element: Any, spots: NDArray[np.float64], centre: NDArray[np.float64], radius: float, thick: float, top: float
) -> list[ModelWall]:
    angles = np.sort(np.arctan2(spots[:, 1] - centre[1], spots[:, 0] - centre[0]))
    gaps = np.diff(np.append(angles, angles[0] + math.tau))
    widest = int(np.argmax(gaps))
    start, sweep = float(angles[(widest + 1) % len(angles)]), math.tau - float(gaps[widest])
    steps = max(1, math.ceil(sweep / _CHORD))
    made = []
    for k in range(steps):
        turns = start + sweep * k / steps, start + sweep * (k + 1) / steps
        a, b = (centre + radius * np.array([math.cos(turn), math.sin(turn)]) for turn in turns)
        length = float(np.hypot(*(b - a)))
        direction = Direction(float(b[0] - a[0]) / length, float(b[1] - a[1]) / length)
        (low, v), (high, _) = direction.uv((float(a[0]), float(a[1]))), direction.uv((float(b[0]), float(b[1])))
        made.append(ModelWall(Run(direction, v, thick, [(low, high)]), element, top))
    return made
