"""Where a sight line may start: a point clear of solid bodies, moved a hair off the surfaces that it touches.

A detector is often drawn exactly on a wall's face or in a corner; rounding would put it now inside, now outside.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from app.geometry.bodies import NEXT_CORNER, Bodies, FloatArray

TOUCH = 1e-6  # ft: nearer to a surface than this is on it
_STEPS = 8


@dataclass(frozen=True, slots=True)
class Eye:
    """A point of view: plan coordinates and height above the floor, in feet."""

    x: float
    y: float
    z: float


def clear_eye(bodies: Bodies, eye: Eye, ceiling: float) -> Eye | None:
    """The eye moved off every surface that it touches, or None where it lies inside a solid body.

    A body that reaches the ceiling holds an eye on the ceiling above it: nothing can be mounted in a top plate.
    """
    return clear_eyes(bodies, [eye], ceiling)[0]


def clear_eyes(bodies: Bodies, eyes: Sequence[Eye], ceiling: float) -> list[Eye | None]:
    """The same for many eyes; most touch nothing, which one look at the index tells of all."""
    places = np.array([(eye.x, eye.y, eye.z) for eye in eyes]).reshape(-1, 3)
    low, high = places[:, :2] - 10 * TOUCH, places[:, :2] + 10 * TOUCH
    which, body = bodies.tree.query(shapely.box(*low.T, *high.T))
    if not len(body):
        return list(eyes)
    z = places[which, 2]
    holds = (bodies.base[body] < z - TOUCH) & (
        (z < bodies.top[body] - TOUCH) | (bodies.top[body] >= ceiling - TOUCH) & (z <= ceiling + TOUCH)
    )
    which, body = which[holds], body[holds]
    clear: list[Eye | None] = list(eyes)
    for index in np.unique(which).tolist():
        clear[index] = _moved_off(bodies.corners[body[which == index]], eyes[index])
    return clear


def _moved_off(corners: FloatArray, eye: Eye) -> Eye | None:
    """An eye moved off the prisms (n, 4, 2) that it touches, or None where it lies inside one."""
    normals, offsets = _outward(corners)
    spot = np.array([eye.x, eye.y])
    for _ in range(_STEPS):
        beyond = normals @ spot - offsets
        nearest = beyond.max(axis=1)
        if nearest.min() >= TOUCH:
            return Eye(float(spot[0]), float(spot[1]), eye.z)
        if nearest.min() <= -TOUCH:
            return None
        body = int(np.argmin(nearest))
        side = int(np.argmax(beyond[body]))
        spot = spot + normals[body, side] * (2 * TOUCH - beyond[body, side])
    return None


def body_holding(bodies: Bodies, eye: Eye, ceiling: float) -> str | None:
    """The id of the wall or obstruction inside which an eye lies, or None."""
    if clear_eye(bodies, eye, ceiling) is not None:
        return None
    near = bodies.near(eye.x, eye.y, 10 * TOUCH)
    normals, offsets = _outward(bodies.corners[near])
    depth = (normals @ np.array([eye.x, eye.y]) - offsets).max(axis=1)
    return bodies.owner[int(near[int(np.argmin(depth))])]


def _outward(corners: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Outward unit normals (n, 4, 2) and offsets (n, 4) of counter-clockwise prisms; sides of no length never win."""
    edge = corners[:, NEXT_CORNER] - corners
    length = np.hypot(edge[..., 0], edge[..., 1])
    real = length > 1e-12
    safe = np.where(real, length, 1.0)
    normals = np.stack([edge[..., 1], -edge[..., 0]], axis=-1) / safe[..., None]
    normals[~real] = 0.0
    offsets = np.einsum("nij,nij->ni", normals, corners)
    offsets[~real] = np.inf
    return normals, offsets
