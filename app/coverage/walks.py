"""Walks: the shortest ways on foot through a house, by its doors and cased openings, around furniture, in true feet.

In each room the graph joins all doors, goals and corners at which a way can bend that see each other, so that its
walks through the middles of doors are the shortest there are. Rooms are worked out when a search gets there.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from numpy.typing import NDArray

from app.coverage.walking_floor import Node, Spot, WalkingFloor, furnished, opening_node
from app.geometry.bodies import FloatArray
from app.geometry.scene import LevelScene

STAIR_SLOPE = 1.63  # ft walked a foot of rise: steps of 7 3/4 by 10 in, IRC R311.7.5, from memory
_OVERLAP = 1.0  # sq ft that rooms of two levels share where stairs lead from one to the other


@dataclass(frozen=True)
class Goal:
    """A spot to walk to on a level; ``face`` says which room's floor, or None for the nearest."""

    name: str
    level: str
    at: Spot
    face: int | None = None


@dataclass(frozen=True)
class Leg:
    """A stretch of a walk on one level: its corners (n, 2) in plan and the feet walked before it."""

    level: str
    corners: FloatArray
    before: float


@dataclass(frozen=True)
class Walk:
    """A walk from an opening to a goal: its feet, its legs, and the openings passed as (id, feet walked there)."""

    opening: str
    goal: str
    feet: float
    legs: tuple[Leg, ...]
    passed: tuple[tuple[str, float], ...]


class WalkGraph:
    """The ways through the levels of a house to some goals; ``floors`` gives the floor of each face of a level."""

    def __init__(
        self,
        scenes: Mapping[str, LevelScene],
        goals: Iterable[Goal],
        floors: Callable[[LevelScene], NDArray[np.object_]] = furnished,
    ) -> None:
        self._floors = {level: WalkingFloor(level, scene, floors(scene)) for level, scene in scenes.items()}
        self._place: dict[Node, tuple[str, Spot]] = {}
        self._edges: dict[Node, dict[Node, float]] = {}
        self._built: set[tuple[str, int]] = set()
        self._complete: set[Node] = set()
        self._goal_node: dict[str, Node] = {}
        for floor in self._floors.values():
            for opening, at, _ in floor.doors:
                self._place[opening_node(opening)] = (floor.level, at)
        for goal in goals:
            self._add_goal(goal)
        self._stairs = self._link_stairs()

    def _add_goal(self, goal: Goal) -> None:
        floor = self._floors[goal.level]
        snapped = floor.snap(goal.at, goal.face)
        if snapped is not None:
            face, at = snapped
            node = ("goal", goal.name, face, 0)
            self._goal_node[goal.name] = node
            self._place[node] = (goal.level, at)
            floor.goals.setdefault(face, []).append((node, at))

    def _link_stairs(self) -> dict[Node, list[tuple[Node, float]]]:
        """Stairs lead from a stair room to the one that lies over it on the next level up.

        A stair room with none over or under it, as where stairs rise from an open hall, leads to the free floor
        nearest its middle of the room that most of it lies over or under.
        """
        links: dict[Node, list[tuple[Node, float]]] = {}
        order = sorted(self._floors.values(), key=lambda floor: floor.scene.level.elevation)
        for low, high in pairwise(order):
            feet = STAIR_SLOPE * (high.scene.level.elevation - low.scene.level.elevation)
            for foot, head in self._flights(low, high):
                links.setdefault(foot, []).append((head, feet))
                links.setdefault(head, []).append((foot, feet))
        return links

    def _flights(self, low: WalkingFloor, high: WalkingFloor) -> list[tuple[Node, Node]]:
        """The feet and heads of the stairs between two levels."""
        pairs = [
            (a, b)
            for a in low.stairs
            for b in high.stairs
            if shapely.intersection(low.scene.faces.outline[a[1]], high.scene.faces.outline[b[1]]).area >= _OVERLAP
        ]
        flights = [(self._stair_node(low, *a), self._stair_node(high, *b)) for a, b in pairs]
        flights += [
            (self._stair_node(low, *room), head)
            for room in low.stairs
            if all(room != a for a, _ in pairs) and (head := self._open_end(low, room, high)) is not None
        ]
        flights += [
            (foot, self._stair_node(high, *room))
            for room in high.stairs
            if all(room != b for _, b in pairs) and (foot := self._open_end(high, room, low)) is not None
        ]
        return flights

    def _open_end(self, floor: WalkingFloor, stair: tuple[str, int], other: WalkingFloor) -> Node | None:
        """Where a stair room's flight ends on a level that has no stair room for it, or None where no floor is."""
        outline = floor.scene.faces.outline[stair[1]]
        shared = shapely.area(shapely.intersection(other.scene.faces.outline, outline))
        if not len(shared) or shared.max() < _OVERLAP:
            return None
        middle = floor.ground[stair[1]].representative_point()
        snapped = other.snap((middle.x, middle.y), int(shared.argmax()))
        if snapped is None:
            return None
        face, at = snapped
        node: Node = ("stair", f"{stair[0]} on {other.level}", face, 0)
        self._place[node] = (other.level, at)
        other.goals.setdefault(face, []).append((node, at))
        return node

    def _stair_node(self, floor: WalkingFloor, room: str, face: int) -> Node:
        node = ("stair", room, face, 0)
        if node not in self._place:
            point = floor.ground[face].representative_point()
            self._place[node] = (floor.level, (point.x, point.y))
            floor.goals.setdefault(face, []).append((node, (point.x, point.y)))
        return node

    def node_of_opening(self, opening: str) -> Node | None:
        """The node in the middle of an opening, or None where nobody can come in by it."""
        node = opening_node(opening)
        return node if node in self._place else None

    def node_of_goal(self, goal: str) -> Node | None:
        """The node of a goal, or None where it lies on no floor."""
        return self._goal_node.get(goal)

    def reached(self, goal: str) -> bool:
        """Whether a goal lies on a floor."""
        return goal in self._goal_node

    def place(self, node: Node) -> tuple[str, Spot]:
        """The level and the spot of a node."""
        return self._place[node]

    def neighbours(self, node: Node) -> dict[Node, float]:
        """The nodes that a node sees, with the feet to them; works out its rooms when first asked."""
        if node in self._complete:
            return self._edges[node]
        self._complete.add(node)
        level = self._place[node][0]
        floor = self._floors[level]
        for face in floor.faces_of(node):
            if (level, face) not in self._built:
                self._built.add((level, face))
                self._build(floor, face)
        for other, feet in self._stairs.get(node, ()):
            self._edges.setdefault(node, {})[other] = feet
        return self._edges.setdefault(node, {})

    def _build(self, floor: WalkingFloor, face: int) -> None:
        nodes, spots, pairs, feet = floor.sight_lines(face)
        for node, spot in zip(nodes, spots, strict=True):
            self._place.setdefault(node, (floor.level, (float(spot[0]), float(spot[1]))))
        edges = [self._edges.setdefault(node, {}) for node in nodes]
        for (one, two), length in zip(pairs, feet.tolist(), strict=True):
            # Two nodes may see each other in both rooms beside a wall; the shorter way stands.
            if length < edges[one].get(nodes[two], math.inf):
                edges[one][nodes[two]] = edges[two][nodes[one]] = length

    def edges(self) -> Iterable[tuple[Node, Node, float]]:
        """Every edge of the whole graph, each way, for those who search it by other means."""
        for level, floor in self._floors.items():
            for face in range(len(floor.scene.faces)):
                if (level, face) not in self._built:
                    self._built.add((level, face))
                    self._build(floor, face)
        for node in list(self._place):
            for other, feet in self.neighbours(node).items():
                yield node, other, feet

    def nearest(self, goals: Iterable[str], most: int, until: Iterable[str] = ()) -> Nearest:
        """For every node the ``most`` nearest of some goals, by one search from all of them at once.

        It ends early when all openings ``until`` have theirs. The k-nearest form of Dijkstra's search: a node is
        settled once a goal, at most ``most`` times.
        """
        settled: dict[Node, dict[str, tuple[float, Node | None]]] = {}
        wanted = {opening_node(opening) for opening in until}
        starts = [(self._goal_node[goal], goal) for goal in goals if goal in self._goal_node]
        shortest = dict.fromkeys(starts, 0.0)
        heap: list[tuple[float, int, Node, str, Node | None]] = [
            (0.0, number, node, goal, None) for number, (node, goal) in enumerate(starts)
        ]
        count = len(heap)
        while heap:
            feet, _, node, goal, towards = heapq.heappop(heap)
            here = settled.setdefault(node, {})
            if goal in here or len(here) >= most:
                continue
            here[goal] = (feet, towards)
            if len(here) >= most and wanted:
                wanted.discard(node)
                if not wanted:
                    break
            for other, step in self.neighbours(node).items():
                there = feet + step
                if there < shortest.get((other, goal), math.inf) and len(settled.get(other, ())) < most:
                    shortest[other, goal] = there
                    count += 1
                    heapq.heappush(heap, (there, count, other, goal, node))
        return Nearest(self, settled)


@dataclass(frozen=True)
class Nearest:
    """What a search found: for each node its nearest goals, with the feet and the next node on the way."""

    graph: WalkGraph
    settled: Mapping[Node, Mapping[str, tuple[float, Node | None]]]

    def goals(self, opening: str) -> list[tuple[float, str]]:
        """The goals reached from an opening, nearest first, with the feet to them."""
        node = self.graph.node_of_opening(opening)
        found = self.settled.get(node, {}) if node is not None else {}
        return sorted((feet, goal) for goal, (feet, _) in found.items())

    def walk(self, opening: str, goal: str) -> Walk:
        """The walk from an opening to one of its goals."""
        node: Node | None = self.graph.node_of_opening(opening)
        assert node is not None
        total = self.settled[node][goal][0]
        legs: list[tuple[str, list[Spot], float]] = []
        passed: list[tuple[str, float]] = []
        while node is not None:
            left, after = self.settled[node][goal]
            level, at = self.graph.place(node)
            if not legs or legs[-1][0] != level:
                legs.append((level, [], total - left))
            legs[-1][1].append(at)
            if node[0] == "opening":
                passed.append((node[1], total - left))
            node = after
        return Walk(
            opening,
            goal,
            total,
            tuple(Leg(level, np.array(corners), before) for level, corners, before in legs),
            tuple(passed),
        )
