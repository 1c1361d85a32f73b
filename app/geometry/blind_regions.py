"""From where a convex body hides some of a pane: the slice, at the eye's height, of K ⊕ cone(K − A), for many pairs.

All is told in the pane's own frame: ``u`` along the glass, ``c`` off its plane on the eye's side, heights above the
floor. What comes back are spots whose convex hull is the region, cut short far behind any eye's reach.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, fields

import numpy as np

from app.geometry.bodies import NEXT_CORNER, BoolArray, FloatArray, IntArray
from app.geometry.eye import TOUCH

_FAN = np.linspace(0.0, 1.0, 9)
_CUT_CORNERS = 5  # a convex footprint of four corners has no more when a line has cut it


@dataclass(frozen=True, slots=True)
class Hiders:
    """Bodies before panes, a row (k,) a pair: ``plan`` (k, 4, 2) of (u, c), which may reach behind the pane, ``base``
    and ``top`` of the body; ``width``, ``sill`` and ``head`` of the pane; the eye's height ``z`` and its ``reach``.
    """

    plan: FloatArray
    base: FloatArray
    top: FloatArray
    width: FloatArray
    sill: FloatArray
    head: FloatArray
    z: FloatArray
    reach: FloatArray

    def only(self, which: BoolArray) -> Hiders:
        """Some of the rows."""
        return Hiders(*[getattr(self, column.name)[which] for column in fields(self)])


def blind_spots(hiders: Hiders) -> tuple[FloatArray, IntArray]:
    """Spots (m, 2) of (u, c) whose hulls are the blind regions, and the row (m,) that each belongs to, in order.

    A row has no spot where its body hides nothing from that height.
    """
    low, high = np.minimum(hiders.sill, hiders.z), np.maximum(hiders.head, hiders.z)
    upright = (hiders.base <= low) & (hiders.top >= high)
    spots, rows = [], []
    for some, spots_of in ((upright, _behind_upright), (~upright, _behind_others)):
        if some.any():
            found, real = spots_of(hiders.only(some))
            spots.append(found[real])
            rows.append(np.flatnonzero(some)[np.nonzero(real)[0]])
    if not spots:
        return np.empty((0, 2)), np.empty(0, dtype=np.int64)
    row = np.concatenate(rows)
    order = np.argsort(row, kind="stable")
    return np.concatenate(spots)[order], row[order]


def _behind_upright(hiders: Hiders) -> tuple[FloatArray, BoolArray]:
    """Spots (k, n, 2) for bodies that no sight line passes above or below; all of them count."""
    plan = _cut_at_pane(hiders.plan)
    spots = np.concatenate([plan, _far_images(plan, _from_glass(plan, hiders), hiders.reach)], axis=1)
    return spots, np.ones(spots.shape[:2], dtype=bool)


def _behind_others(hiders: Hiders) -> tuple[FloatArray, BoolArray]:
    """Spots (k, n, 2) for bodies that some sight lines pass above or below, and which of them count."""
    plan = _cut_at_pane(hiders.plan)
    away = _from_glass(plan, hiders)
    stands = (hiders.base < hiders.z) & (hiders.z < hiders.top)
    crossings, met = _crossings(plan, away, hiders)
    near = np.concatenate([plan, crossings], axis=1)
    real = np.concatenate([np.broadcast_to(stands[:, None], plan.shape[:2]), met], axis=1)
    # The first spot is one that counts, so that the fan of far images may start there.
    first = near[np.arange(len(near)), real.argmax(axis=1)]
    near, real = np.concatenate([first[:, None], near], axis=1), np.column_stack([real.any(axis=1), real])
    fan = np.broadcast_to(real[:, :1], (len(real), len(_FAN)))
    far = np.concatenate([real, real, fan], axis=1) & _endless(hiders)[:, None]
    images = _far_images(near, away, hiders.reach)
    return np.concatenate([near, images], axis=1), np.concatenate([real, far], axis=1)


def _cut_at_pane(plan: FloatArray) -> FloatArray:
    """Corners (k, 5, 2) of the part of each footprint (k, 4, 2) at c ≥ 0; one with fewer corners repeats one."""
    after = plan[:, NEXT_CORNER]
    c, next_c = plan[..., 1], after[..., 1]
    crosses = c * next_c < 0
    share = c / np.where(crosses, c - next_c, 1.0)
    crossing = np.stack([plan[..., 0] + share * (after[..., 0] - plan[..., 0]), np.zeros_like(c)], axis=2)
    corners, real = np.concatenate([plan, crossing], axis=1), np.concatenate([c >= 0, crosses], axis=1)
    kept = np.argsort(~real, axis=1, kind="stable")[:, :_CUT_CORNERS]
    kept = np.where(np.take_along_axis(real, kept, axis=1), kept, kept[:, :1])
    cut: FloatArray = np.take_along_axis(corners, kept[..., None], axis=1)
    return cut


def _from_glass(plan: FloatArray, hiders: Hiders) -> FloatArray:
    """Ways in plan (k, 2n, 2) from both ends of the glass to the corners (k, n, 2) of a body."""
    end = np.stack([hiders.width, np.zeros_like(hiders.width)], axis=1)
    return np.concatenate([plan, plan - end[:, None]], axis=1)


def _crossings(plan: FloatArray, away: FloatArray, hiders: Hiders) -> tuple[FloatArray, BoolArray]:
    """Where rays that leave the corners of a body away from the glass pass the eye's height, and which of them do.

    A ray leaves any corner, at base or top, on any way from any point of the glass to any corner, and rises as much as
    that way does. Of the rays of one start and one way in plan only those that go least and most far count in a hull.
    """
    ends = np.stack([hiders.base, hiders.top], axis=1)
    rise = (ends[:, :, None] - np.stack([hiders.sill, hiders.head], axis=1)[:, None]).reshape(-1, 1, 4)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = (hiders.z[:, None] - ends)[:, :, None] / rise
    goes = (share >= 0) & np.isfinite(share)
    met = goes.any(axis=2)
    least = np.where(met, np.where(goes, share, np.inf).min(axis=2), 0.0)
    most = np.where(met, np.where(goes, share, 0.0).max(axis=2), 0.0)
    shares = np.concatenate([least, most], axis=1)
    spots = plan[:, :, None, None] + away[:, None, :, None] * shares[:, None, None, :, None]
    counts = np.broadcast_to(np.concatenate([met, met], axis=1)[:, None, None], spots.shape[:-1])
    return spots.reshape(len(plan), -1, 2), counts.reshape(len(plan), -1)


def _endless(hiders: Hiders) -> BoolArray:
    """Whether the region has no far end: some way from glass to body is level, or one rises and another falls."""
    ways = [end - edge for end in (hiders.base, hiders.top) for edge in (hiders.sill, hiders.head)]
    level = (np.abs(ways) <= TOUCH).any(axis=0)
    endless: BoolArray = level | (np.max(ways, axis=0) > TOUCH) & (np.min(ways, axis=0) < -TOUCH)
    return endless


def _far_images(corners: FloatArray, away: FloatArray, reach: FloatArray) -> FloatArray:
    """Images (k, 2n + 9, 2) of corners (k, n, 2) far off in the outermost of some ways (k, m, 2).

    Between those two one corner's images are enough: they only keep the far end from being cut short.
    """
    turns = np.arctan2(away[..., 1], away[..., 0])
    # They lead away from the glass, from 0 to π, rounding errors aside; a corner on the glass gives no way.
    turns = np.where(turns < -1e-9, turns + 2 * math.pi, np.abs(turns))
    leads = np.hypot(away[..., 0], away[..., 1]) > TOUCH
    first, last = np.where(leads, turns, np.inf).min(axis=1), np.where(leads, turns, -np.inf).max(axis=1)
    fan = first[:, None] + (last - first)[:, None] * _FAN
    far = 4 * reach[:, None, None] * np.stack([np.cos(fan), np.sin(fan)], axis=2)
    return np.concatenate([corners + far[:, :1], corners + far[:, -1:], corners[:, :1] + far], axis=1)
