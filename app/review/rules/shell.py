"""Rules on the shell: walls that close rooms, one name a room, openings that fit their wall."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from app.geometry.bodies import wall_top
from app.geometry.short_ends import short_ends
from app.plan.practice import COMMON_PRACTICE
from app.review.findings import Said, rule
from app.review.house import House
from app.review.rules.placing import ON_WALL

_GEOMETRY = "geometry: a room is a face of the wall centrelines"
_SAME = 1e-3  # ft
_WIDEST_GAP = 2.0  # ft: a wall end farther from other walls is meant to stand free


@rule(
    "shell.no_rooms",
    "should",
    words="The walls of a level close at least one room.",
    mend="Join the ends of the walls: each must meet another wall's end or centreline.",
    source=_GEOMETRY,
)
def no_rooms(house: House) -> Iterator[Said]:
    """Levels whose walls close nothing."""
    for storey in house:
        if storey.level.walls and not len(storey.scene.faces):
            gap = next(iter(short_ends(storey.level.walls, _WIDEST_GAP)), None)
            short = (
                "" if gap is None else f": wall {gap.wall} stops {house.length_text(gap.apart)} short of {gap.other}"
            )
            yield Said(
                (storey.level.id,) if gap is None else (storey.level.id, gap.wall, gap.other),
                f"The walls of {storey.level.name} close no room, so no floor can be watched; join their ends{short}.",
            )


@rule(
    "shell.room_open",
    "should",
    words="The point of each room lies in a face that walls close.",
    mend="Close the gap in the walls around the room, or move its name into the room.",
    source=_GEOMETRY,
)
def room_open(house: House) -> Iterator[Said]:
    """Rooms whose point lies in no closed face of a level that closes some, with the wall end that stops short."""
    for storey in house:
        open_rooms = [room for room, face in storey.scene.face_of_room.items() if face < 0 and len(storey.scene.faces)]
        gaps = short_ends(storey.level.walls, _WIDEST_GAP) if open_rooms else []
        for room in open_rooms:
            at = storey.room_by_id[room].at
            gap = min(gaps, key=lambda gap: math.dist(gap.at, at), default=None)
            things: tuple[str, ...] = (room,)
            where = "close the gap in its walls or move its name into the room"
            if gap is not None:
                things = (room, gap.wall, gap.other)
                short = house.length_text(gap.apart)
                where = f"wall {gap.wall} stops {short} short of wall {gap.other}: move its end to meet it"
            yield Said(
                things, f"{storey.name(room)} is not closed by walls: its point lies in no closed face; {where}."
            )


@rule(
    "shell.room_named_twice",
    "should",
    words="Each closed face has one name.",
    mend="Draw the wall between the rooms, or take one of the names out.",
    source=_GEOMETRY,
)
def room_named_twice(house: House) -> Iterator[Said]:
    """Faces that two or more rooms name."""
    for storey in house:
        together: dict[int, list[str]] = {}
        for room, face in storey.scene.face_of_room.items():
            if face >= 0:
                together.setdefault(face, []).append(room)
        for rooms in together.values():
            if len(rooms) > 1:
                names = " and ".join(map(storey.name, rooms))
                yield Said(
                    tuple(rooms), f"{names} lie in one closed face; draw the wall between them or keep one name."
                )


@rule(
    "shell.walls_overlap",
    "note",
    words="No wall is drawn over another along the same line.",
    mend="Take one of the walls out, or shorten it.",
    source="geometry: bodies that overlap are counted once, but a cable or a schedule may count them twice",
)
def walls_overlap(house: House) -> Iterator[Said]:
    """Pairs of walls that share a stretch of one centreline."""
    for storey in house:
        for pair, feet in storey.scene.faces.shared.items():
            one, two = (storey.level.walls[index].id for index in pair)
            yield Said(
                (one, two),
                f"Walls {one} and {two} lie over each other for {house.length_text(feet)}; take one out or shorten it.",
            )


@rule(
    "shell.opening_too_high",
    "should",
    words="An opening ends at or below the top of its wall.",
    mend="Lower the opening's head, or raise the wall or the ceiling.",
    source="geometry: glass above the wall hangs in the air",
)
def opening_too_high(house: House) -> Iterator[Said]:
    """Openings whose head is above the top of their wall."""
    for storey in house:
        for opening in storey.level.openings:
            top = wall_top(storey.level.wall_by_id[opening.wall], storey.level.ceiling)
            if opening.kind != "cased" and opening.head > top + _SAME:
                yield Said(
                    (opening.id,),
                    f"{storey.name(opening.id)} ends at {house.length_text(opening.head)}, above its "
                    f"wall's top at {house.length_text(top)}; lower its head.",
                )


@rule(
    "shell.fixture_outside",
    "note",
    words="A bed, light switch, chime, register or outlet stands in the house or on its walls.",
    mend="Drag the fixture into the house.",
    source=COMMON_PRACTICE,
)
def fixture_outside(house: House) -> Iterator[Said]:
    """Point fixtures that lie in no closed face and near no wall, where walls close a room at all."""
    for storey in house:
        points = {one.id: one.at for one in storey.level.fixtures if one.at is not None}
        if not points or not len(storey.scene.faces):
            continue
        faces = storey.scene.faces.holding(np.array(list(points.values())))
        for (fixture, at), face in zip(points.items(), faces, strict=True):
            if face < 0 and not len(storey.scene.bodies.near(*at, ON_WALL)):
                yield Said((fixture,), f"{storey.name(fixture)} lies outside the house; drag it in.")
