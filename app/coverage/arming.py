"""Arming states: what watches each opening and each room in stay and in away, and what stay gives up.

In stay the motion detectors are off, so that people may move; contacts and glass breaks watch in both states
(UL 1641-2015 16.1: detectors may be switched out to allow movement at home). Which panel mode does so is not judged.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from app.coverage.glass import PaneVerdict
from app.coverage.motion import Ground, MotionProof, watched_share
from app.geometry.scene import LevelScene
from app.plan.model import Opening

State = Literal["stay", "away"]
STATES: tuple[State, ...] = ("stay", "away")

LEAST_SHARE = 0.02  # of a room's floor: less is a glimpse through a door, not a watched room


@dataclass(frozen=True)
class Watched:
    """One level as its detectors stand: ``contacts`` by the opening they serve; proofs and verdicts of the level."""

    scene: LevelScene
    contacts: Mapping[str, Sequence[str]]
    verdicts: Sequence[PaneVerdict]
    ground: Ground
    motions: Sequence[MotionProof]


@dataclass(frozen=True)
class OpeningWatch:
    """How an exterior opening is watched: ``contacts`` tell that it is opened, ``listeners`` that its glass breaks.

    ``opens`` and ``glass`` say whether it can be opened, and broken; ``deaf`` names the lites that nobody hears whole;
    ``motions`` watch the room behind it, in away only. ``room`` is the room that it leads into, or None.
    """

    opening: Opening
    room: str | None
    opens: bool
    glass: bool
    contacts: tuple[str, ...]
    listeners: tuple[str, ...]
    deaf: tuple[str, ...]
    motions: tuple[str, ...]

    @property
    def is_way(self) -> bool:
        """Whether anybody can come in by it: it opens, breaks, or is a bare hole; a blind door does none of it."""
        return self.opens or self.glass or self.opening.kind == "cased"

    @property
    def gaps(self) -> tuple[str, ...]:
        """The ways through it that nothing at the opening tells: "opened", "broken", or "open" for a bare hole."""
        if not self.opens and not self.glass and self.opening.kind == "cased":
            return ("open",)
        gaps = ("opened",) if self.opens and not self.contacts else ()
        return (*gaps, "broken") if self.glass and self.deaf else gaps

    def state(self, state: State) -> str:
        """ "at the opening" when every way through is told there, "inside" when only a motion tells it, "nothing"."""
        if not self.gaps:
            return "at the opening"
        return "inside" if state == "away" and self.motions else "nothing"


@dataclass(frozen=True)
class RoomWatch:
    """How a room is watched: its exterior openings, who listens to its glass, and its floor's watched share in away."""

    room: str
    openings: tuple[str, ...]
    contacts: tuple[str, ...]
    listeners: tuple[str, ...]
    motions: tuple[str, ...]
    share: float
    area: float

    def watched_by(self, state: State) -> tuple[str, ...]:
        """The devices that watch the room in a state."""
        return (*self.contacts, *self.listeners, *(self.motions if state == "away" else ()))

    @property
    def lost_in_stay(self) -> float:
        """Square feet of floor that nobody watches any more when motion is off."""
        return self.share * self.area


def opening_watches(level: Watched) -> list[OpeningWatch]:
    """How each exterior opening of a level is watched, in the order of the file."""
    scene = level.scene
    lites: dict[str, list[int]] = {}
    for pane, owner in enumerate(scene.panes.opening):
        lites.setdefault(owner, []).append(pane)
    behind = _motions_by_face(level)
    watches = []
    for opening in scene.level.openings:
        if not scene.is_exterior(opening):
            continue
        face = max(scene.sides[opening.id])
        verdicts = [level.verdicts[pane] for pane in lites.get(opening.id, ())]
        best = [verdict.best for verdict in verdicts if verdict.status == "covered" and verdict.best is not None]
        watches.append(
            OpeningWatch(
                opening,
                scene.room_of_opening(opening.id),
                opening.opens,
                opening.has_glass,
                tuple(level.contacts.get(opening.id, ())),
                tuple(dict.fromkeys(best)),
                tuple(scene.panes.name[verdict.pane] for verdict in verdicts if verdict.status != "covered"),
                tuple(behind.get(face, ())),
            )
        )
    return watches


def _motions_by_face(level: Watched) -> dict[int, list[str]]:
    """The motion detectors that watch more than a glimpse of each face."""
    found: dict[int, list[str]] = {}
    for proof in level.motions:
        for face, seen in proof.seen.items():
            if seen.area >= LEAST_SHARE * level.ground.floors[face].area:
                found.setdefault(face, []).append(proof.device)
    return found


def room_watches(level: Watched, openings: Sequence[OpeningWatch]) -> list[RoomWatch]:
    """How each closed room of a level is watched, from the watches of its exterior openings."""
    scene = level.scene
    behind = _motions_by_face(level)
    at_face: dict[int, list[OpeningWatch]] = {}
    for watch in openings:
        for face in set(scene.sides[watch.opening.id]):
            at_face.setdefault(face, []).append(watch)
    watches = []
    for room in scene.level.rooms:
        face = scene.face_of_room[room.id]
        if face < 0:
            continue
        here = at_face.get(face, [])
        motions = tuple(behind.get(face, ()))
        watches.append(
            RoomWatch(
                room.id,
                tuple(watch.opening.id for watch in here),
                tuple(dict.fromkeys(contact for watch in here for contact in watch.contacts)),
                tuple(dict.fromkeys(device for watch in here for device in watch.listeners)),
                motions,
                watched_share(level.ground, face, level.motions) if motions else 0.0,
                float(level.ground.floors[face].area),
            )
        )
    return watches
