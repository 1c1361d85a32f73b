"""What sound loses on its straight way in plan through the walls and openings of one level, in dB.

A door or window that the way crosses counts by itself, measured; a wall counts as the whole partition between its two
rooms, with the doors and openings that stand in it. Heights are left out: sound finds the door beside the header.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import cached_property

import numpy as np
import shapely

from app.geometry.bodies import FloatArray, IntArray, wall_top
from app.geometry.scene import LevelScene
from app.plan.model import Opening
from app.plan.practice import Practice

_SAME = 0.02  # ft along the way: crossings of walls that meet there are one
_OPEN_ABOVE = 0.5  # ft: a half wall that leaves this much free below the ceiling stops no sound


def composite_loss(parts: Iterable[tuple[float, float]]) -> float:
    """Loss in dB of a wall made of parts (area, loss): 10·log10[ΣA / Σ(A·10^(−loss/10))]; the weakest part governs.

    Source: HUD Noise Guidebook, composite transmission loss. 0 where there is no area.
    """
    areas = [(area, loss) for area, loss in parts if area > 0]
    if not areas:
        return 0.0
    return 10 * math.log10(sum(area for area, _ in areas) / sum(area * 10 ** (-loss / 10) for area, loss in areas))


class Partitions:
    """What sound loses on its way through the walls of one level."""

    def __init__(self, scene: LevelScene, practice: Practice) -> None:
        self._scene = scene
        self._closed = practice.text("doors.taken_as") == "closed"
        self._wall_loss = practice.number("sound.wall")
        self._window_loss = practice.number("sound.window")
        self._leaf_loss = practice.number("sound.door") if self._closed else 0.0
        self._doorway_loss = practice.number("sound.closed_door" if self._closed else "sound.open_door")
        self._between: dict[tuple[int, int], float] = {}

    @cached_property
    def _lines(self) -> FloatArray:
        return np.array([[wall.a, wall.b] for wall in self._scene.level.walls]).reshape(-1, 2, 2)

    @cached_property
    def _tree(self) -> shapely.STRtree:
        return shapely.STRtree(shapely.linestrings(self._lines) if len(self._lines) else [])

    @cached_property
    def _openings_in(self) -> dict[str, list[Opening]]:
        held: dict[str, list[Opening]] = {}
        for opening in self._scene.level.openings:
            held.setdefault(opening.wall, []).append(opening)
        return held

    @cached_property
    def _low(self) -> set[str]:
        """The half walls that stop no sound."""
        ceiling = self._scene.level.ceiling
        return {wall.id for wall in self._scene.level.walls if wall_top(wall, ceiling) < ceiling - _OPEN_ABOVE}

    @cached_property
    def _openings_between(self) -> dict[tuple[int, int], list[Opening]]:
        held: dict[tuple[int, int], list[Opening]] = {}
        for opening in self._scene.level.openings:
            one, two = self._scene.sides[opening.id]
            held.setdefault((min(one, two), max(one, two)), []).append(opening)
        return held

    def crossed(self, starts: FloatArray, ends: FloatArray) -> list[list[tuple[str, float]]]:
        """For each straight way in plan (n, 2) → (n, 2) what it crosses, in order, each with its loss in dB."""
        way, wall, share, along = self._crossings(starts, ends)
        found: list[list[tuple[str, float]]] = [[] for _ in starts]
        if not len(way):
            return found
        feet = np.hypot(*(ends - starts).T)
        order = np.lexsort((share, way))
        way, wall, share, along = way[order], wall[order], share[order], along[order]
        apart = (np.diff(way, prepend=-1) > 0) | (np.diff(share, prepend=-1.0) * feet[way] > _SAME)
        groups = np.flatnonzero(apart)
        faces = self._faces_between(starts, ends, way[groups], share[groups]).tolist()
        ids = [self._scene.level.walls[index].id for index in wall]
        ways, feet_along = way.tolist(), along.tolist()
        for (before, after), first, last in zip(faces, groups, [*groups[1:], len(way)], strict=True):
            if before == after:
                continue  # a wall's free end: sound goes around it
            losses = [self._loss(ids[one], feet_along[one], before, after) for one in range(first, last)]
            found[ways[first]].append(losses[0] if len(losses) == 1 else min(losses, key=lambda entry: entry[1]))
        return found

    def _crossings(self, starts: FloatArray, ends: FloatArray) -> tuple[IntArray, IntArray, FloatArray, FloatArray]:
        """Every crossing of a way and a centreline: way, wall, share of the way, feet along the wall."""
        if not len(self._lines) or not len(starts):
            none = np.empty(0, dtype=np.int64)
            return none, none, np.empty(0), np.empty(0)
        way, wall = self._tree.query(shapely.linestrings(np.stack([starts, ends], axis=1)), predicate="intersects")
        p, r = starts[way], (ends - starts)[way]
        q = self._lines[wall, 0]
        s = self._lines[wall, 1] - q
        cross = r[:, 0] * s[:, 1] - r[:, 1] * s[:, 0]
        gap = q - p
        with np.errstate(divide="ignore", invalid="ignore"):
            share = (gap[:, 0] * s[:, 1] - gap[:, 1] * s[:, 0]) / cross
            along = (gap[:, 0] * r[:, 1] - gap[:, 1] * r[:, 0]) / cross
        length = np.hypot(s[:, 0], s[:, 1])
        kept = (np.abs(cross) > 1e-9) & (share > 1e-9) & (share < 1 - 1e-9)
        return way[kept], wall[kept], share[kept], (along * length)[kept]

    def _faces_between(self, starts: FloatArray, ends: FloatArray, way: IntArray, share: FloatArray) -> IntArray:
        """The faces (g, 2) before and after each crossing, told halfway to its neighbours on the same way."""
        first = np.diff(way, prepend=-1) > 0
        last = np.append(first[1:], True)
        low = np.where(first, 0.0, np.append(0.0, share[:-1]))
        high = np.where(last, 1.0, np.append(share[1:], 1.0))
        spots = [starts[way] + (ends - starts)[way] * ((share + edge) / 2)[:, None] for edge in (low, high)]
        return np.column_stack([self._scene.faces.holding(spot) for spot in spots])

    def _loss(self, wall: str, along: float, before: int, after: int) -> tuple[str, float]:
        for opening in self._openings_in.get(wall, ()):
            if opening.offset <= along <= opening.end:
                return opening.id, self.through(opening)
        if wall in self._low:
            return wall, 0.0
        pair = (before, after) if before < after else (after, before)
        if pair not in self._between:
            self._between[pair] = self._partition(*pair)
        return wall, self._between[pair]

    def through(self, opening: Opening) -> float:
        """Loss of the way through an opening itself, in dB: a cased opening lets all through."""
        if opening.kind == "cased":
            return 0.0
        return self._window_loss if opening.kind == "window" else self._doorway_loss

    def _partition(self, one: int, two: int) -> float:
        """Loss of the whole partition between two rooms: its wall with the doors and openings that stand in it.

        Outdoors, and where a way slips through the corner at which rooms only touch, it is the wall's own.
        """
        outlines = self._scene.faces.outline
        length = 0.0 if one < 0 else float(shapely.length(shapely.intersection(outlines[one], outlines[two])))
        if length <= _SAME:
            return self._wall_loss
        parts = [
            (opening.width * (opening.head - opening.sill), self._beside(opening))
            for opening in self._openings_between.get((one, two), ())
        ]
        solid = max(0.0, length * self._scene.level.ceiling - sum(area for area, _ in parts))
        return composite_loss([(solid, self._wall_loss), *parts])

    def _beside(self, opening: Opening) -> float:
        """Loss of an opening as a part of a wall, by its STC; open doors and cased openings let all through."""
        if opening.kind == "cased":
            return 0.0
        return self._window_loss if opening.kind == "window" else self._leaf_loss
