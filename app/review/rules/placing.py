"""Rules on where devices may be at all: not inside solid bodies, not above the ceiling, not outside the house."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from app.plan.devices import height_of
from app.plan.practice import COMMON_PRACTICE
from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House

ON_WALL = 1.0  # ft: a device this near to a wall of the house is at the house


@rule(
    "device.in_solid",
    "must",
    words="A detector hangs in free air, not inside a wall, a cabinet or a chimney breast.",
    mend="Move the detector out of the body.",
    source="geometry: a sight line that starts inside a solid body reaches nothing",
)
def in_solid(house: House) -> Iterator[Said]:
    """Glass-break and motion detectors inside a solid body."""
    for storey in house:
        inside = [(proof.device, proof.inside) for proof in storey.glass]
        inside += [(proof.device, proof.inside) for proof in storey.motions]
        for device, body in inside:
            if body is not None:
                yield Said(
                    (device, body),
                    f"{storey.name(device)} lies inside {storey.name(body)} and covers nothing; move it out.",
                )


@rule(
    "device.above_ceiling",
    "must",
    words="A device is mounted at or below the ceiling of its level.",
    mend="Lower the device's height, or raise the level's ceiling.",
    source="geometry: what lies above the ceiling sees nothing of the room",
)
def above_ceiling(house: House) -> Iterator[Said]:
    """Devices whose height is above their level's ceiling."""
    for storey in house:
        for device in storey.level.devices:
            height = height_of(device, storey.level, house.practice)
            if height > storey.level.ceiling + 1e-6:
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} is at {house.length_text(height)}, above the ceiling at "
                    f"{house.length_text(storey.level.ceiling)}; lower it.",
                )


@rule(
    "device.outside",
    "should",
    words="A device stands in the house or on its walls.",
    mend="Drag the device into the house, or say in its note why it stands outside.",
    source=COMMON_PRACTICE,
)
def outside(house: House) -> Iterator[Said]:
    """Devices without a note that lie in no closed face and near no wall."""
    for storey in house:
        devices = [device for device in storey.level.devices if not remark(device)]
        faces = storey.scene.faces.holding(np.array([device.at for device in devices]).reshape(-1, 2))
        for device, face in zip(devices, faces, strict=True):
            if face < 0 and not len(storey.scene.bodies.near(*device.at, ON_WALL)):
                yield Said(
                    (device.id,), f"{storey.name(device.id)} lies outside the house; drag it in or say why in its note."
                )
