"""Entry paths: from each entry door with a contact the walk to the nearest keypad, against the entry delay.

A motion detector that sees the path must be a follower: it waits while the delay runs (CLC/TS 50131-7: detectors on
the entry route are ignored while the system is unset).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.coverage.motion import MotionProof
from app.coverage.walks import Walk, WalkGraph
from app.coverage.ways_in import sightings
from app.plan.practice import Practice


@dataclass(frozen=True)
class EntryPath:
    """The walk from an entry door to its nearest keypad: feet are the walk's, ``seconds`` at the practice's speed.

    ``followers`` are the motion detectors that see it, in their order.
    """

    walk: Walk
    seconds: float
    delay: float
    followers: tuple[str, ...]

    @property
    def in_time(self) -> bool:
        """Whether the keypad is reached before the entry delay is over."""
        return self.seconds <= self.delay


def entry_paths(
    graph: WalkGraph,
    doors: Sequence[str],
    keypads: Sequence[str],
    motions: Mapping[str, Sequence[MotionProof]],
    practice: Practice,
) -> list[EntryPath]:
    """The entry paths of some doors, in their order; doors from which no keypad can be walked to have none."""
    search = graph.nearest(keypads, 1, until=doors)
    walks = [search.walk(door, found[0][1]) for door in doors if (found := search.goals(door))]
    speed, delay = practice.number("walk.speed"), practice.number("entry.delay")
    return [
        EntryPath(
            walk,
            walk.feet / speed,
            delay,
            tuple(dict.fromkeys(notice.device for notice in sorted(seen, key=lambda one: one.feet))),
        )
        for walk, seen in zip(walks, sightings(walks, motions), strict=True)
    ]
