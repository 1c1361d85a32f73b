"""One level's floor as people walk it: what sees what in each room, around furniture and the jambs of its openings.

Nothing is searched here; ``walks`` finds the shortest ways through what this gives.
"""

from __future__ import annotations

from functools import cached_property

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from app.coverage.motion import ground_of
from app.geometry.bodies import FloatArray
from app.geometry.scene import LevelScene
from app.plan.model import Opening
from app.plan.room_uses import STAIR, use_of

Node = tuple[str, str, int, int]  # what it is; its id, or for a bend its level; its face; its number there
Spot = tuple[float, float]

KNEE = 1.0  # ft: what stands on the floor and reaches this height is walked around
NARROWEST = 1.0  # ft: nobody walks through less
LANDING = 3.0  # ft into the room: a tub or a counter below a window is climbed over
_FOOT = 0.25  # ft into the room
_OVER_SILL = 0.5  # ft above the sill: what is higher keeps people out
_SNAP = 2.0  # ft: a goal on a wall belongs to the floor this near
_HAIR = 1e-4  # ft by which a room is widened, so that passages join it and a way along its walls stays in it


def opening_node(opening: str) -> Node:
    """The node in the middle of an opening."""
    return ("opening", opening, -1, 0)


def furnished(scene: LevelScene) -> NDArray[np.object_]:
    """The floor of each face that people walk on: less the furniture that stands on it."""
    return ground_of(scene, KNEE).floors


def bare(scene: LevelScene) -> NDArray[np.object_]:
    """The floor of each face as sound finds it: furniture hinders nothing."""
    return scene.faces.floors


class WalkingFloor:
    """One level's floors for walking: each face with the passages of its openings, goals and stairs."""

    def __init__(self, level: str, scene: LevelScene, ground: NDArray[np.object_]) -> None:
        self.level = level
        self.scene = scene
        self.ground = ground
        self.goals: dict[int, list[tuple[Node, Spot]]] = {}

    @cached_property
    def doors(self) -> list[tuple[str, Spot, tuple[int, ...]]]:
        """What can be walked or climbed through: the opening's id, its middle, the faces beside it."""
        found = []
        for opening in self.scene.level.openings:
            faces = tuple(face for face in self.scene.sides[opening.id] if face >= 0)
            if opening.width >= NARROWEST and faces and self._is_way(opening):
                wall = self.scene.level.wall_by_id[opening.wall]
                found.append((opening.id, wall.along(opening.offset + opening.width / 2), faces))
        return found

    def _is_way(self, opening: Opening) -> bool:
        """Outdoor openings are ways in, windows too; indoors people walk through doors and cased openings."""
        if self.scene.is_exterior(opening):
            return True
        return opening.kind == "cased" or (opening.kind == "door" and opening.opens)

    @cached_property
    def _doors_of_face(self) -> dict[int, list[tuple[str, Spot]]]:
        of_face: dict[int, list[tuple[str, Spot]]] = {}
        for opening, at, faces in self.doors:
            for face in faces:
                of_face.setdefault(face, []).append((opening, at))
        return of_face

    @cached_property
    def _faces_of_door(self) -> dict[str, tuple[int, ...]]:
        return {opening: faces for opening, _, faces in self.doors}

    @cached_property
    def stairs(self) -> list[tuple[str, int]]:
        """The stair rooms with their faces."""
        faces = self.scene.face_of_room
        return [
            (room.id, faces[room.id])
            for room in self.scene.level.rooms
            if use_of(room) in STAIR and faces[room.id] >= 0 and not self.ground[faces[room.id]].is_empty
        ]

    def faces_of(self, node: Node) -> tuple[int, ...]:
        """The faces whose sight lines a node takes part in: both beside an opening, else its own."""
        return self._faces_of_door[node[1]] if node[0] == "opening" else (node[2],)

    def snap(self, at: Spot, face: int | None) -> tuple[int, Spot] | None:
        """The face and the nearest spot of its floor to a point, None where no floor is near."""
        point = shapely.Point(at)
        if face is None or face < 0:
            near = self.scene.faces.floor_tree.query_nearest(point, max_distance=_SNAP, all_matches=False)
            if not len(near):
                return None
            face = int(near[0])
        floor = self.ground[face]
        if floor.is_empty:
            return None
        nearest = shapely.get_coordinates(shapely.shortest_line(floor, point))[0]
        return face, (float(nearest[0]), float(nearest[1]))

    def sight_lines(self, face: int) -> tuple[list[Node], FloatArray, list[tuple[int, int]], FloatArray]:
        """The nodes of a face with their spots, and the pairs of them that see each other with their feet."""
        doors = self._doors_of_face.get(face, [])
        region = self._region(face, [opening for opening, _ in doors])
        bends = _bends(region)
        nodes: list[Node] = [opening_node(opening) for opening, _ in doors]
        nodes += [node for node, _ in self.goals.get(face, [])]
        nodes += [("bend", self.level, face, number) for number in range(len(bends))]
        spots = np.array([at for _, at in doors] + [at for _, at in self.goals.get(face, [])] + [*bends]).reshape(-1, 2)
        if len(nodes) < 2:
            return nodes, spots, [], np.empty(0)
        ends = np.column_stack(np.triu_indices(len(nodes), 1))
        lines = shapely.linestrings(spots[ends])
        # Ways run along the region's edge; a hair more room keeps rounding from hiding one corner from the next.
        room = shapely.buffer(region, _HAIR, join_style="mitre")
        shapely.prepare(room)
        seen = np.flatnonzero(shapely.covers(room, lines))
        return nodes, spots, [(int(one), int(two)) for one, two in ends[seen]], shapely.length(lines[seen])

    def _region(self, face: int, openings: list[str]) -> BaseGeometry:
        """A face's floor with the half of each opening's passage that lies on its side of the wall's line."""
        if not openings:
            return self.ground[face]
        # A hair deeper than the wall, so that floor and passage overlap and join at the jambs.
        passages = shapely.polygons(np.array([self._hole(name, _HAIR) for name in openings]))
        halves = shapely.intersection(passages, self.scene.faces.outline[face])
        landings = [self._landing(face, name) for name in openings if self._is_blocked(face, name)]
        return shapely.union_all([self.ground[face], *halves, *landings])

    def _hole(self, name: str, deep: float) -> FloatArray:
        """The four corners of an opening's hole in its wall, ``deep`` feet deeper on both sides."""
        opening = self._opening[name]
        wall = self.scene.level.wall_by_id[opening.wall]
        jambs = np.array([wall.along(opening.offset), wall.along(opening.end)])
        along = (jambs[1] - jambs[0]) / opening.width
        across = np.array([-along[1], along[0]]) * (wall.thickness / 2 + deep)
        return np.array([jambs[0] - across, jambs[1] - across, jambs[1] + across, jambs[0] + across])

    def _is_blocked(self, face: int, name: str) -> bool:
        """Whether furniture stands all along the foot of an outdoor opening."""
        floor = self.scene.faces.floors[face]
        if self.ground[face] is floor or not self.scene.is_exterior(self._opening[name]):
            return False
        foot = shapely.intersection(shapely.Polygon(self._hole(name, _FOOT)), floor)
        return bool(shapely.intersection(foot, self.ground[face]).area < 0.01 * foot.area)

    def _landing(self, face: int, name: str) -> BaseGeometry:
        """The floor at the foot of an opening with what is lower than its sill: people climb in over it."""
        sill = self._opening[name].sill
        landing = shapely.intersection(shapely.Polygon(self._hole(name, LANDING)), self.scene.faces.floors[face])
        high = [
            shapely.Polygon(fixture.polygon)
            for fixture in self.scene.level.fixtures
            if fixture.polygon is not None and fixture.base < sill + KNEE
            if fixture.top is None or fixture.top > sill + _OVER_SILL
        ]
        return shapely.difference(landing, shapely.union_all(high)) if high else landing

    @cached_property
    def _opening(self) -> dict[str, Opening]:
        return {opening.id: opening for opening in self.scene.level.openings}


def _bends(region: BaseGeometry) -> list[Spot]:
    """The corners of a region at which a shortest way may bend: those that stick into it."""
    bends: list[Spot] = []
    for part in shapely.get_parts(region):
        if part.geom_type == "Polygon" and not part.is_empty:
            bends += _sticking_in(shapely.get_coordinates(part.exterior), inside=True)
            for hole in part.interiors:
                bends += _sticking_in(shapely.get_coordinates(hole), inside=False)
    return bends


def _sticking_in(ring: FloatArray, *, inside: bool) -> list[Spot]:
    """The corners of a closed ring at which free floor takes more than half a turn; ``inside``: the ring holds it."""
    edges = np.diff(ring, axis=0)
    before = np.roll(edges, 1, axis=0)
    turn = before[:, 0] * edges[:, 1] - before[:, 1] * edges[:, 0]
    corners = ring[:-1] - ring[0]
    onward = ring[1:] - ring[0]
    twice_area = float((corners[:, 0] * onward[:, 1] - corners[:, 1] * onward[:, 0]).sum())
    if (twice_area > 0) != inside:
        turn = -turn
    return [(float(x), float(y)) for x, y in ring[:-1][turn < -1e-9]]
