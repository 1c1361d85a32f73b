"""A level compiled once: solid bodies, panes and faces, each with its spatial index. Immutable.

Every question shares it: a drag reuses the scene and recomputes one device; nothing here knows what a device is.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from app.geometry.bodies import Bodies, IntArray, compile_bodies
from app.geometry.panes import Panes, compile_panes
from app.geometry.rooms import Faces, compile_faces
from app.geometry.vicinity import Vicinities
from app.plan.model import Level, Opening, Room, Wall

JUST_OFF = 0.05  # ft from a centreline: near enough to lie in the face beside it


@dataclass(frozen=True)
class LevelScene:
    """What one level means in space."""

    level: Level
    bodies: Bodies
    panes: Panes

    @cached_property
    def vicinities(self) -> Vicinities:
        """What lies about places of the level, for many eyes one after the other."""
        return Vicinities(self.panes, self.bodies)

    @cached_property
    def faces(self) -> Faces:
        """The faces that the walls close."""
        return compile_faces(self.level.walls)

    @cached_property
    def room_by_id(self) -> dict[str, Room]:
        """The level's rooms by their ids."""
        return {room.id: room for room in self.level.rooms}

    @cached_property
    def face_of_room(self) -> dict[str, int]:
        """Room id to the index of its face, −1 where its point lies in no closed face."""
        rooms = self.level.rooms
        points = np.array([room.at for room in rooms]).reshape(-1, 2)
        return {room.id: int(face) for room, face in zip(rooms, self.faces.holding(points), strict=True)}

    @cached_property
    def room_of_face(self) -> dict[int, str]:
        """Index of a face to the first room that names it."""
        named: dict[int, str] = {}
        for room, face in self.face_of_room.items():
            if face >= 0:
                named.setdefault(face, room)
        return named

    def room_at(self, x: float, y: float) -> str | None:
        """The id of the room that holds a point, or None."""
        return self.room_of_face.get(self.faces.face_at(x, y))

    @cached_property
    def sides(self) -> dict[str, tuple[int, int]]:
        """Opening id to the faces left and right of its wall (seen from the wall's ``a``), −1 for outside."""
        walls = [self.level.wall_by_id[opening.wall] for opening in self.level.openings]
        middles = [
            wall.along(opening.offset + opening.width / 2)
            for opening, wall in zip(self.level.openings, walls, strict=True)
        ]
        return dict(
            zip((opening.id for opening in self.level.openings), self._faces_beside(walls, middles), strict=True)
        )

    @cached_property
    def sides_of_walls(self) -> dict[str, tuple[int, int]]:
        """Wall id to the faces left and right of its middle, −1 for outside."""
        walls = self.level.walls
        middles = [wall.along(wall.length / 2) for wall in walls]
        return dict(zip((wall.id for wall in walls), self._faces_beside(walls, middles), strict=True))

    def _faces_beside(self, walls: Sequence[Wall], middles: Sequence[tuple[float, float]]) -> list[tuple[int, int]]:
        normals = [((wall.a[1] - wall.b[1]) / wall.length, (wall.b[0] - wall.a[0]) / wall.length) for wall in walls]
        spots, off = np.array(middles).reshape(-1, 2), np.array(normals).reshape(-1, 2) * JUST_OFF
        left, right = self.faces.holding(spots + off), self.faces.holding(spots - off)
        return list(zip(left.tolist(), right.tolist(), strict=True))

    def is_exterior(self, opening: Opening) -> bool:
        """Whether an opening leads outdoors: as the plan says, else when no face lies on one of its sides."""
        return min(self.sides[opening.id]) < 0 if opening.exterior is None else opening.exterior

    def room_of_opening(self, opening_id: str) -> str | None:
        """The id of a named room beside an opening, the left one first, or None."""
        return next((self.room_of_face[face] for face in self.sides[opening_id] if face in self.room_of_face), None)

    @cached_property
    def rooms_overlooked(self) -> IntArray:
        """For each pane the face that it opens to: the named one of its two sides, else any, else −1."""
        faces = []
        for opening_id in self.panes.opening:
            sides = self.sides[opening_id]
            named = [face for face in sides if face in self.room_of_face]
            faces.append(named[0] if named else max(sides))
        return np.array(faces, dtype=np.int64)


def compile_level(level: Level, *, doors_open: bool = False) -> LevelScene:
    """Compile a level; cased openings are voids, and doors too where ``doors_open``."""

    def is_void(opening: Opening) -> bool:
        return opening.kind == "cased" or (doors_open and opening.kind == "door")

    return LevelScene(level, compile_bodies(level, is_void), compile_panes(level))
