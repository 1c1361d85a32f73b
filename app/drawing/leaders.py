"""Leaders from one glass-break detector to the glass it reaches or nearly reaches, each with its farthest distance.

A pane counts as nearly reached up to 1.5 × the range where no wall stands between, so that a designer sees how much
is missing; the exact answer is the check's, this only chooses what to draw.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np

from app.drawing.view import Spot
from app.geometry.bodies import BoolArray, FloatArray
from app.plan.devices import height_of, range_of
from app.plan.model import Device, Level
from app.plan.practice import Practice

NEARLY = 1.5
_TRIED = np.array([0.02, 0.25, 0.5, 0.75, 0.98])  # shares of a pane's length


@dataclass(frozen=True)
class Leader:
    """A line from a detector to a pane's farthest end; ``feet`` is slant to its farthest corner, ``over`` the part of
    it beyond the range (0 or less within it).
    """

    pane: str
    start: Spot
    end: Spot
    feet: float
    over: float


class Glass(NamedTuple):
    """Where the panes of a level are: ``ends`` (n, 2, 2) in plan, sills and heads as ``edges`` (n, 2), in feet."""

    ends: FloatArray
    edges: FloatArray

    @staticmethod
    def of(panes: Sequence[Mapping[str, Any]]) -> Glass:
        """The places that the answers of panes say."""
        ends = np.array([pane["segment"] for pane in panes], dtype=float).reshape(-1, 2, 2)
        return Glass(ends, np.array([(pane["sill"], pane["head"]) for pane in panes], dtype=float).reshape(-1, 2))


class Centrelines(NamedTuple):
    """Walls as lines in plan (m, 2, 2), and the corners of their boxes, (m, 2) each."""

    ends: FloatArray
    low: FloatArray
    high: FloatArray

    @staticmethod
    def of(ends: FloatArray) -> Centrelines:
        """Some lines with their boxes."""
        return Centrelines(ends, ends.min(axis=1), ends.max(axis=1))


def leaders_of(
    device: Device,
    level: Level,
    panes: Sequence[Mapping[str, Any]],
    glass: Glass,
    practice: Practice,
    walls_at: Callable[[float], Centrelines],
) -> list[Leader]:
    """The leaders of one detector, those over the range first, then the longest first.

    ``glass`` is where the panes are, ``walls_at`` gives, by height, what ``walls_in_the_way`` does; a drag keeps both.
    """
    reach, height = range_of(device, practice), height_of(device, level, practice)
    chosen: list[Leader] = []
    unsure: list[tuple[Mapping[str, Any], Leader]] = []
    for pane in _candidates(panes, glass, device, height, reach * NEARLY):
        end, feet = farthest_corner(device.at, height, pane)
        leader = Leader(pane["id"], device.at, end, feet, feet - reach)
        if pane["fractions"].get(device.id, 0.0) > 0:
            chosen.append(leader)
        elif reach < feet <= reach * NEARLY:
            unsure.append((pane, leader))
    if unsure:
        ends = np.array([pane["segment"] for pane, _ in unsure])
        sight = in_sight(device.at, ends, _near(walls_at(height), device.at, reach * NEARLY))
        chosen += [leader for (_, leader), clear in zip(unsure, sight, strict=True) if clear]
    return sorted(chosen, key=lambda leader: (leader.over <= 1e-9, -leader.feet))


def _candidates(
    panes: Sequence[Mapping[str, Any]], glass: Glass, device: Device, height: float, most: float
) -> list[Mapping[str, Any]]:
    """The panes that a device reaches or whose farthest corner is at ``most`` so far away, weighed all at once."""
    ends, drops = glass.ends - np.array(device.at), glass.edges - height
    square = (ends**2).sum(axis=2).max(axis=1) + (drops**2).max(axis=1)
    close = (square <= (most + 1e-6) ** 2).tolist()
    return [pane for pane, near in zip(panes, close, strict=True) if near or device.id in pane["fractions"]]


def _near(walls: Centrelines, at: Sequence[float], most: float) -> FloatArray:
    """The walls (m, 2, 2) that come into the square of half side ``most`` about a point."""
    spot = np.array(at)
    close: FloatArray = walls.ends[((walls.low <= spot + most) & (walls.high >= spot - most)).all(axis=1)]
    return close


def farthest_corner(at: Sequence[float], height: float, pane: Mapping[str, Any]) -> tuple[Spot, float]:
    """The end of a pane in plan below or above its farthest corner, and the slant distance to it in feet."""
    x, y = at
    (ax, ay), (bx, by) = pane["segment"]
    to_a, to_b = math.hypot(ax - x, ay - y), math.hypot(bx - x, by - y)
    end = (ax, ay) if to_a > to_b else (bx, by)
    return end, math.hypot(max(to_a, to_b), max(abs(pane["sill"] - height), abs(pane["head"] - height)))


def walls_in_the_way(level: Level, height: float) -> Centrelines:
    """Centrelines of what stands to the detector's height, with cased openings left out."""
    gaps: dict[str, list[tuple[float, float]]] = {}
    for opening in level.openings:
        if opening.kind == "cased":
            gaps.setdefault(opening.wall, []).append((opening.offset, opening.end))
    lines = []
    for wall in level.walls:
        if wall.height is not None and wall.height < min(height, level.ceiling):
            continue
        here = 0.0
        for low, high in (*sorted(gaps.get(wall.id, ())), (wall.length, wall.length)):
            if low > here:
                lines.append((wall.along(here), wall.along(min(low, wall.length))))
            here = high
    return Centrelines.of(np.array(lines).reshape(-1, 2, 2))


def in_sight(at: Sequence[float], panes: FloatArray, walls: FloatArray) -> BoolArray:
    """For each pane (n, 2, 2) whether a line in plan runs free of walls (m, 2, 2) to any of its points tried."""
    eye = np.array(at)
    # The last hundredth is left out: there stands the pane's own wall.
    points = panes[:, None, 0] + _TRIED[:, None] * (panes[:, 1] - panes[:, 0])[:, None]
    ray = (0.99 * (points - eye))[:, :, None]
    side, to_wall = walls[:, 1] - walls[:, 0], walls[:, 0] - eye
    cross = ray[..., 0] * side[:, 1] - ray[..., 1] * side[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        t = (to_wall[:, 0] * side[:, 1] - to_wall[:, 1] * side[:, 0]) / cross
        v = (to_wall[:, 0] * ray[..., 1] - to_wall[:, 1] * ray[..., 0]) / cross
    hit = (t > 1e-9) & (t < 1) & (v >= 0) & (v <= 1)
    clear: BoolArray = (~hit.any(axis=2)).any(axis=1)
    return clear
