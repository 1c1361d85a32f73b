"""The shadows that bodies cast on the planes of panes, seen from one eye or from many.

The shadow of a body is the projection from the eye of the part that lies between eye and pane plane. Rows are pairs of
an eye and a pane, so one pass over arrays serves all; corners come first in the arrays, for sums over few of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from operator import attrgetter

import numpy as np

from app.geometry.bodies import NEXT_CORNER, Bodies, BoolArray, FloatArray, IntArray
from app.geometry.eye import TOUCH, Eye
from app.geometry.panes import Panes

SAME_LINE = 0.02  # ft: walls whose both ends lie this near to the pane's wall line are no blockers
IN_PLANE = 1e-5  # ft: an eye this near to a pane's plane sees it edge-on
MERGE = 1e-9  # ft: what is thinner than this is nothing
SHORT = 1e-7  # share of the eye's distance left off, so that projections stay finite


@dataclass(frozen=True, slots=True)
class Frame:
    """Eyes in the own frames of the panes near them, a row (p,) a pair: ``u`` along the pane, ``side`` and ``h`` of its
    plane, the eye's height ``z`` and its ``reach``.
    """

    eye: IntArray
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
    z: FloatArray
    reach: FloatArray


_columns = attrgetter(*Frame.__slots__)


@dataclass(frozen=True, slots=True)
class Shadows:
    """Shadows of bodies on the planes of panes, one (k,) a ``row`` of a frame and a body: ``low`` and ``high`` ends
    along the pane in feet, ``full`` where the shadow has full height, and the corners ``u`` (12, k), ``stretch`` =
    h / (h − c), ``real`` they are projected from.
    """

    row: IntArray
    body: IntArray
    low: FloatArray
    high: FloatArray
    full: BoolArray
    u: FloatArray
    stretch: FloatArray
    real: BoolArray


def eyes_before_panes(panes: Panes, places: FloatArray, eye: IntArray, near: IntArray) -> Frame:
    """The eyes at ``places`` (n, 4) of x, y, z and reach in the frames of those ``near`` panes that they reach."""
    origin, direction, width = panes.origin[near], panes.direction[near], panes.width[near]
    sill, head = panes.sill[near], panes.head[near]
    z, reach = places[eye, 2], places[eye, 3]
    offset = places[eye, :2] - origin
    u = offset[:, 0] * direction[:, 0] + offset[:, 1] * direction[:, 1]
    across = direction[:, 0] * offset[:, 1] - direction[:, 1] * offset[:, 0]
    h = np.abs(across)
    off_u = np.maximum(0.0, np.maximum(-u, u - width))
    off_z = np.maximum(0.0, np.maximum(sill - z, z - head))
    far_u = np.maximum(np.abs(u), np.abs(u - width))
    far_z = np.maximum(np.abs(sill - z), np.abs(head - z))
    farthest = np.sqrt(far_u**2 + far_z**2 + h**2)
    side = np.where(across < 0, -1.0, 1.0)
    within = off_u**2 + off_z**2 + h**2 < reach**2
    whole = Frame(eye, near, origin, direction, width, sill, head, u, side, h, farthest, z, reach)
    return only_rows(whole, within)


def frame_of_one(panes: Panes, pane: int, eye: Eye, reach: float) -> Frame:
    """The frame of one eye and one pane; no row where the pane is out of reach or the eye lies in its plane."""
    place, only = np.array([[eye.x, eye.y, eye.z, reach]]), np.zeros(1, dtype=np.int64)
    frame = eyes_before_panes(panes, place, only, np.array([pane]))
    return only_rows(frame, frame.h >= IN_PLANE)


def only_rows(frame: Frame, keep: BoolArray | slice) -> Frame:
    """Some rows of a frame."""
    return Frame(*[column[keep] for column in _columns(frame)])


def cast_shadows(frame: Frame, bodies: Bodies, row: IntArray, body: IntArray) -> Shadows:
    """The shadow that each ``body`` (k,) casts on the plane of the pane of its ``row`` (k,) of a frame."""
    low, high = np.minimum(frame.sill, frame.z), np.maximum(frame.head, frame.z)
    tall = (bodies.base[body] < high[row]) & (bodies.top[body] > low[row])
    row, body = row[tall], body[tall]
    u, c = _along_and_across(frame, row, bodies.corners_first[:, :, body])
    between = (c.max(axis=0) > TOUCH) & (c.min(axis=0) < frame.h[row] - TOUCH)
    row, body, u, c = row[between], body[between], u[:, between], c[:, between]
    # A comparison with NaN, an obstruction's centreline, is never true.
    off_line = ~(np.abs(_along_and_across(frame, row, bodies.lines_first[:, :, body])[1]).max(axis=0) <= SAME_LINE)
    row, body, u, c = row[off_line], body[off_line], u[:, off_line], c[:, off_line]
    h = frame.h[row]
    u, c, real = _clipped(u, c, h)
    stretch = h / (h - c)
    u = frame.u[row] + (u - frame.u[row]) * stretch
    ends = np.where(real, u, np.inf).min(axis=0), np.where(real, u, -np.inf).max(axis=0)
    falls = (ends[1] > MERGE) & (ends[0] < frame.width[row] - MERGE) & (ends[1] - ends[0] > MERGE)
    row, body = row[falls], body[falls]
    full = (bodies.base[body] <= low[row] + MERGE) & (bodies.top[body] >= high[row] - MERGE)
    return Shadows(row, body, ends[0][falls], ends[1][falls], full, u[:, falls], stretch[:, falls], real[:, falls])


def _along_and_across(frame: Frame, row: IntArray, points: FloatArray) -> tuple[FloatArray, FloatArray]:
    """Points (2, n, k) in plan along each row's pane and off its plane, the eye's side positive: (n, k) each."""
    x, y = points[0] - frame.origin[row, 0], points[1] - frame.origin[row, 1]
    dx, dy, side = frame.direction[row, 0], frame.direction[row, 1], frame.side[row]
    return dx * x + dy * y, side * (dx * y - dy * x)


def _clipped(u: FloatArray, c: FloatArray, h: FloatArray) -> tuple[FloatArray, FloatArray, BoolArray]:
    """Corners (12, k) of each footprint cut to 0 ≤ c ≤ h: its own four, then its crossings of both lines."""
    limit = h * (1 - SHORT)
    next_u, next_c = u[NEXT_CORNER], c[NEXT_CORNER]
    all_u, all_c, real = [u], [c], [(c >= 0) & (c <= limit)]
    for line in (np.zeros_like(limit), limit):
        crosses = (c - line) * (next_c - line) < 0
        share = (line - c) / np.where(crosses, next_c - c, 1.0)
        all_u.append(np.where(crosses, u + share * (next_u - u), 0.0))
        all_c.append(np.where(crosses, line, 0.0))
        real.append(crosses)
    whole = np.concatenate(real)
    return np.concatenate(all_u), np.where(whole, np.concatenate(all_c), 0.0), whole


def veil(shadows: Shadows, index: int, bodies: Bodies, z: float) -> FloatArray:
    """Corners (n, 2) of (u, z), not in order, whose convex hull is one shadow on the pane's plane."""
    real = shadows.real[:, index]
    u, stretch = shadows.u[real, index], shadows.stretch[real, index]
    body = shadows.body[index]
    low, high = z + (bodies.base[body] - z) * stretch, z + (bodies.top[body] - z) * stretch
    return np.column_stack([np.concatenate([u, u]), np.concatenate([low, high])])
