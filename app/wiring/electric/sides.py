"""Where a device stands in the life of the house: the side that it faces, and the zone type that follows from it."""

from __future__ import annotations

import math
from collections.abc import Mapping
from functools import cached_property

from app.geometry.scene import LevelScene
from app.plan.model import Device, Opening, Plan
from app.wiring.pulls import Pull
from app.wiring.routes.axes import main_axes
from app.wiring.whereabouts import rooms_of

COMPASS = ("east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east")
NEAR_KEYPAD = 25.0  # ft: a door with a keypad this near on its level is taken for a way in and out
BY_KIND = {"glass_break": "perimeter", "flood": "24-hour", "smoke": "fire", "other": "not yet chosen"}


class Surroundings:
    """The openings, walls and keypads around the devices of a plan."""

    def __init__(self, plan: Plan, scenes: Mapping[str, LevelScene]) -> None:
        self._plan = plan
        self._scenes = scenes

    @cached_property
    def _angle(self) -> float:
        return main_axes(self._plan).angle

    @cached_property
    def _openings(self) -> dict[str, tuple[str, Opening]]:
        return {opening.id: (level.id, opening) for level in self._plan.levels for opening in level.openings}

    @cached_property
    def _keypads(self) -> list[tuple[str, Device]]:
        return [
            (level.id, device) for level in self._plan.levels for device in level.devices if device.kind == "keypad"
        ]

    @cached_property
    def _middles(self) -> dict[str, tuple[float, float]]:
        """The middle of each level's walls."""
        middles = {}
        for level in self._plan.levels:
            ends = [end for wall in level.walls for end in (wall.a, wall.b)] or [(0.0, 0.0)]
            xs, ys = [x for x, _ in ends], [y for _, y in ends]
            middles[level.id] = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
        return middles

    def side_of(self, pull: Pull) -> str:
        """The side of the house, as a word of the compass, that a contact's opening looks to."""
        outward = self._outward(pull)
        if outward is None:
            middle = self._middles[pull.level.id]
            outward = (pull.device.at[0] - middle[0], pull.device.at[1] - middle[1])
        turned = math.degrees(math.atan2(outward[1], outward[0])) - self._angle
        facing = self._angle + 90 * round(turned / 90)
        return COMPASS[round(facing / 45) % 8]

    def _served(self, pull: Pull) -> tuple[LevelScene, Opening] | None:
        for opening_id in pull.device.serves:
            level, opening = self._openings[opening_id]
            return self._scenes[level], opening
        return None

    def _outward(self, pull: Pull) -> tuple[float, float] | None:
        """A direction out of the house at the opening that a contact serves, where the walls tell it."""
        served = self._served(pull)
        if served is None:
            return None
        scene, opening = served
        wall = scene.level.wall_by_id[opening.wall]
        left = (wall.a[1] - wall.b[1], wall.b[0] - wall.a[0])
        faces = scene.sides[opening.id]
        if (faces[0] < 0) == (faces[1] < 0):
            return None
        return left if faces[0] < 0 else (-left[0], -left[1])

    def zone_type(self, pull: Pull) -> str:
        """The zone type that a pull's device asks for, in the words of ``zones.TYPES``."""
        kind = pull.device.kind
        if kind == "motion":
            return "interior follower" if pull.room in self._entry_rooms else "interior"
        if kind in BY_KIND:
            return BY_KIND[kind]
        served = self._served(pull)
        if served is not None and not served[0].is_exterior(served[1]):
            return "interior"
        way_in = kind == "door_contact" and self._near_keypad(pull.level.id, pull.device.at)
        return "entry/exit" if way_in else "perimeter"

    def _near_keypad(self, level: str, at: tuple[float, float]) -> bool:
        return any(there == level and math.dist(at, keypad.at) <= NEAR_KEYPAD for there, keypad in self._keypads)

    @cached_property
    def _entry_rooms(self) -> set[str]:
        """The rooms on the way between an entry door and a keypad: those that the doors open to and that hold one."""
        rooms = {rooms_of(self._scenes[level], [keypad])[0] for level, keypad in self._keypads}
        for level, opening in self._openings.values():
            scene = self._scenes[level]
            if opening.kind == "door" and scene.is_exterior(opening):
                middle = scene.level.wall_by_id[opening.wall].along(opening.offset + opening.width / 2)
                if self._near_keypad(level, middle):
                    rooms.add(scene.room_of_opening(opening.id))
        return {room for room in rooms if room is not None}
