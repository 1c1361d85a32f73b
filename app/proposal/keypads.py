"""Keypads at critical entries: above the light switch nearest the door, else on the wall at the door's latch side."""

from __future__ import annotations

import math

import numpy as np
import shapely

from app.plan.model import Device, Fixture, Opening, Room
from app.plan.room_uses import FOR_THE_CAN, KITCHEN_OR_BATH, UNCONDITIONED, is_main_bedroom, use_of
from app.proposal.proposals import Numbering, Proposal, below_ceiling, sentence
from app.proposal.wall_sides import Stretch, WallSides
from app.review.house import House, Storey
from app.review.rules.keypads import is_critical, leads_out

_OF_ROOM = 0.3  # ft off a room's floor: a switch drawn on the wall's line is still of the room
_ON_WALL = 0.75  # ft: a switch no farther off a wall's face hangs on it
_FROM_JAMB = 0.6  # ft from a door's jamb to a keypad beside it
_ROOM_FOR_IT = 0.3  # ft to either side of a keypad's middle


def propose_keypads(house: House, numbering: Numbering) -> list[Proposal]:
    """A keypad for each critical room that has none, and at least one for a house with a door."""
    found = []
    for storey in house:
        sides = WallSides(storey.scene)
        served = {room.id for one in storey.devices("keypad") if (room := storey.room_of_device[one.id]) is not None}
        for room in storey.level.rooms:
            if room.id not in served and storey.scene.face_of_room[room.id] >= 0 and is_critical(storey, room):
                why = "has no keypad" if is_main_bedroom(room) else "is a critical entry and has no keypad"
                found += _for_room(storey, sides, room, _door_of(storey, room), why, numbering)
    if found or any(storey.devices("keypad") for storey in house):
        return found
    return _at_family_door(house, numbering)


def _at_family_door(house: House, numbering: Numbering) -> list[Proposal]:
    """One keypad inside the door most likely in use, where no room is named an entry."""
    doors: list[tuple[tuple[bool, bool, bool, int], Storey, Room, Opening]] = []
    for storey in house:
        for opening in storey.exterior:
            rooms = [storey.scene.room_of_face.get(face) for face in storey.scene.sides[opening.id]]
            for name in rooms:
                if opening.kind == "door" and opening.opens and name is not None:
                    cold = use_of(storey.room_by_id[name]) in UNCONDITIONED
                    rank = (cold, opening.leaf != "swing", opening.has_glass, len(doors))
                    doors.append((rank, storey, storey.room_by_id[name], opening))
    if not doors:
        return []
    _, storey, room, door = min(doors, key=lambda entry: entry[0])
    why = f"lies inside {storey.name(door.id)}, and the house has no keypad"
    return _for_room(storey, WallSides(storey.scene), room, door, why, numbering)


def _door_of(storey: Storey, room: Room) -> Opening | None:
    """The door by which people come into a room: one that leads out, else one from another room."""
    face = storey.scene.face_of_room[room.id]
    beside = [one for one in storey.level.openings if face in storey.scene.sides[one.id] and one.kind != "window"]
    glass_last = sorted(beside, key=lambda one: one.has_glass)
    if is_main_bedroom(room):
        inside = [one for one in glass_last if not storey.scene.is_exterior(one)]
        return min(inside, key=lambda one: _leads_to_a_nook(storey, one, face), default=None)
    return next((one for one in glass_last if one.kind == "door" and leads_out(storey, one.id)), None)


def _leads_to_a_nook(storey: Storey, door: Opening, face: int) -> bool:
    """Whether a door leads from a face to a bath or closet, by which nobody comes in."""
    beyond = [storey.scene.room_of_face.get(side) for side in storey.scene.sides[door.id] if side != face]
    return any(room is not None and use_of(storey.room_by_id[room]) in KITCHEN_OR_BATH | FOR_THE_CAN for room in beyond)


def _for_room(
    storey: Storey, sides: WallSides, room: Room, door: Opening | None, why: str, numbering: Numbering
) -> list[Proposal]:
    face = storey.scene.face_of_room[room.id]
    walls = sides.stretches(face, storey.practice.number("keypad.height"), _ROOM_FOR_IT)
    switch = _nearest_switch(storey, face, door)
    note = None
    if switch is not None and switch.at is not None:
        at, facing = _above(walls, switch.at)
        place = f"above {storey.name(switch.id)}" + (f", the nearest to {storey.name(door.id)}" if door else "")
    else:
        spot = _beside(storey, walls, door)
        if spot is None:
            return []
        at, facing = spot
        place = f"beside {storey.name(door.id)}" if door else "on its longest wall"
        note = f"No light switch is drawn in this room: {place}; stack it above the switch once that is placed."
    height = below_ceiling(storey, storey.practice.number("keypad.height"))
    device = Device(id=numbering.next("keypad"), kind="keypad", at=at, facing=facing, height=height, note=note)
    reason = f"{sentence(storey.name(room.id))} {why}: {place}."
    return [Proposal(storey.level.id, device, reason)]


def _nearest_switch(storey: Storey, face: int, door: Opening | None) -> Fixture | None:
    floor = storey.scene.faces.floors[face]
    switches = [
        one
        for one in storey.level.fixtures
        if one.kind == "light_switch" and one.at and floor.distance(shapely.Point(one.at)) <= _OF_ROOM
    ]
    goal = storey.level.rooms[0].at if door is None else _middle(storey, door)
    if door is None:
        return switches[0] if switches else None
    return min(switches, key=lambda one: math.dist(one.at or goal, goal), default=None)


def _middle(storey: Storey, door: Opening) -> tuple[float, float]:
    return storey.level.wall_by_id[door.wall].along(door.offset + door.width / 2)


def _above(walls: list[Stretch], at: tuple[float, float]) -> tuple[tuple[float, float], float | None]:
    """The spot on the nearest wall's face at a switch, and the way that it faces; the switch's own spot off walls."""
    spots = [(math.dist(at, wall.spot(wall.nearest(*at))), number) for number, wall in enumerate(walls)]
    away, number = min(spots, default=(math.inf, -1))
    if away > _ON_WALL:
        return at, None
    return walls[number].spot(walls[number].nearest(*at)), walls[number].facing


def _beside(storey: Storey, walls: list[Stretch], door: Opening | None) -> tuple[tuple[float, float], float] | None:
    """A spot on the wall at the latch side of a door, else as near to the door as a wall of the room allows."""
    if not walls:
        return None
    if door is None:
        wall = max(walls, key=lambda one: one.length)
        return wall.spot((wall.start + wall.end) / 2), wall.facing
    own = storey.level.wall_by_id[door.wall]
    jambs = {"a": own.along(door.offset), "b": own.along(door.end)}
    latch = np.array(jambs["a" if door.hinge == "b" else "b"])
    other = np.array(jambs["b" if door.hinge == "b" else "a"])
    goal = latch + (latch - other) / max(float(np.hypot(*(latch - other))), 1e-9) * _FROM_JAMB
    spots = [(wall.spot(wall.nearest(*goal)), wall) for wall in walls]
    spot, wall = min(spots, key=lambda entry: (round(math.dist(entry[0], goal), 6), entry[0]))
    return spot, wall.facing
