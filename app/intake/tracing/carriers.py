"""Strokes gathered on carriers: the endless lines they lie on, by direction, with the stretches that are drawn.

What is drawn twice or in pieces becomes one stretch, so that pairing sees each face once. Lengths are feet.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

import numpy as np

from app.intake.strokes import Spot, Stroke

Interval = tuple[float, float]

SHORTEST = 0.01  # ft: less than an eighth of an inch is dust
_ASIDE = 0.02  # ft: what a stroke may stray from its carrier at its ends
_WIDEST_TURN = math.radians(2)
_SAME_LINE = 0.012  # ft: lines nearer than this are one line drawn twice
_TOUCHING = 0.012


@dataclass(frozen=True)
class Direction:
    """A direction in plan as its cosine and sine; ``u`` runs along it, ``v`` to its left."""

    cosine: float
    sine: float

    def uv(self, spot: Spot) -> Spot:
        """A point in the direction's own axes."""
        x, y = spot
        return x * self.cosine + y * self.sine, y * self.cosine - x * self.sine

    def xy(self, u: float, v: float) -> Spot:
        """The plan's point of the direction's axes."""
        return u * self.cosine - v * self.sine, u * self.sine + v * self.cosine

    def sine_to(self, other: Direction) -> float:
        """The sine of the angle to another direction, counter-clockwise."""
        return self.cosine * other.sine - self.sine * other.cosine


@dataclass
class Carrier:
    """A line ``v`` = constant with its drawn stretches, in order and apart."""

    v: float
    drawn: list[Interval] = field(default_factory=list)


def carriers_of(strokes: Sequence[Stroke]) -> list[tuple[Direction, list[Carrier]]]:
    """Each direction with its carriers in the order of ``v``."""
    kept = [stroke for stroke in strokes if stroke.length >= SHORTEST]
    if not kept:
        return []
    ends = np.array([[stroke.a, stroke.b] for stroke in kept])
    along = ends[:, 1] - ends[:, 0]
    length = np.hypot(along[:, 0], along[:, 1])
    angle = np.arctan2(along[:, 1], along[:, 0]) % math.pi
    gathered: list[tuple[Direction, list[Carrier]]] = []
    for turn, members in _by_direction(angle, length):
        direction = Direction(math.cos(turn), math.sin(turn))
        u = ends[members, :, 0] * direction.cosine + ends[members, :, 1] * direction.sine
        v = ends[members, :, 1] * direction.cosine - ends[members, :, 0] * direction.sine
        gathered.append((direction, _on_lines(u, v.mean(axis=1), length[members])))
    return gathered


def _by_direction(angle: np.ndarray, length: np.ndarray) -> list[tuple[float, list[int]]]:
    """Strokes by direction: the longest found each direction, shorter ones join one that they do not stray from."""
    turns: list[float] = []
    members: list[list[int]] = []
    known = np.empty(0)
    for index in np.argsort(-length, kind="stable").tolist():
        slack = min(max(_ASIDE / length[index], 1e-4), _WIDEST_TURN)
        if len(turns):
            off = np.abs(known - angle[index])
            off = np.minimum(off, math.pi - off)
            nearest = int(np.argmin(off))
            if off[nearest] <= slack:
                members[nearest].append(index)
                continue
        turns.append(float(angle[index]))
        members.append([index])
        known = np.array(turns)
    return list(zip(turns, members, strict=True))


def _on_lines(u: np.ndarray, v: np.ndarray, length: np.ndarray) -> list[Carrier]:
    lines: list[Carrier] = []
    order = np.argsort(v, kind="stable")
    first = 0
    for last in range(1, len(order) + 1):
        if last < len(order) and v[order[last]] - v[order[first]] <= _SAME_LINE:
            continue
        group = order[first:last]
        place = float(np.average(v[group], weights=length[group]))
        lines.append(Carrier(place, joined((float(min(ends)), float(max(ends))) for ends in u[group])))
        first = last
    return lines


def joined(intervals: Iterable[Interval], gap: float = _TOUCHING) -> list[Interval]:
    """The union of intervals, those within ``gap`` of each other made one."""
    made: list[Interval] = []
    for start, end in sorted(intervals):
        if made and start <= made[-1][1] + gap:
            made[-1] = (made[-1][0], max(made[-1][1], end))
        else:
            made.append((start, end))
    return made


def common(first: Sequence[Interval], second: Sequence[Interval]) -> list[Interval]:
    """What two ordered lists of intervals share."""
    shared: list[Interval] = []
    i = j = 0
    while i < len(first) and j < len(second):
        start, end = max(first[i][0], second[j][0]), min(first[i][1], second[j][1])
        if end > start:
            shared.append((start, end))
        if first[i][1] < second[j][1]:
            i += 1
        else:
            j += 1
    return shared


def less(whole: Sequence[Interval], taken: Sequence[Interval]) -> list[Interval]:
    """What is left of an ordered list of intervals when others are taken away."""
    left: list[Interval] = []
    for start, end in whole:
        for gone_from, gone_to in sorted(taken):
            if gone_to <= start or gone_from >= end:
                continue
            if gone_from > start:
                left.append((start, gone_from))
            start = max(start, gone_to)
            if start >= end:
                break
        if start < end:
            left.append((start, end))
    return left
