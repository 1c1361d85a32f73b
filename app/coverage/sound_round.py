"""Sound's way round: from a sounder to an ear by the doors and cased openings between, where the straight way is worse.

Levels fall by the distance along the way and by each door that it passes; bends cost nothing, so this is the better
bound of what open doorways bring. The search settles each spot once at its least loss so far, which is near the best.
"""

from __future__ import annotations

import heapq
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import cast

from app.coverage.partitions import Partitions
from app.coverage.sound import Heard, Listener, Ray, Source, level_at
from app.coverage.walking_floor import Node, bare
from app.coverage.walks import Goal, WalkGraph
from app.geometry.scene import LevelScene
from app.plan.practice import Practice

_EAR, _MOUTH = "ear ", "mouth "


class WaysRound:
    """The ways of sound through the doorways of a house between some sounders and some ears."""

    def __init__(
        self,
        scenes: Mapping[str, LevelScene],
        practice: Practice,
        sources: Sequence[Source],
        listeners: Sequence[Listener],
    ) -> None:
        self._sources, self._listeners = sources, listeners
        goals = [Goal(_MOUTH + source.device, source.level, source.at) for source in sources]
        goals += [Goal(_EAR + ear.thing, ear.level, ear.at) for ear in listeners]
        self._graph = WalkGraph(scenes, goals, bare)
        self._passage = {
            opening.id: partitions.through(opening)
            for scene in scenes.values()
            for partitions in (Partitions(scene, practice),)
            for opening in scene.level.openings
        }

    def heard(self, straight: Sequence[Heard], quietest: float) -> list[Heard]:
        """The same listeners with each source by its straight way or by its way round, whichever is louder.

        ``straight`` speaks of the listeners in their order; ways round are followed down to ``quietest`` dB.
        """
        rays = self._rays(quietest)
        return [_louder(one, rays.get(one.listener.thing, ())) for one in straight]

    def heard_until(self, straight: Heard, quietest: float, enough: float) -> Heard:
        """The same for one listener, no further than until all that is found together reaches ``enough`` dB."""
        mouths = {_MOUTH + source.device: source for source in self._sources}
        loudest = max((source.rated for source in self._sources), default=0.0)
        heard = straight
        for goal, feet, passed in self._spread(_EAR + straight.listener.thing, loudest, quietest):
            if goal in mouths:
                heard = _louder(heard, [self._ray(mouths[goal], straight.listener, feet, passed[::-1])])
                if heard.level >= enough:
                    break
        return heard

    def _rays(self, quietest: float) -> dict[str, list[Ray]]:
        """The rays to each listener; sound goes both ways alike, so the fewer of the two sides are searched from."""
        mouths = {_MOUTH + source.device: source for source in self._sources}
        ears = {_EAR + ear.thing: ear for ear in self._listeners}
        from_mouths = len(mouths) <= len(ears)
        loudest = max((source.rated for source in self._sources), default=0.0)
        rays: dict[str, list[Ray]] = {}
        for name in mouths if from_mouths else ears:
            rated = mouths[name].rated if from_mouths else loudest
            for goal, feet, passed in self._spread(name, rated, quietest):
                mouth, ear = (name, goal) if from_mouths else (goal, name)
                if mouth in mouths and ear in ears:
                    ray = self._ray(mouths[mouth], ears[ear], feet, passed[:: 1 if from_mouths else -1])
                    rays.setdefault(ears[ear].thing, []).append(ray)
        return rays

    def _ray(self, source: Source, listener: Listener, feet: float, passed: tuple[str, ...]) -> Ray:
        away = math.hypot(feet, source.z - listener.z) if source.level == listener.level else feet
        loss = sum(self._passage[opening] for opening in passed)
        named = tuple(opening for opening in passed if self._passage[opening] > 0)
        return Ray(source.device, away, loss, named, level_at(source.rated, away) - loss)

    def _spread(self, goal: str, rated: float, quietest: float) -> Iterator[tuple[str, float, tuple[str, ...]]]:
        """The goals that a sound from one goal reaches above ``quietest`` dB, loudest first: feet, openings passed."""
        start = self._graph.node_of_goal(goal)
        heap = [] if start is None else [(-level_at(rated, 0.0), 0, start, 0.0, 0.0, cast("tuple[str, ...]", ()))]
        settled: set[Node] = set()
        count = 0
        while heap:
            _, _, node, feet, lost, passed = heapq.heappop(heap)
            if node in settled:
                continue
            settled.add(node)
            if node[0] == "goal":
                yield node[1], feet, passed
            for other, step in self._graph.neighbours(node).items():
                if other in settled:
                    continue
                opens = other[0] == "opening"
                loss = lost + self._passage[other[1]] if opens else lost
                left = level_at(rated, feet + step) - loss
                if left > quietest:
                    count += 1
                    through = (*passed, other[1]) if opens else passed
                    heapq.heappush(heap, (-left, count, other, feet + step, loss, through))


def _louder(heard: Heard, rays: Iterable[Ray]) -> Heard:
    """What is heard with each source by the loudest of its ways."""
    best = {ray.device: ray for ray in heard.rays}
    for ray in rays:
        if ray.device not in best or ray.level > best[ray.device].level:
            best[ray.device] = ray
    return Heard(heard.listener, tuple(sorted(best.values(), key=lambda ray: (-ray.level, ray.device))))
