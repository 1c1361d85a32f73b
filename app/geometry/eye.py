"""Where a sight line may start: a point clear of solid bodies, moved a hair off the surfaces that it touches.

A detector is often drawn exactly on a wall's face or in a corner; rounding would put it now inside, now outside.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from app.geometry.bodies import Bodies, FloatArray

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
    near = bodies.near(eye.x, eye.y, 10 * TOUCH)
    holds = (bodies.base[near] < eye.z - TOUCH) & (
        (eye.z < bodies.top[near] - TOUCH) | (bodies.top[near] >= ceiling - TOUCH) & (eye.z <= ceiling + TOUCH)
    )
    near = near[holds]
    if not len(near):
        return eye
    corners = bodies.corners[near]
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
    edge = np.roll(corners, -1, axis=1) - corners
    length = np.hypot(edge[..., 0], edge[..., 1])
    real = length > 1e-12
    safe = np.where(real, length, 1.0)
    normals = np.stack([edge[..., 1], -edge[..., 0]], axis=-1) / safe[..., None]
    normals[~real] = 0.0
    offsets = np.einsum("nij,nij->ni", normals, corners)
    offsets[~real] = np.inf
    return normals, offsets
