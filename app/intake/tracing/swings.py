"""Door swings: an arc's centre is the hinge, its radius the width, and the end that lies on the wall the latch jamb."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from app.intake.strokes import Arc, Spot, Stroke
from app.intake.tracing.carriers import Direction
from app.intake.tracing.runs import Run

SMALLEST, LARGEST = 0.9, 5.0  # ft of radius
_LEAST_SWEEP, _MOST_SWEEP = 25.0, 185.0
_OFF_FACE = 0.5  # ft: a hinge stands on the wall's face or in its middle, or a little off
_LEAF = 0.1  # ft
_ALIGNED = math.sin(math.radians(14))


@dataclass(frozen=True)
class Swing:
    """A leaf seen in a run: where along it the hinge and the latch are."""

    run: int
    hinge: float
    latch: float

    @property
    def interval(self) -> tuple[float, float]:
        """The stretch of wall that the leaf closes."""
        return min(self.hinge, self.latch), max(self.hinge, self.latch)


def is_swing(arc: Arc) -> bool:
    """Whether an arc can be the swing of a door's leaf."""
    return SMALLEST <= arc.radius <= LARGEST and _LEAST_SWEEP <= arc.sweep <= _MOST_SWEEP


def is_leaf(stroke: Stroke, swings: Sequence[Arc]) -> bool:
    """Whether a stroke is the open leaf of a swing: from its centre to one of its ends, so no wall's face."""
    for arc in swings:
        if abs(stroke.length - arc.radius) < _LEAF and any(
            math.dist(centre, arc.centre) < _LEAF and min(math.dist(tip, end) for end in arc.ends) < _LEAF
            for centre, tip in ((stroke.a, stroke.b), (stroke.b, stroke.a))
        ):
            return True
    return False


def swing_of(arc: Arc, runs: Sequence[Run]) -> Swing | None:
    """The run that a swing stands in, and how; None where no wall is in line with it."""
    best: tuple[float, Swing] | None = None
    for index, run in enumerate(runs):
        hinge = run.direction.uv(arc.centre)
        off = abs(hinge[1] - run.v)
        if off > run.thickness / 2 + _OFF_FACE:
            continue
        for tip in arc.ends:
            latch = run.direction.uv(tip)
            if abs(latch[1] - hinge[1]) > _ALIGNED * arc.radius:
                continue
            low, high = min(hinge[0], latch[0]), max(hinge[0], latch[0])
            away = max(run.start - high, low - run.end, 0.0)
            if away > 1.0:
                continue
            score = off + 2 * away
            if best is None or score < best[0]:
                best = (score, Swing(index, hinge[0], latch[0]))
    return best[1] if best else None


def wall_of_its_own(arc: Arc, runs: Sequence[Run], thickness: float) -> tuple[Run, Swing] | None:
    """A door that fills the whole way between two walls across it: a run of the door's own; None elsewhere."""
    for tip in arc.ends:
        turn = math.atan2(tip[1] - arc.centre[1], tip[0] - arc.centre[0])
        direction = Direction(math.cos(turn), math.sin(turn))
        (start, v), (end, _) = direction.uv(arc.centre), direction.uv(tip)
        if all(_stops_at(spot, direction, runs) for spot in (arc.centre, tip)):
            return Run(direction, v, thickness, [(start, end)]), Swing(len(runs), start, end)
    return None


def _stops_at(spot: Spot, direction: Direction, runs: Sequence[Run]) -> bool:
    for run in runs:
        u, v = run.direction.uv(spot)
        if (
            abs(direction.sine_to(run.direction)) > 0.5
            and abs(v - run.v) <= run.thickness / 2 + 0.35
            and run.start - 0.5 <= u <= run.end + 0.5
        ):
            return True
    return False
