"""Runs: walls in one line, solid here and open there, before they are joined at corners.

A gap that another wall fills is no opening; what is left of a gap is a place where an opening may be.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely

from app.intake.strokes import Spot
from app.intake.tracing.carriers import Direction, Interval, joined, less
from app.intake.tracing.pairs import Band

WIDEST_OPENING = 20.0  # ft: a garage door for three cars is 24 ft at most, and is drawn as two
_SAME_BAND = 0.02
_FILLED = 0.06
_LEAST_SINE = 0.03
_HELD = 0.15
_AT_WALL = 0.03  # ft: a nib as narrow as this is none


@dataclass
class Gap:
    """A break of a run; ``free`` says for each end whether it is the wall's own end (a jamb) or another wall's face."""

    start: float
    end: float
    free: tuple[bool, bool]

    @property
    def width(self) -> float:
        """How wide it is."""
        return self.end - self.start


@dataclass
class Opened:
    """An opening of a run, in feet along it; ``hinge`` is where along it the leaf turns, if it is told.

    ``sill`` and ``head`` are above the level's floor; None where the file tells no heights.
    """

    start: float
    end: float
    kind: str
    hinge: float | None = None
    leaf: str = "swing"
    glazed: bool | None = None
    panes: int = 1
    sill: float | None = None
    head: float | None = None


@dataclass
class Run:
    """A wall in one line: its direction, where its centreline runs, how thick, where it is solid and where it opens.

    ``height`` is that of a half wall.
    """

    direction: Direction
    v: float
    thickness: float
    solid: list[Interval]
    openings: list[Opened] = field(default_factory=list)
    height: float | None = None

    @property
    def start(self) -> float:
        """Where it begins along its direction."""
        return self.solid[0][0]

    @property
    def end(self) -> float:
        """Where it ends."""
        return self.solid[-1][1]

    def at(self, u: float) -> Spot:
        """A point of its centreline."""
        return self.direction.xy(u, self.v)

    def body(self, start: float, end: float, more: float = 0.0) -> shapely.Polygon:
        """The strip of a stretch, as wide as the wall and a little ``more``."""
        half = self.thickness / 2 + more
        corners = ((start, -half), (end, -half), (end, half), (start, half))
        return shapely.Polygon([self.direction.xy(u, self.v + v) for u, v in corners])


def runs_of(bands: Sequence[Band]) -> list[Run]:
    """Runs from bands: those on the same two lines are one run."""
    runs: list[Run] = []
    for band in sorted(bands, key=lambda one: (one.direction.cosine, one.direction.sine, one.low, one.high)):
        last = runs[-1] if runs else None
        same = (
            last is not None
            and last.direction == band.direction
            and abs(last.v - last.thickness / 2 - band.low) <= _SAME_BAND
            and abs(last.v + last.thickness / 2 - band.high) <= _SAME_BAND
        )
        if last is not None and same:
            last.solid = joined([*last.solid, *band.solid], 0.03)
        else:
            runs.append(Run(band.direction, band.middle, band.thickness, list(band.solid)))
    return runs


class Neighbours:
    """The bodies of all runs, to ask what lies across a stretch of one of them."""

    def __init__(self, runs: Sequence[Run]) -> None:
        self._runs = runs
        self._owner: list[int] = []
        bodies = []
        for index, run in enumerate(runs):
            for start, end in run.solid:
                # A corner belongs to both walls: each reaches half its own thickness on.
                bodies.append(run.body(start - run.thickness / 2, end + run.thickness / 2, 0.01))
                self._owner.append(index)
        self._bodies = np.array(bodies, dtype=object)
        self._tree = shapely.STRtree(self._bodies)

    def touches(self, run: Run, u: float) -> bool:
        """Whether a wall of another direction stands at a place of a run's centreline."""
        spot = shapely.Point(run.at(u))
        near = self._tree.query(spot, predicate="dwithin", distance=_AT_WALL).tolist()
        return any(
            abs(run.direction.sine_to(self._runs[self._owner[index]].direction)) >= _LEAST_SINE for index in near
        )

    def across(self, run: Run, start: float, end: float) -> list[Interval]:
        """The stretches between two places of a run's centreline that walls of other directions cover."""
        return self._covered(run, start, end, in_line=False)

    def holds_another(self, run: Run, start: float, end: float) -> bool:
        """Whether a wall of another thickness stands in line between two places of a run."""
        covered = self._covered(run, start, end, in_line=True)
        return sum(stop - begin for begin, stop in covered) > _HELD * (end - start)

    def _covered(self, run: Run, start: float, end: float, *, in_line: bool) -> list[Interval]:
        line = shapely.LineString([run.at(start), run.at(end)])
        covered: list[Interval] = []
        for index in self._tree.query(line, predicate="intersects").tolist():
            other = self._runs[self._owner[index]]
            if other is run or (abs(run.direction.sine_to(other.direction)) < _LEAST_SINE) != in_line:
                continue
            shared = shapely.get_coordinates(shapely.intersection(line, self._bodies[index]))
            if len(shared):
                along = [run.direction.uv((float(x), float(y)))[0] for x, y in shared]
                covered.append((min(along), max(along)))
        return joined(covered, 0.03)


def close_filled_gaps(runs: Sequence[Run]) -> list[list[Gap]]:
    """Make solid what other walls fill of each run's gaps; the gaps that are left of each run."""
    neighbours = Neighbours(runs)
    left: list[list[Gap]] = []
    for run in runs:
        gaps: list[Gap] = []
        solid = list(run.solid)
        for (_, start), (end, _) in zip(run.solid, run.solid[1:], strict=False):
            if end - start > WIDEST_OPENING:
                continue
            filled = neighbours.across(run, start, end)
            rest = [part for part in less([(start, end)], filled) if part[1] - part[0] > _FILLED]
            if not rest:
                solid.append((start, end))
            for part in rest if len(rest) == 1 and not neighbours.holds_another(run, *rest[0]) else ():
                free = (not neighbours.touches(run, part[0]), not neighbours.touches(run, part[1]))
                gaps.append(Gap(*part, free))
                solid += [gone for gone in less([(start, end)], [part]) if gone[1] > gone[0]]
        run.solid = joined(solid, 1e-6)
        left.append(gaps)
    return left
