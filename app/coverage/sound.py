"""Sound: how loud sirens and keypad sounders are at beds and in rooms, an estimate and no proof of any fire rule.

Level falls by the inverse square of the distance and by each partition that the straight way in plan crosses; sources
are summed by their power. Rooms echo, so true levels are mostly higher: safe for what must be heard, not for ears.
Between levels one loss a floor is taken, and the partitions of the listener's level; stairwells are left out.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from app.coverage.partitions import Partitions
from app.geometry.scene import LevelScene
from app.plan.devices import height_of
from app.plan.model import Plan
from app.plan.practice import Practice

RATED_AT = 10.0  # ft
NEAREST = 1.0  # ft: nearer than the source's own size the law says nothing
FARTHEST = 120.0  # ft: farther sources are left out
MOST_SOURCES = 8  # for one listener, those loudest in a free field: a house has fewer
LITTLE = 10.0  # dB below a level: a source that much quieter adds less than half a decibel to it
PILLOW = 2.0  # ft above the floor: an ear on a bed whose height is not given
STANDING = 4.0  # ft above the floor: an ear in the middle of a room


def level_at(rated: float, feet: float) -> float:
    """Level in dB at a distance from a source rated at 10 ft, in a free field: L − 20·log10(r / 10).

    Valid beyond the source's own size (1 ft is the least distance taken). Source: inverse square law.
    """
    return rated - 20 * math.log10(max(feet, NEAREST) / RATED_AT)


def reach_of_level(rated: float, level: float) -> float:
    """Distance in feet at which a source rated at 10 ft falls to a level in a free field."""
    return float(RATED_AT * 10 ** ((rated - level) / 20))


def summed(levels: Iterable[float]) -> float:
    """Level in dB of several sources together: 10·log10(Σ 10^(L/10)); minus infinity where there is none."""
    power = sum(10 ** (level / 10) for level in levels)
    return 10 * math.log10(power) if power > 0 else -math.inf


@dataclass(frozen=True)
class Source:
    """A sounder: its level in dB at 10 ft, where it is in plan, ``z`` above the plan's datum, all in feet."""

    device: str
    level: str
    at: tuple[float, float]
    z: float
    rated: float


@dataclass(frozen=True)
class Listener:
    """Somebody who should hear: at a bed's pillow or in the middle of a room; ``z`` above the plan's datum."""

    thing: str
    level: str
    at: tuple[float, float]
    z: float


@dataclass(frozen=True)
class Ray:
    """What one source brings to one listener: distance in feet, loss in dB, what is crossed, the level in dB."""

    device: str
    feet: float
    loss: float
    crossed: tuple[str, ...]
    level: float


@dataclass(frozen=True)
class Heard:
    """What a listener hears: the rays, loudest first, and the level of all together (minus infinity in silence)."""

    listener: Listener
    rays: tuple[Ray, ...]

    @property
    def level(self) -> float:
        """Level of all sources together in dB."""
        return summed(ray.level for ray in self.rays)


def sounders(plan: Plan) -> list[Source]:
    """The sirens and the keypads of a plan, whose sounders count too."""
    practice = plan.practice_in_force
    rated = {"siren": practice.number("siren.rated"), "keypad": practice.number("keypad.sounder")}
    return [
        Source(device.id, level.id, device.at, level.elevation + height_of(device, level, practice), rated[device.kind])
        for level in plan.levels
        for device in level.devices
        if device.kind in rated
    ]


def pillows(plan: Plan) -> list[Listener]:
    """An ear on every bed of a plan."""
    return [
        Listener(bed.id, level.id, bed.at, level.elevation + (PILLOW if bed.height is None else bed.height))
        for level in plan.levels
        for bed in level.fixtures
        if bed.kind == "bed" and bed.at is not None
    ]


def room_middles(plan: Plan, scenes: Mapping[str, LevelScene]) -> list[Listener]:
    """An ear in the middle of every closed room of a plan, at a point that surely lies in it."""
    ears = []
    for level in plan.levels:
        scene = scenes[level.id]
        for room in level.rooms:
            if (face := scene.face_of_room[room.id]) >= 0:
                outline = scene.faces.outline[face]
                middle = outline.centroid if outline.contains(outline.centroid) else outline.representative_point()
                ears.append(Listener(room.id, level.id, (middle.x, middle.y), level.elevation + STANDING))
    return ears


def listen(
    scenes: Mapping[str, LevelScene], practice: Practice, sources: Sequence[Source], listeners: Sequence[Listener]
) -> list[Heard]:
    """What each listener hears of the eight loudest sources within 120 ft; ``scenes`` by level id."""
    order = {level: number for number, level in enumerate(sorted(scenes, key=lambda one: scenes[one].level.elevation))}
    rays: list[list[Ray]] = [[] for _ in listeners]
    for level, scene in scenes.items():
        here = [number for number, listener in enumerate(listeners) if listener.level == level]
        pairs = _near_pairs(sources, [listeners[number] for number in here])
        starts = np.array([sources[source].at for source, _, _ in pairs], dtype=float).reshape(-1, 2)
        ends = np.array([listeners[here[ear]].at for _, ear, _ in pairs], dtype=float).reshape(-1, 2)
        crossings = Partitions(scene, practice).crossed(starts, ends)
        for (number, ear, feet), crossed in zip(pairs, crossings, strict=True):
            source = sources[number]
            floors = abs(order[source.level] - order[level])
            loss = floors * practice.number("sound.floor") + sum(part for _, part in crossed)
            named = (*(["floor"] * floors), *(thing for thing, part in crossed if part > 0))
            rays[here[ear]].append(Ray(source.device, feet, loss, named, level_at(source.rated, feet) - loss))
    return [
        Heard(listener, tuple(sorted(heard, key=lambda ray: (-ray.level, ray.device))))
        for listener, heard in zip(listeners, rays, strict=True)
    ]


def _near_pairs(sources: Sequence[Source], listeners: Sequence[Listener]) -> list[tuple[int, int, float]]:
    """The pairs (source, listener, feet) that matter: for each listener the sources loudest in a free field."""
    if not sources or not listeners:
        return []
    mouths = np.array([(*source.at, source.z) for source in sources])
    ears = np.array([(*listener.at, listener.z) for listener in listeners])
    feet = np.sqrt(((ears[:, None] - mouths[None]) ** 2).sum(axis=2))
    free = np.array([source.rated for source in sources]) - 20 * np.log10(np.maximum(feet, NEAREST) / RATED_AT)
    loudest = np.argsort(-free, axis=1, kind="stable")[:, :MOST_SOURCES]
    return [
        (int(source), ear, float(feet[ear, source]))
        for ear, row in enumerate(loudest)
        for source in row
        if feet[ear, source] <= FARTHEST
    ]
