"""A plan with everything computed that rules and drawings ask of it: scenes, proofs of glass and motion, names.

Each answer is worked out once, when first asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property

from app.coverage.glass import GlassProof, PaneVerdict, judge_panes, prove_all_glass
from app.coverage.listening import Listening
from app.coverage.mend import Mender
from app.coverage.motion import Ground, MotionProof, ground_of, prove_all_motion
from app.coverage.sound import LITTLE, Heard, listen, pillows, sounders
from app.coverage.sound_round import WaysRound
from app.coverage.walks import Goal, WalkGraph
from app.coverage.ways_in import goals_of
from app.coverage.why import find_what_hides
from app.geometry.scene import LevelScene, compile_level
from app.plan.devices import DEVICE_KIND
from app.plan.measures import length_text
from app.plan.model import Device, FixtureKind, Level, Opening, Plan, Room, Wall
from app.plan.practice import Practice
from app.review.accepted import Acceptance, acceptances
from app.wiring.whereabouts import rooms_of
from app.wiring.wiring import Wiring

CONTACT_KINDS = ("door_contact", "window_contact", "overhead_door_contact")


@dataclass(frozen=True)
class Storey:
    """One level of the house with its scene and its proofs."""

    level: Level
    scene: LevelScene
    practice: Practice
    units: str

    def devices(self, *kinds: str) -> list[Device]:
        """The level's devices of some kinds, in the order of the file."""
        return [device for device in self.level.devices if device.kind in kinds]

    def spots(self, kind: FixtureKind) -> dict[str, tuple[float, float]]:
        """Where the level's point fixtures of a kind are, by their ids."""
        return {one.id: one.at for one in self.level.fixtures if one.kind == kind and one.at is not None}

    @cached_property
    def glass(self) -> list[GlassProof]:
        """What each glass-break detector reaches."""
        return prove_all_glass(self.scene, self.devices("glass_break"), self.practice)

    @cached_property
    def verdicts(self) -> list[PaneVerdict]:
        """How each pane stands."""
        return judge_panes(self.scene, self.glass, self.practice.number("glass.required_fraction"))

    @cached_property
    def ground(self) -> Ground:
        """The floor that people stand on, at the practice's height of target."""
        return ground_of(self.scene, self.practice.number("motion.target_height"))

    @cached_property
    def motions(self) -> list[MotionProof]:
        """What each motion detector watches."""
        return prove_all_motion(self.scene, self.ground, self.devices("motion"), self.practice)

    @cached_property
    def opening_by_id(self) -> dict[str, Opening]:
        """The level's openings by their ids."""
        return {opening.id: opening for opening in self.level.openings}

    @cached_property
    def exterior(self) -> list[Opening]:
        """The openings that lead outdoors, in the order of the file."""
        return [opening for opening in self.level.openings if self.scene.is_exterior(opening)]

    @property
    def room_by_id(self) -> dict[str, Room]:
        """The level's rooms by their ids."""
        return self.scene.room_by_id

    @cached_property
    def room_of_device(self) -> dict[str, Room | None]:
        """The room that each device belongs to, or None."""
        found = rooms_of(self.scene, self.level.devices)
        return {
            device.id: None if room is None else self.room_by_id[room]
            for device, room in zip(self.level.devices, found, strict=True)
        }

    @cached_property
    def names(self) -> dict[str, str]:
        """What people call each thing of the level, by its id."""
        names: dict[str, str] = {}
        for wall in self.level.walls:
            names[wall.id] = self._wall_name(wall)
        for opening in self.level.openings:
            names[opening.id] = _with_word(opening.kind, opening.id)
        for fixture in self.level.fixtures:
            names[fixture.id] = fixture.label or _with_word(fixture.kind.replace("_", " "), fixture.id)
        for room in self.level.rooms:
            names[room.id] = room.name or f"room {room.id}"
        for device in self.level.devices:
            names[device.id] = device.label or _with_word(DEVICE_KIND[device.kind].abbreviation, device.id)
        for pane, owner in zip(self.scene.panes.name, self.scene.panes.opening, strict=True):
            lites = self.opening_by_id[owner].panes
            names[pane] = names[owner] if lites == 1 else f"{names[owner]} lite {pane.rsplit('/', 1)[1]} of {lites}"
        return names

    def _wall_name(self, wall: Wall) -> str:
        """A wall by the rooms on its sides, which people know, and its id, which the page finds."""
        rooms = [self.scene.room_of_face.get(face) for face in self.scene.sides_of_walls[wall.id]]
        beside = "/".join(dict.fromkeys(self._room_names[room] for room in rooms if room and self._room_names[room]))
        kind = "half wall" if wall.height is not None else "wall"
        return f"{kind} {wall.id} ({beside})" if beside else f"{kind} {wall.id}"

    @cached_property
    def _room_names(self) -> dict[str, str]:
        return {room.id: room.name for room in self.level.rooms}

    def name(self, thing: str) -> str:
        """What people call a thing, or its id."""
        return self.names.get(thing, thing)

    @cached_property
    def listening(self) -> Listening:
        """The level's glass-break detectors as they stand, with what hides its panes from them."""
        listening = self.listening_by(self.devices("glass_break"), self.glass)
        find_what_hides(listening, self.verdicts)
        return listening

    def listening_by(
        self, detectors: list[Device], proofs: list[GlassProof], hung: Mapping[str, int] | None = None
    ) -> Listening:
        """The level's panes with other detectors than the stored ones, for a trial; ``hung`` as in ``Listening``."""
        required = self.practice.number("glass.required_fraction")
        reach = self.practice.number("glass.range")
        return Listening(
            self.scene, detectors, proofs, self.verdicts, required, reach, self.units, self.name, hung or {}
        )

    @cached_property
    def mender(self) -> Mender:
        """Finds what would mend the level's panes."""
        return Mender(self.listening)


def _with_word(word: str, name: str) -> str:
    """An id after the word for what it is, which is left out where the id begins with it."""
    return name if name.lower().startswith(word.lower()) else f"{word} {name}"


class House:
    """A whole plan, level by level."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan
        self.practice = plan.practice_in_force
        doors_open = self.practice.text("doors.taken_as") == "open"
        self.storeys: dict[str, Storey] = {
            level.id: Storey(level, compile_level(level, doors_open=doors_open), self.practice, plan.units)
            for level in plan.levels
        }

    def __iter__(self) -> Iterator[Storey]:
        return iter(self.storeys.values())

    @cached_property
    def acceptances(self) -> tuple[Acceptance, ...]:
        """The findings that the plan's notes accept, with reasons and names."""
        return acceptances(self.plan)

    @cached_property
    def contacts(self) -> dict[str, list[Device]]:
        """The contacts that serve each opening of the house, by the opening's id."""
        serving: dict[str, list[Device]] = {}
        for storey in self:
            for contact in storey.devices(*CONTACT_KINDS):
                for opening in contact.serves:
                    serving.setdefault(opening, []).append(contact)
        return serving

    @cached_property
    def scenes(self) -> dict[str, LevelScene]:
        """The compiled levels by their ids."""
        return {level: storey.scene for level, storey in self.storeys.items()}

    @cached_property
    def goals(self) -> tuple[list[Goal], list[Goal]]:
        """The bedrooms and the rooms of the heart of the home, as goals to walk to."""
        return goals_of(self.scenes)

    @cached_property
    def keypads(self) -> list[Goal]:
        """The keypads as goals to walk to, on the floor of the room that each belongs to."""
        return [
            Goal(
                device.id,
                level,
                device.at,
                None if (room := storey.room_of_device[device.id]) is None else storey.scene.face_of_room[room.id],
            )
            for level, storey in self.storeys.items()
            for device in storey.devices("keypad")
        ]

    @cached_property
    def walks(self) -> WalkGraph:
        """The ways on foot through the house to bedrooms, heart and keypads."""
        bedrooms, hearts = self.goals
        return WalkGraph(self.scenes, {goal.name: goal for goal in (*bedrooms, *hearts, *self.keypads)}.values())

    @cached_property
    def motions(self) -> dict[str, list[MotionProof]]:
        """What the motion detectors of each level watch."""
        return {level: storey.motions for level, storey in self.storeys.items()}

    @cached_property
    def wiring(self) -> Wiring:
        """The cable of the plan."""
        return Wiring(self.plan, self.scenes)

    @cached_property
    def heard_in_bed(self) -> list[Heard]:
        """What is heard on every bed of all sirens and keypad sounders.

        The way round by the doors is looked for only where the straight way leaves a bed below the yardstick.
        """
        asked, sources, ears = self.practice.number("sound.bedside"), sounders(self.plan), pillows(self.plan)
        straight = listen(self.scenes, self.practice, sources, ears)
        quiet = [heard for heard in straight if heard.level < asked]
        if not quiet or not sources:
            return straight
        near = {ray.device for heard in quiet for ray in heard.rays}
        able = [source for source in sources if source.device in near]
        ways = WaysRound(self.scenes, self.practice, able, [heard.listener for heard in quiet])
        return [heard if heard.level >= asked else ways.heard_until(heard, asked - LITTLE, asked) for heard in straight]

    def name(self, thing: str) -> str:
        """What people call a thing of any level, or its id."""
        return next((storey.names[thing] for storey in self if thing in storey.names), thing)

    def length_text(self, feet: float) -> str:
        """A length as the plan's units write it."""
        return length_text(feet, self.plan.units)
