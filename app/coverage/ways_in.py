"""Ways in: from every exterior opening the walks to bedrooms and to the heart of the home, and who notices them when.

A person who comes in chooses the way through the opening that nothing tells: opened where it has no contact, broken
where its glass is not heard. Inside, contacts on doors and, in away, the motion detectors notice them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.coverage.arming import STATES, OpeningWatch, State
from app.coverage.motion import MotionProof
from app.coverage.walks import Goal, Walk, WalkGraph
from app.geometry.scene import LevelScene
from app.plan.room_uses import SLEEPING, is_heart, is_main_bedroom, use_of

MOST_BEDROOMS = 6  # the nearest of each kind that are walked to from an opening
MOST_HEARTS = 4


@dataclass(frozen=True)
class Notice:
    """A device that notices a walk, how ("opened", "broken", "door opened", "seen"), after how many feet."""

    device: str
    how: str
    feet: float


@dataclass(frozen=True)
class WayIn:
    """A walk in one arming state: ``gaps`` are the ways through the opening that nothing tells.

    ``notices`` are what the person who takes the least watched way meets, in their order, each device once.
    """

    walk: Walk
    state: State
    gaps: tuple[str, ...]
    notices: tuple[Notice, ...]

    @property
    def first(self) -> Notice | None:
        """Who notices first, or None on a walk that nobody notices."""
        return self.notices[0] if self.notices else None

    @property
    def second(self) -> Notice | None:
        """Who notices next."""
        return self.notices[1] if len(self.notices) > 1 else None

    @property
    def unseen(self) -> float:
        """Feet walked before anybody notices; the whole walk where nobody does."""
        return self.notices[0].feet if self.notices else self.walk.feet


def goals_of(scenes: Mapping[str, LevelScene]) -> tuple[list[Goal], list[Goal]]:
    """The bedrooms, and the rooms of the heart of the home (gathering rooms, main bedroom), each at its own point."""
    bedrooms: list[Goal] = []
    hearts: list[Goal] = []
    for level, scene in scenes.items():
        for room in scene.level.rooms:
            face = scene.face_of_room[room.id]
            if face < 0:
                continue
            goal = Goal(room.id, level, room.at, face)
            if use_of(room) in SLEEPING or is_main_bedroom(room):
                bedrooms.append(goal)
            if is_heart(room):
                hearts.append(goal)
    return bedrooms, hearts


def walks_in(graph: WalkGraph, openings: Sequence[str], bedrooms: Sequence[Goal], hearts: Sequence[Goal]) -> list[Walk]:
    """The shortest walks from each opening to its nearest bedrooms and hearts, by opening, the shortest first."""
    searches = [
        graph.nearest([goal.name for goal in some], most)
        for some, most in ((bedrooms, MOST_BEDROOMS), (hearts, MOST_HEARTS))
    ]
    walks = []
    for opening in openings:
        found = {goal: (feet, search) for search in searches for feet, goal in search.goals(opening)}
        walks += [found[goal][1].walk(opening, goal) for goal in sorted(found, key=lambda goal: (found[goal][0], goal))]
    return walks


def ways_in(
    walks: Sequence[Walk],
    watches: Mapping[str, OpeningWatch],
    contacts: Mapping[str, Sequence[str]],
    motions: Mapping[str, Sequence[MotionProof]],
) -> list[WayIn]:
    """Every walk in stay and in away; ``watches`` and ``contacts`` by opening, ``motions`` by level."""
    seen = sightings(walks, motions)
    ways = []
    for walk, sights in zip(walks, seen, strict=True):
        watch = watches[walk.opening]
        doors = [
            Notice(contact, "door opened", feet)
            for opening, feet in walk.passed
            if opening != walk.opening
            for contact in contacts.get(opening, ())
        ]
        entered = [Notice(contact, "opened", 0.0) for contact in watch.contacts]
        entered += [Notice(device, "broken", 0.0) for device in watch.listeners]
        for state in STATES:
            notices = ([] if watch.gaps else entered[:1]) + doors + (sights if state == "away" else [])
            ways.append(WayIn(walk, state, watch.gaps, _each_once(notices)))
    return ways


def _each_once(notices: Sequence[Notice]) -> tuple[Notice, ...]:
    met: dict[str, Notice] = {}
    for notice in sorted(notices, key=lambda one: one.feet):
        met.setdefault(notice.device, notice)
    return tuple(met.values())


def sightings(walks: Sequence[Walk], motions: Mapping[str, Sequence[MotionProof]]) -> list[list[Notice]]:
    """For each walk the motion detectors whose watched floor it enters, and after how many feet."""
    found: list[list[Notice]] = [[] for _ in walks]
    for level, proofs in motions.items():
        legs = [
            (number, leg)
            for number, walk in enumerate(walks)
            for leg in walk.legs
            if leg.level == level and len(leg.corners) > 1
        ]
        areas = [(proof.device, part) for proof in proofs for part in proof.seen.values()]
        if not legs or not areas:
            continue
        lines = np.array([shapely.LineString(leg.corners) for _, leg in legs], dtype=object)
        parts = np.array([part for _, part in areas], dtype=object)
        line, area = shapely.STRtree(parts).query(lines, predicate="intersects")
        crossed = shapely.intersection(lines[line], parts[area])
        touched = ~shapely.is_empty(crossed)
        for one, two, stretch in zip(line[touched], area[touched], crossed[touched], strict=True):
            number, leg = legs[one]
            found[number].append(Notice(areas[two][0], "seen", leg.before + _first_touch(lines[one], stretch)))
    return found


def _first_touch(line: BaseGeometry, stretch: BaseGeometry) -> float:
    """Feet along a line to the first point of a part of it."""
    corners = shapely.points(shapely.get_coordinates(stretch))
    return float(shapely.line_locate_point(line, corners).min())
