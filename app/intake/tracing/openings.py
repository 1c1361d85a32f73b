"""Openings of runs: gaps and symbols put together into doors, windows and cased openings.

A swing or a door's stroke makes a gap a door, strokes along it a window, and nothing a cased opening; a symbol over a
wall that is drawn through cuts its own opening.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import dataclass, field

from app.intake.strokes import Arc, Stroke
from app.intake.tracing.carriers import Interval, carriers_of, common
from app.intake.tracing.marks import Marks, marks_on
from app.intake.tracing.runs import Gap, Opened, Run
from app.intake.tracing.swings import Swing, swing_of, wall_of_its_own

OVERHEAD = 7.0  # ft: a door as wide as a car's way in has no other leaf
_WIDEST_CASED = 16.0
_NARROWEST = 0.6
_SPARE = 1.35  # a gap may be so much wider than its leaves: frame and rebates
_DOOR_THICKNESS = 0.375


@dataclass
class Symbols:
    """What tells of openings: swings, strokes of doors and of windows, and strokes in walls on the walls' layers."""

    swings: list[Arc] = field(default_factory=list)
    doors: list[Stroke] = field(default_factory=list)
    windows: list[Stroke] = field(default_factory=list)
    within: list[Stroke] = field(default_factory=list)


@dataclass
class Found:
    """What could not be used of the symbols, and how many openings were taken on weak grounds."""

    loose_swings: list[Arc] = field(default_factory=list)
    bare: int = 0
    parted: int = 0


def find_openings(runs: list[Run], gaps: list[list[Gap]], symbols: Symbols) -> Found:
    """Give each run its openings; runs that a door or a window alone makes are added to ``runs``."""
    found = Found()
    swings = _swings(runs, gaps, symbols.swings, found)
    doors, _ = marks_on(symbols.doors, runs)
    glass, loose = marks_on(symbols.windows, runs)
    within, _ = marks_on(symbols.within, runs, -0.03)
    for index, run in enumerate(runs):
        here = [swing for swing in swings if swing.run == index]
        for gap in gaps[index]:
            _in_gap(run, gap, here, doors[index], glass[index], within[index], found)
        _over_solid(run, here, glass[index], within[index])
        run.openings = _apart(run.openings)
    runs += _glass_walls(loose)
    return found


def _swings(runs: list[Run], gaps: list[list[Gap]], arcs: Sequence[Arc], found: Found) -> list[Swing]:
    made: list[Swing] = []
    for arc in arcs:
        swing = swing_of(arc, runs)
        if swing is None:
            own = wall_of_its_own(arc, runs, _DOOR_THICKNESS)
            if own is None:
                found.loose_swings.append(arc)
                continue
            runs.append(own[0])
            gaps.append([])
            swing = own[1]
        made.append(swing)
    return made


def _in_gap(run: Run, gap: Gap, swings: list[Swing], doors: Marks, glass: Marks, within: Marks, found: Found) -> None:
    whole = (gap.start, gap.end)
    leaves = [swing for swing in swings if _shared(swing.interval, whole) > 0.5 * _length(swing.interval)]
    for swing in leaves:
        swings.remove(swing)
    if leaves:
        _leaves_in(run, whole, leaves, glass)
    elif doors.share(whole) > 0.3:
        run.openings.append(_without_swing(whole, doors))
        run.openings[-1].glazed = True if glass.share(whole) > 0.5 else None
    elif glass.share(whole) > 0.5:
        run.openings.append(Opened(*whole, "window", panes=glass.lites(whole)))
    elif within.lines(whole) >= 2:
        run.openings.append(Opened(*whole, "window", panes=within.lites(whole)))
    elif any(gap.free) and _NARROWEST <= gap.width <= _WIDEST_CASED:
        run.openings.append(Opened(*whole, "cased"))
        found.bare += 1
    elif any(gap.free) and gap.width > _WIDEST_CASED:
        found.parted += 1


def _leaves_in(run: Run, gap: Interval, leaves: list[Swing], glass: Marks) -> None:
    """The door of a gap: one leaf with its hinge, or a pair; what is left over beside it is glass or bare."""
    closed = sum(_length(leaf.interval) for leaf in leaves)
    hinge = leaves[0].hinge if len(leaves) == 1 else None
    if _length(gap) <= _SPARE * closed + 0.1:
        run.openings.append(Opened(*gap, "door", hinge=hinge))
        return
    low = max(min(leaf.interval[0] for leaf in leaves), gap[0])
    high = min(max(leaf.interval[1] for leaf in leaves), gap[1])
    run.openings.append(Opened(low, high, "door", hinge=hinge))
    for beside in ((gap[0], low), (high, gap[1])):
        if _length(beside) > 0.5:
            kind = "window" if glass.share(beside) > 0.5 else "cased"
            run.openings.append(Opened(*beside, kind))
        elif _length(beside) > 0:  # the frame's own width
            door = run.openings[-1]
            door.start, door.end = min(door.start, beside[0]), max(door.end, beside[1])


def _without_swing(gap: Interval, doors: Marks) -> Opened:
    """A door drawn without a swing: wide as a car's way in overhead, of several part-wide strokes sliding."""
    width = _length(gap)
    partial = [part for part in common([gap], sorted(doors.along)) if _length(part) < 0.8 * width]
    if width >= OVERHEAD and len(partial) < 2:
        return Opened(*gap, "door", leaf="overhead")
    return Opened(*gap, "door", leaf="slide" if len(partial) >= 2 or width > 4 else "swing")


def _over_solid(run: Run, swings: list[Swing], glass: Marks, within: Marks) -> None:
    """Symbols that are drawn over a wall that goes on under them."""
    taken = [(opening.start, opening.end) for opening in run.openings]
    for swing in swings:
        pair = next(
            (
                other
                for other in swings
                if other is not swing
                and abs(other.latch - swing.latch) < 0.3
                and (other.hinge - swing.hinge) * (swing.latch - swing.hinge) > 0
            ),
            None,
        )
        place = swing.interval if pair is None else (min(swing.hinge, pair.hinge), max(swing.hinge, pair.hinge))
        if not any(_shared(place, other) > 0.02 for other in taken):
            run.openings.append(Opened(*place, "door", hinge=swing.hinge if pair is None else None))
            taken.append(place)
    for marks, needs_jambs in ((glass, False), (within, True)):
        for place in marks.stretches():
            solid = sum(_shared(place, part) for part in run.solid)
            inside = solid > 0.8 * _length(place) and 0.8 <= _length(place) <= min(20, 0.98 * (run.end - run.start))
            framed = all(any(abs(u - end) < 0.08 for u in marks.across) for end in place)
            if inside and (framed or not needs_jambs) and not any(_shared(place, other) > 0.1 for other in taken):
                run.openings.append(Opened(*place, "window", panes=marks.lites(place)))
                taken.append(place)


def _glass_walls(loose: Sequence[Stroke]) -> list[Run]:
    """Windows that take the whole way from wall to wall, as in a bay: runs of their own, all glass."""
    made: list[Run] = []
    for direction, lines in carriers_of([stroke for stroke in loose if stroke.length >= 1.0]):
        left = list(lines)
        while left:
            first = left.pop(0)
            near = [line for line in left if line.v - first.v <= 1.0]
            for start, end in first.drawn:
                with_it = [
                    line
                    for line in near
                    if any(_shared((start, end), part) > 0.8 * (end - start) for part in line.drawn)
                ]
                if end - start < 1.0 or not with_it:
                    continue
                left = [line for line in left if line not in with_it]
                spread = with_it[-1].v - first.v
                run = Run(direction, first.v + spread / 2, max(spread, _DOOR_THICKNESS), [(start, end)])
                run.openings.append(Opened(start, end, "window"))
                made.append(run)
    return made


def _apart(openings: list[Opened]) -> list[Opened]:
    """Openings in order, none over another: the earlier found keeps its place."""
    kept: list[Opened] = []
    for opening in openings:
        if all(_shared((opening.start, opening.end), (other.start, other.end)) < 0.02 for other in kept):
            kept.append(opening)
    kept.sort(key=lambda opening: opening.start)
    for before, after in itertools.pairwise(kept):
        after.start = max(after.start, before.end)
    return [opening for opening in kept if opening.end - opening.start >= 0.3]


def _length(interval: Interval) -> float:
    return interval[1] - interval[0]


def _shared(first: Interval, second: Interval) -> float:
    return max(0.0, min(first[1], second[1]) - max(first[0], second[0]))
