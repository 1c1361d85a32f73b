"""A straight course in plan, such as a wall's centreline or a pane: places along it and to either side, in feet."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.drawing.view import Spot


@dataclass(frozen=True)
class Course:
    """From ``start`` to ``end``; ``along`` is the unit vector between them."""

    start: Spot
    end: Spot
    length: float
    along: Spot

    @classmethod
    def of(cls, ends: Sequence[Sequence[float]]) -> Course:
        """The course between two points."""
        (ax, ay), (bx, by) = ends
        length = math.hypot(bx - ax, by - ay) or 1e-9
        return cls((ax, ay), (bx, by), length, ((bx - ax) / length, (by - ay) / length))

    def at(self, u: float, aside: float = 0.0) -> Spot:
        """The point ``u`` feet from the start and ``aside`` feet to the left of the course."""
        (x, y), (dx, dy) = self.start, self.along
        return (x + u * dx - aside * dy, y + u * dy + aside * dx)

    def aside(self, point: Sequence[float]) -> float:
        """How far a point lies to the left of the course, in feet."""
        (x, y), (dx, dy) = self.start, self.along
        return dx * (point[1] - y) - dy * (point[0] - x)

    def bar(self, span: Sequence[float], half: float, least: float = 0.0) -> tuple[Spot, ...]:
        """The corners of a bar of half width ``half`` over a span of the course, never shorter than ``least`` feet."""
        low, high = span
        if high - low < least:
            middle = (low + high) / 2
            low, high = middle - least / 2, middle + least / 2
        return (self.at(low, -half), self.at(high, -half), self.at(high, half), self.at(low, half))
