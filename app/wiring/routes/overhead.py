"""Home runs over the ceiling: up, along the building's axes, through risers to other levels, and down to the can.

Distances along the axes are those of a taxi, so on one level the straight L is never beaten by a way through risers.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from app.geometry.bodies import FloatArray, IntArray
from app.plan.model import Device, Level, Plan
from app.wiring.routes.axes import Axes
from app.wiring.routes.nearest import nearest_end
from app.wiring.routes.run_heights import cable_end, run_height
from app.wiring.routes.way import Spot, Way, way_through

SHORTER = 1e-9  # ft: what is shorter by less is as long


@dataclass(frozen=True)
class _Ends:
    """Spots at run height where a run may go next: place in the plan, place along the axes, level, feet to a can."""

    at: FloatArray
    framed: FloatArray
    level: IntArray
    to_can: FloatArray


class OverheadWays:
    """The shortest way from any device to a can, for one plan: each riser's distance to its nearest can, found once."""

    def __init__(self, plan: Plan, axes: Axes, cans: Sequence[tuple[Level, Device]]) -> None:
        practice = plan.practice_in_force
        self._practice, self._axes = practice, axes
        self._index = {level.id: number for number, level in enumerate(plan.levels)}
        self._runs = np.array([run_height(level, practice) for level in plan.levels])
        self._cans = [(can, cable_end(can, level, practice)) for level, can in cans]
        can_levels = np.array([self._index[level.id] for level, _ in cans], dtype=np.int64)
        drops = np.abs(self._runs[can_levels] - np.array([height for _, height in self._cans]))
        self._at_cans = self._ends([can.at for _, can in cans], can_levels, drops)
        places = [riser.at for riser in plan.risers for _ in (0, 1)]
        levels = [self._index[name] for riser in plan.risers for name in (riser.from_level, riser.to_level)]
        risers = self._ends(places, np.array(levels, dtype=np.int64), np.full(len(places), np.inf))
        to_can, self._next = self._settle(risers)
        self._at_risers = _Ends(risers.at, risers.framed, risers.level, to_can)

    def _ends(self, places: Sequence[tuple[float, float]], level: IntArray, to_can: FloatArray) -> _Ends:
        at = np.array(places, dtype=float).reshape(-1, 2)
        return _Ends(at, self._axes.framed(at), level, to_can)

    def _settle(self, risers: _Ends) -> tuple[FloatArray, IntArray]:
        """Feet from each riser's end to its nearest can, and the next stop: a riser's end, or −1 − can.

        Ends 2k and 2k + 1 are the two ends of riser k. Climbs and level moves are offered in turn until neither
        shortens anything (Bellman and Ford's method), which takes as many rounds as the longest chain has risers.
        """
        to_can, stop = self._nearest(risers.framed, risers.level, self._at_cans)
        next_stop = -1 - stop
        far = np.arange(len(to_can)) ^ 1
        climb = np.abs(self._runs[risers.level] - self._runs[risers.level[far]])
        for _ in range(len(to_can)):
            climbed = to_can[far] + climb
            better = climbed < to_can - SHORTER
            if not better.any():
                break
            to_can[better], next_stop[better] = climbed[better], far[better]
            ends = _Ends(risers.at, risers.framed, risers.level, to_can)
            moved, end = self._nearest(risers.framed, risers.level, ends)
            better = moved < to_can - SHORTER
            to_can[better], next_stop[better] = moved[better], end[better]
        return to_can, next_stop

    @staticmethod
    def _nearest(framed: FloatArray, level: IntArray, ends: _Ends) -> tuple[FloatArray, IntArray]:
        """For each place the least feet to a can by way of one of the ends on its level, and that end (−1: none)."""
        feet = np.full(len(framed), np.inf)
        which = np.full(len(framed), -1, dtype=np.int64)
        for storey in np.unique(level):
            choice = np.flatnonzero((ends.level == storey) & np.isfinite(ends.to_can))
            wanted = np.flatnonzero(level == storey)
            feet[wanted], found = nearest_end(framed[wanted], ends.framed[choice], ends.to_can[choice])
            which[wanted] = choice[found] if len(choice) else -1
        return feet, which

    def ways(self, devices: Sequence[tuple[Level, Device]]) -> list[Way | None]:
        """The shortest way of each device, or None where no riser links its level to one that has a can."""
        framed = self._axes.framed(np.array([device.at for _, device in devices], dtype=float).reshape(-1, 2))
        level = np.array([self._index[storey.id] for storey, _ in devices], dtype=np.int64)
        direct, can = self._nearest(framed, level, self._at_cans)
        through, end = self._nearest(framed, level, self._at_risers)
        ways: list[Way | None] = []
        for number, (storey, device) in enumerate(devices):
            if not np.isfinite(min(direct[number], through[number])):
                ways.append(None)
                continue
            stop = -1 - int(can[number]) if direct[number] <= through[number] + SHORTER else int(end[number])
            ways.append(self._trace(device.at, cable_end(device, storey, self._practice), level[number], stop))
        return ways

    def _trace(self, at: tuple[float, float], height: float, level: int, stop: int) -> Way:
        """The way from a device over the stops that follow ``stop`` to a can."""
        spots: list[Spot] = [(*at, height), (*at, float(self._runs[level]))]
        here = at
        while stop >= 0:
            here = self._across(spots, here, self._at_risers.at[stop])
            following = int(self._next[stop])
            if following == stop ^ 1:
                spots.append((*here, float(self._runs[self._at_risers.level[following]])))
            stop = following
        can, can_height = self._cans[-1 - stop]
        here = self._across(spots, here, np.array(can.at))
        spots.append((*here, can_height))
        return way_through(can.id, spots)

    def _across(self, spots: list[Spot], here: tuple[float, float], target: FloatArray) -> tuple[float, float]:
        """Add the legs at run height from ``here`` to ``target``, parallel to the axes."""
        there = (float(target[0]), float(target[1]))
        run = spots[-1][2]
        spots.append((*self._axes.corner(here, there), run))
        spots.append((*there, run))
        return there
