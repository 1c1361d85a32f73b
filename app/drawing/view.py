"""From plan to picture: feet with y north become picture units with y downward.

Overlays take one unit a foot; sheets take millimetres of paper at the scale of the drawing.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

Spot = tuple[float, float]


@dataclass(frozen=True)
class View:
    """``scale`` is picture units a foot; ``left`` and ``base`` are where the plan's origin falls in the picture."""

    scale: float = 1.0
    left: float = 0.0
    base: float = 0.0

    def spot(self, point: Sequence[float]) -> Spot:
        """Where a point of the plan falls in the picture."""
        return (self.left + point[0] * self.scale, self.base - point[1] * self.scale)

    def line(self, points: Iterable[Sequence[float]]) -> str:
        """Path data of an open line through points of the plan."""
        return "M" + "L".join(written(*self.spot(point)) for point in points)

    def rings(self, rings: Iterable[Iterable[Sequence[float]]]) -> str:
        """Path data of closed rings through points of the plan."""
        return "".join(self.line(ring) + "Z" for ring in rings)


def written(x: float, y: float) -> str:
    """A place in a picture as path data, to a thousandth of a unit."""
    return f"{x:.3f} {y:.3f}"


def line_through(spots: Iterable[Spot]) -> str:
    """Path data of an open line through places of the picture."""
    return "M" + "L".join(written(*spot) for spot in spots)
