"""Where on a level's ceilings a detector may hang, and where nobody likes it: near walls, registers, in wet rooms.

A detector hangs over a room's floor, clear of bodies that reach the ceiling. Rooms are joined where sight passes
between them: through voids and over half walls.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.geometry.bodies import IntArray, wall_corners, wall_top
from app.geometry.joined import Joined
from app.geometry.scene import LevelScene
from app.plan.model import Opening
from app.plan.practice import Practice
from app.plan.room_uses import KITCHEN_OR_BATH, use_of

OUTDOORS = frozenset(("porch", "patio", "deck", "courtyard", "balcony", "terrace", "carport", "breezeway"))
CLEAR_OF_WALLS = 1.0  # ft: common practice, no source
_A_HAIR = 0.02  # ft: buffers are drawn as polygons inside their circles
_BESIDE = 0.1  # ft beyond an opening's faces: enough to touch the rooms on both sides
_NEAR_WALL, _NEAR_REGISTER, _WET, _UNNAMED = 1, 2, 4, 1  # penalties of a place, added


@dataclass(frozen=True)
class Ceilings:
    """The ceilings of one level."""

    scene: LevelScene
    practice: Practice

    def hanging(self, face: int) -> BaseGeometry:
        """The part of a face's floor over which a detector may hang, in plan."""
        return self._hanging[face]

    @cached_property
    def _hanging(self) -> dict[int, BaseGeometry]:
        faces, bodies = self.scene.faces, self.scene.bodies
        ceiling = self.scene.level.ceiling
        to_ceiling = np.flatnonzero(np.isnan(bodies.centreline[:, 0, 0]) & (bodies.top >= ceiling))
        hanging = {face: faces.floors[face] for face in range(len(faces))}
        if len(to_ceiling) and len(faces):
            body, face = faces.floor_tree.query(bodies.footprints[to_ceiling], predicate="intersects")
            for index in np.unique(face):
                standing = shapely.union_all(bodies.footprints[to_ceiling[body[face == index]]])
                hanging[int(index)] = shapely.difference(hanging[int(index)], standing)
        return hanging

    @cached_property
    def outdoors(self) -> frozenset[int]:
        """Faces that are no rooms of the house: porches and courts, by their use or by the openings that lead there."""
        scene = self.scene
        out = {face for face in scene.room_of_face if self._use(face) in OUTDOORS}
        for opening in scene.level.openings:
            sides = scene.sides[opening.id]
            if opening.exterior and min(sides) >= 0 and any(face in scene.room_of_face for face in sides):
                out.update(face for face in sides if face not in scene.room_of_face)
        return frozenset(out)

    def _use(self, face: int) -> str:
        return self._uses.get(self.scene.room_of_face[face], "")

    @cached_property
    def _uses(self) -> dict[str, str]:
        return {room.id: use_of(room) for room in self.scene.level.rooms}

    @cached_property
    def _group(self) -> IntArray:
        """For each face the number of its group: faces between which some sight line may pass."""
        scene = self.scene
        groups = Joined(len(scene.faces))
        passages = [self._span(opening) for opening in scene.level.openings if self._is_void(opening)]
        passages += [
            shapely.Polygon(wall_corners(wall))
            for wall in scene.level.walls
            if wall_top(wall, scene.level.ceiling) < scene.level.ceiling
        ]
        if passages and len(scene.faces):
            number, face = scene.faces.tree.query(np.array(passages, dtype=object), predicate="intersects")
            for index in np.unique(number):
                joined = face[number == index]
                for other in joined[1:]:
                    groups.join(int(other), int(joined[0]))
        return np.array([groups.root(face) for face in range(len(scene.faces))], dtype=np.int64)

    def _is_void(self, opening: Opening) -> bool:
        return opening.kind == "cased" or (self._doors_open and opening.kind == "door")

    @cached_property
    def _doors_open(self) -> bool:
        return self.practice.text("doors.taken_as") == "open"

    def _span(self, opening: Opening) -> BaseGeometry:
        wall = self.scene.level.wall_by_id[opening.wall]
        line = shapely.LineString([wall.along(opening.offset), wall.along(min(opening.end, wall.length))])
        return line.buffer(wall.thickness / 2 + _BESIDE, cap_style="flat")

    @cached_property
    def _members(self) -> dict[int, list[int]]:
        members: dict[int, list[int]] = {}
        for face, group in enumerate(self._group.tolist()):
            if face not in self.outdoors:
                members.setdefault(group, []).append(face)
        return members

    def faces_towards(self, opening_id: str) -> list[int]:
        """The indoor faces from which glass of an opening might be seen, in order."""
        groups = {int(self._group[face]) for face in self.scene.sides[opening_id] if face >= 0}
        own = {face for face in self.scene.sides[opening_id] if face >= 0 and face not in self.outdoors}
        if not own:
            return []
        return sorted(face for group in groups for face in self._members.get(group, ()))

    def within_reach(self, opening_id: str, reach: float) -> BaseGeometry:
        """The hanging places, no farther than ``reach`` in plan, from which an opening's glass might be seen."""
        opening = self._openings[opening_id]
        near = shapely.box(*shapely.bounds(self._span(opening)) + np.array([-reach, -reach, reach, reach]))
        close = set(self.scene.faces.floor_tree.query(near).tolist())
        parts = [self.hanging(face) for face in self.faces_towards(opening_id) if face in close]
        polygons = [part for part in shapely.get_parts(parts) if part.geom_type == "Polygon"]
        return shapely.multipolygons(polygons) if polygons else shapely.Polygon()

    @cached_property
    def _openings(self) -> dict[str, Opening]:
        return {opening.id: opening for opening in self.scene.level.openings}

    def zones(self, faces: list[int]) -> list[tuple[int, BaseGeometry]]:
        """The unloved places over some faces, each with its penalty."""
        return [zone for face in faces for zone in self._zones_of(face)]

    def _zones_of(self, face: int) -> list[tuple[int, BaseGeometry]]:
        floor = self.hanging(face)
        core = shapely.buffer(floor, -CLEAR_OF_WALLS, join_style="mitre")
        zones = [(_NEAR_WALL, shapely.difference(floor, core))]
        near = self._registers
        if not near.is_empty and shapely.intersects(near, floor):
            zones.append((_NEAR_REGISTER, shapely.intersection(near, floor)))
        if face not in self.scene.room_of_face:
            zones.append((_UNNAMED, floor))
        elif self._use(face) in KITCHEN_OR_BATH:
            zones.append((_WET, floor))
        return [(penalty, zone) for penalty, zone in zones if not zone.is_empty]

    @cached_property
    def _registers(self) -> BaseGeometry:
        spots = [one.at for one in self.scene.level.fixtures if one.kind == "supply_register" and one.at is not None]
        clearance = self.practice.number("glass.register_clearance") + _A_HAIR
        return shapely.union_all(shapely.buffer(shapely.points(spots), clearance)) if spots else shapely.Polygon()
