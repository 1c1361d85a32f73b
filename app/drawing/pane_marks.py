"""The marks of the proof on glass: a check for covered, a triangle for partly, a cross for not covered.

Shapes stand in a box from -1 to 1 with y downward; the overlay, the sheet and the legend draw the same ones.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from app.drawing.view import Spot, line_through

_MARKS: Mapping[str, tuple[tuple[Spot, ...], ...]] = {
    "covered": (((-0.9, 0.05), (-0.25, 0.75), (0.95, -0.85)),),
    "partial": (((0.0, -0.9), (0.95, 0.8), (-0.95, 0.8), (0.0, -0.9)), ((0.0, -0.35), (0.0, 0.45))),
    "uncovered": (((-0.8, -0.8), (0.8, 0.8)), ((-0.8, 0.8), (0.8, -0.8))),
}

STATUS_WORDS: Mapping[str, str] = {"covered": "covered", "partial": "partly covered", "uncovered": "not covered"}


def mark_path(status: str, at: Spot, size: float) -> str:
    """Path data of a status's mark of half width ``size`` about a place of the picture."""
    return "".join(line_through((at[0] + size * x, at[1] + size * y) for x, y in stroke) for stroke in _MARKS[status])


@dataclass(frozen=True)
class PaneLine:
    """A pane in plan: its two ends, its length in feet and the unit vector from the first to the second."""

    start: Spot
    end: Spot
    length: float
    along: Spot

    @classmethod
    def of(cls, segment: Sequence[Sequence[float]]) -> PaneLine:
        """The line of a pane's ``segment``."""
        (ax, ay), (bx, by) = segment
        length = math.hypot(bx - ax, by - ay) or 1e-9
        return cls((ax, ay), (bx, by), length, ((bx - ax) / length, (by - ay) / length))

    def at(self, u: float, aside: float = 0.0) -> Spot:
        """The point ``u`` feet from the start and ``aside`` feet to the left of the line."""
        (x, y), (dx, dy) = self.start, self.along
        return (x + u * dx - aside * dy, y + u * dy + aside * dx)

    def bar(self, span: Sequence[float], half: float, least: float = 0.0) -> tuple[Spot, ...]:
        """The corners of a bar of half width ``half`` over a span of the pane, never shorter than ``least`` feet."""
        low, high = span
        if high - low < least:
            middle = (low + high) / 2
            low, high = middle - least / 2, middle + least / 2
        return (self.at(low, -half), self.at(high, -half), self.at(high, half), self.at(low, half))

    def away_from(self, point: Sequence[float] | None) -> float:
        """1 or -1: the side of the line (left is 1) that lies away from a point; 1 where there is none."""
        if point is None:
            return 1.0
        (x, y), (dx, dy) = self.start, self.along
        return -1.0 if dx * (point[1] - y) - dy * (point[0] - x) > 0 else 1.0


def covered_spans(stretches: Iterable[Sequence[float]], length: float) -> list[tuple[float, float]]:
    """The stretches of a pane that are covered in full height: what its uncovered ``stretches`` leave over."""
    spans, here = [], 0.0
    for low, high in stretches:
        if low > here + 1e-4:
            spans.append((here, low))
        here = max(here, high)
    if here < length - 1e-4:
        spans.append((here, length))
    return spans
