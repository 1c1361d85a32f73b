"""Home runs along the walls: at run height by the wall centrelines, leaving and entering at the nearest wall.

The graph of walls has a node wherever walls end, meet or cross and wherever a can, riser or device joins them;
one search from all cans together answers for every device.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

import networkx as nx
import numpy as np
import shapely

from app.geometry.bodies import FloatArray
from app.geometry.scene import LevelScene
from app.plan.model import Device, Level, Plan
from app.wiring.routes.run_heights import cable_end, run_height
from app.wiring.routes.way import Spot, Way, way_from, way_through

TIE = 1e-6  # ft: walls no farther than this beyond the nearest are as near
HOME: Hashable = "home"  # the node behind all cans, from which the search sets out

Joint = tuple[Hashable, float]  # a node of the graph on a wall, and the feet from a thing to it


@dataclass
class _Storey:
    """One level's wall edges (n, 2, 2), their tree, and the joints made on each edge (share of its length to node)."""

    number: int
    run: float
    edges: FloatArray
    tree: shapely.STRtree
    joints: dict[int, dict[float, Hashable]] = field(default_factory=lambda: defaultdict(dict))


class InWallWays:
    """The shortest way along the walls from each of some devices to a can."""

    def __init__(
        self,
        plan: Plan,
        scenes: Mapping[str, LevelScene],
        cans: Sequence[tuple[Level, Device]],
        devices: Sequence[tuple[Level, Device]],
    ) -> None:
        self._practice = plan.practice_in_force
        self._devices = devices
        self._graph = nx.DiGraph()
        self._place: dict[Hashable, Spot] = {}
        self._storeys = {
            level.id: self._storey(number, level, scenes[level.id]) for number, level in enumerate(plan.levels)
        }
        self._cans = {can.id: (can, cable_end(can, level, self._practice)) for level, can in cans}
        self._joints = self._join_all(devices)
        for level, can in cans:
            self._enter(level, can)
        for riser in plan.risers:
            self._rise(riser.at, self._storeys[riser.from_level], self._storeys[riser.to_level])
        for storey in self._storeys.values():
            self._link_walls(storey)
        self._graph.add_node(HOME)
        before, self._feet = nx.dijkstra_predecessor_and_distance(self._graph, HOME)
        self._before: dict[Hashable, list[Hashable]] = before
        self._ways_on: dict[Hashable, Way] = {
            ("can", can.id): way_through(can.id, [(*can.at, self._storeys[level.id].run), (*can.at, height)])
            for (level, can), (_, height) in zip(cans, self._cans.values(), strict=True)
        }

    def _storey(self, number: int, level: Level, scene: LevelScene) -> _Storey:
        return _Storey(number, run_height(level, self._practice), scene.faces.edges, scene.faces.edge_tree)

    def _join_all(self, devices: Sequence[tuple[Level, Device]]) -> list[list[Joint]]:
        """The joints of devices on several levels, each level's asked for together."""
        joints: list[list[Joint]] = [[] for _ in devices]
        for name, storey in self._storeys.items():
            here = [number for number, (level, _) in enumerate(devices) if level.id == name]
            for number, found in zip(here, self._join(storey, [devices[n][1].at for n in here]), strict=True):
                joints[number] = found
        return joints

    def _join(self, storey: _Storey, places: Sequence[tuple[float, float]]) -> list[list[Joint]]:
        """Where each thing joins the walls of its level: the nearest spot of the nearest wall, or of each as near."""
        joints: list[list[Joint]] = [[] for _ in places]
        if not len(storey.edges) or not places:
            return joints
        at = np.array(places, dtype=float)
        points = shapely.points(at)
        (thing, _), nearest = storey.tree.query_nearest(points, return_distance=True, all_matches=False)
        reach = np.zeros(len(at))
        reach[thing] = nearest
        thing, edge = storey.tree.query(points, predicate="dwithin", distance=reach + TIE)
        start, span = storey.edges[edge, 0], storey.edges[edge, 1] - storey.edges[edge, 0]
        share = np.clip(((at[thing] - start) * span).sum(axis=1) / (span * span).sum(axis=1), 0.0, 1.0)
        spot = start + share[:, None] * span
        feet = np.hypot(*(spot - at[thing]).T)
        for number in np.lexsort((edge, thing)):
            node = self._node(storey, float(spot[number, 0]), float(spot[number, 1]))
            storey.joints[int(edge[number])][float(share[number])] = node
            if all(node != other for other, _ in joints[thing[number]]):
                joints[thing[number]].append((node, float(feet[number])))
        return joints

    def _node(self, storey: _Storey, x: float, y: float) -> Hashable:
        node = (storey.number, round(x, 6), round(y, 6))
        self._place.setdefault(node, (x, y, storey.run))
        return node

    def _enter(self, level: Level, can: Device) -> None:
        """Let the search set out from a can: down from run height at the can, and across to its wall."""
        storey = self._storeys[level.id]
        above = ("can", can.id)
        self._place[above] = (*can.at, storey.run)
        self._graph.add_edge(HOME, above, weight=abs(storey.run - self._cans[can.id][1]))
        for node, feet in self._join(storey, [can.at])[0]:
            self._graph.add_edge(above, node, weight=feet)

    def _rise(self, at: tuple[float, float], low: _Storey, high: _Storey) -> None:
        """Link two levels at a riser.

        A riser is entered from a wall and left after a vertical move, so that it is never a short cut across a room
        between two walls of one level; risers that stand on one another share their spots and need no wall between.
        """
        for here, there in ((low, high), (high, low)):
            entered, left = self._riser_spot("enter", here, at), self._riser_spot("leave", there, at)
            climb = abs(low.run - high.run)
            self._graph.add_edge(entered, left, weight=climb)
            self._graph.add_edge(self._riser_spot("leave", here, at), left, weight=climb)

    def _riser_spot(self, how: str, storey: _Storey, at: tuple[float, float]) -> Hashable:
        spot = (how, storey.number, round(at[0], 6), round(at[1], 6))
        if spot not in self._place:
            self._place[spot] = (*at, storey.run)
            for node, feet in self._join(storey, [at])[0]:
                self._graph.add_edge(*((node, spot) if how == "enter" else (spot, node)), weight=feet)
        return spot

    def _link_walls(self, storey: _Storey) -> None:
        """Link the nodes along each wall edge, in their order, both ways."""
        for edge, (start, end) in enumerate(storey.edges):
            marks = [(0.0, self._node(storey, *map(float, start))), (1.0, self._node(storey, *map(float, end)))]
            marks += storey.joints[edge].items() if edge in storey.joints else ()
            marks.sort(key=lambda mark: mark[0])
            for (_, here), (_, there) in pairwise(marks):
                if here != there:
                    (x, y, _), (u, v, _) = self._place[here], self._place[there]
                    feet = float(np.hypot(u - x, v - y))
                    self._graph.add_edge(here, there, weight=feet)
                    self._graph.add_edge(there, here, weight=feet)

    def ways(self) -> list[Way | None]:
        """The shortest way of each device, or None where the walls lead to no can."""
        return [
            self._trace(level, device, joints)
            for (level, device), joints in zip(self._devices, self._joints, strict=True)
        ]

    def _trace(self, level: Level, device: Device, joints: list[Joint]) -> Way | None:
        reached = [
            (self._feet[node] + feet, number) for number, (node, feet) in enumerate(joints) if node in self._feet
        ]
        if not reached:
            return None
        onward = self._onward(joints[min(reached)[1]][0])
        run = self._storeys[level.id].run
        above = way_from((*device.at, run), onward)
        return way_from((*device.at, cable_end(device, level, self._practice)), above)

    def _onward(self, node: Hashable) -> Way:
        """The way from a node to its can; worked out once, as the runs of many devices end alike."""
        waiting: list[Hashable] = []
        while node not in self._ways_on:
            waiting.append(node)
            node = self._before[node][0]
        way = self._ways_on[node]
        for node in reversed(waiting):
            way = way_from(self._place[node], way)
            self._ways_on[node] = way
        return way
