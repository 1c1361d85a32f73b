"""Bundles: the stretches that home runs share, with how many cables lie in each, for the drawing and for the holes."""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from app.wiring.pulls import Pull
from app.wiring.routes.way import Spot

SAME = 1e-4  # ft: stretches no farther apart lie on one another


@dataclass(frozen=True)
class Bundle:
    """A straight stretch at one height (or a vertical one) and how many pulls of each cable lie in it."""

    level: str | None
    start: Spot
    end: Spot
    cables: tuple[tuple[str, int], ...]

    @property
    def count(self) -> int:
        """Cables in the bundle."""
        return sum(count for _, count in self.cables)


@dataclass(frozen=True)
class _Stretch:
    start: Spot
    end: Spot
    cable: str


def bundles_of(pulls: Sequence[Pull], run_heights: Sequence[tuple[str, float]]) -> list[Bundle]:
    """The level stretches at run height of all pulls, cut wherever the number of cables changes.

    ``run_heights`` are level ids with their run heights above the datum: a bundle is of the level at whose height it
    lies.
    """
    stretches = [stretch for pull in pulls if pull.way for stretch in _level_stretches(pull)]
    lines: dict[tuple[int, int, int, int], list[tuple[float, float, _Stretch]]] = defaultdict(list)
    for stretch in stretches:
        key, first, last = _on_line(stretch)
        lines[key].append((first, last, stretch))
    heights = {round(height / SAME): level for level, height in run_heights}
    return [
        Bundle(heights.get(round(start[2] / SAME)), start, end, cables)
        for line in lines.values()
        for start, end, cables in _cut(line)
    ]


def _level_stretches(pull: Pull) -> list[_Stretch]:
    assert pull.way is not None
    corners = pull.way.corners
    return [
        _Stretch(here, there, pull.cable)
        for here, there in pairwise(corners)
        if abs(here[2] - there[2]) <= SAME and math.dist(here, there) > SAME
    ]


def _on_line(stretch: _Stretch) -> tuple[tuple[int, int, int, int], float, float]:
    """The line that a stretch lies on (height, direction and offset, rounded), and where on it the stretch runs."""
    (x, y, z), (u, v, _) = stretch.start, stretch.end
    length = math.hypot(u - x, v - y)
    dx, dy = (u - x) / length, (v - y) / length
    if dx < -1e-6 or (abs(dx) <= 1e-6 and dy < 0):
        dx, dy = -dx, -dy
    first, last = sorted((x * dx + y * dy, u * dx + v * dy))
    key = (round(z / SAME), round(dx / 1e-5), round(dy / 1e-5), round((y * dx - x * dy) / 1e-3))
    return key, first, last


def _cut(line: Sequence[tuple[float, float, _Stretch]]) -> list[tuple[Spot, Spot, tuple[tuple[str, int], ...]]]:
    """The stretches of one line cut where cables join or leave, walked once along it."""
    base = line[0][2]
    (x, y, z), (u, v, _) = base.start, base.end
    length = math.hypot(u - x, v - y)
    dx, dy = (u - x) / length, (v - y) / length
    turn = 1.0 if dx > 1e-6 or (abs(dx) <= 1e-6 and dy > 0) else -1.0
    dx, dy = dx * turn, dy * turn
    origin = x * dx + y * dy

    def spot(along: float) -> Spot:
        return (round(x + (along - origin) * dx, 6), round(y + (along - origin) * dy, 6), round(z, 6))

    events = sorted(
        [(first, 1, stretch.cable) for first, _, stretch in line]
        + [(last, -1, stretch.cable) for _, last, stretch in line]
    )
    lying: Counter[str] = Counter()
    cut: list[tuple[Spot, Spot, tuple[tuple[str, int], ...]]] = []
    since = events[0][0]
    for along, change, cable in events:
        if along > since + SAME:
            cables = tuple(sorted((name, count) for name, count in lying.items() if count))
            if cables:
                cut.append((spot(since), spot(along), cables))
            since = along
        lying[cable] += change
    return cut
