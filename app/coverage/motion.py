"""Motion: the floor that each motion detector watches, room by room, in three dimensions.

Floor is what people stand on: the rooms' floors less the bodies that reach the height of the target.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from app.geometry.eye import Eye, body_holding, clear_eyes
from app.geometry.floor_view import Watch, floor_views
from app.geometry.scene import LevelScene
from app.plan.devices import height_of, range_of, view_angle_of
from app.plan.model import Device
from app.plan.practice import Practice


@dataclass(frozen=True)
class Ground:
    """The floor of each face of a level at one height of target, as polygons."""

    floors: NDArray[np.object_]
    tree: shapely.STRtree


@dataclass(frozen=True)
class MotionProof:
    """What one motion detector watches: ``seen`` by index of face; ``inside`` names the body it lies in, if any."""

    device: str
    seen: dict[int, BaseGeometry] = field(default_factory=dict)
    inside: str | None = None

    @property
    def area(self) -> float:
        """Watched floor in square feet."""
        return float(sum(part.area for part in self.seen.values()))


def ground_of(scene: LevelScene, target: float) -> Ground:
    """The floors of a level's faces less the obstructions that reach ``target`` feet above the floor."""
    floors = scene.faces.floors.copy()
    bodies = scene.bodies
    standing = np.isnan(bodies.centreline[:, 0, 0]) & (bodies.base < target) & (bodies.top >= target)
    if len(floors) and standing.any():
        footprints = bodies.footprints[standing]
        body, face = shapely.STRtree(floors).query(footprints, predicate="intersects")
        for index in np.unique(face):
            floors[index] = shapely.difference(floors[index], shapely.union_all(footprints[body[face == index]]))
    return Ground(floors, shapely.STRtree(floors))


def prove_motion(scene: LevelScene, ground: Ground, device: Device, practice: Practice) -> MotionProof:
    """The floor that a motion detector watches; facing nothing in particular means east."""
    return prove_all_motion(scene, ground, [device], practice)[0]


def prove_all_motion(
    scene: LevelScene, ground: Ground, devices: Sequence[Device], practice: Practice
) -> list[MotionProof]:
    """The same for many detectors of a level."""
    bodies, ceiling = scene.bodies, scene.level.ceiling
    mounted = [Eye(*device.at, height_of(device, scene.level, practice)) for device in devices]
    eyes = clear_eyes(bodies, mounted, ceiling)
    watches = [
        Watch(eye, range_of(device, practice), device.facing or 0.0, view_angle_of(device, practice))
        for device, eye in zip(devices, eyes, strict=True)
        if eye is not None
    ]
    seen = iter(floor_views(bodies, watches, practice.number("motion.target_height")))
    return [
        MotionProof(device.id, inside=body_holding(bodies, spot, ceiling))
        if eye is None
        else MotionProof(device.id, _watched(ground, next(seen)))
        for device, spot, eye in zip(devices, mounted, eyes, strict=True)
    ]


def _watched(ground: Ground, seen: BaseGeometry) -> dict[int, BaseGeometry]:
    """The floor that lies in a seen region, by index of face."""
    faces = np.sort(ground.tree.query(seen, predicate="intersects"))
    parts = shapely.intersection(ground.floors[faces], seen)
    some = shapely.area(parts) > 1e-9
    return dict(zip(faces[some].tolist(), parts[some].tolist(), strict=True))


def watched_share(ground: Ground, face: int, proofs: Sequence[MotionProof]) -> float:
    """Share of one face's floor that some detector watches."""
    floor = ground.floors[face]
    seen = [proof.seen[face] for proof in proofs if face in proof.seen]
    if not seen or floor.area <= 0:
        return 0.0
    return min(1.0, float(shapely.union_all(seen).area / floor.area))
