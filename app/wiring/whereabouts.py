"""The room that a device belongs to: the one it stands in, or for a thing in a wall the named one beside it."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import shapely

from app.geometry.scene import LevelScene
from app.plan.model import Device

BESIDE = 1.0  # ft: a device no farther than this off a room's outline may still be of that room
LEAN = 0.3  # ft towards where a device faces, so that one drawn on a wall's line falls on the right side


def rooms_of(scene: LevelScene, devices: Sequence[Device]) -> list[str | None]:
    """The room id of each device of a level, None where no named room is near."""
    openings = {opening.id for opening in scene.level.openings}
    served = [next((name for name in device.serves if name in openings), None) for device in devices]
    spots = shapely.points(np.array([_leaning(device) for device in devices]).reshape(-1, 2))
    near: list[list[tuple[float, bool, int]]] = [[] for _ in devices]
    faces = scene.faces
    if len(faces) and len(devices):
        which, face = faces.tree.query(spots, predicate="dwithin", distance=BESIDE)
        apart = shapely.distance(spots[which], faces.outline[face])
        for device, number, distance in zip(which, face, apart, strict=True):
            near[device].append((round(float(distance), 6), number not in scene.room_of_face, int(number)))
    rooms: list[str | None] = []
    for number, opening in enumerate(served):
        room = None if opening is None else scene.room_of_opening(opening)
        if room is None and near[number]:
            room = scene.room_of_face.get(min(near[number])[2])
        rooms.append(room)
    return rooms


def _leaning(device: Device) -> tuple[float, float]:
    if device.facing is None:
        return device.at
    radians = np.radians(device.facing)
    return (device.at[0] + LEAN * float(np.cos(radians)), device.at[1] + LEAN * float(np.sin(radians)))
