"""Rules on what people read: rooms with names, devices told apart, symbols that do not lie on each other."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
import shapely

from app.plan.practice import COMMON_PRACTICE
from app.review.findings import Said, rule
from app.review.house import House, Storey

_LEAST_ROOM = 9.0  # sq ft: smaller faces are chases and cavities
_SYMBOL = 0.5  # ft in plan: the radius of a symbol on a sheet at 1/4 in to the foot


@rule(
    "label.room_unnamed",
    "note",
    words="Every room has a name, so that schedules and the panel can say it.",
    mend="Type the room's name.",
    source=COMMON_PRACTICE,
)
def room_unnamed(house: House) -> Iterator[Said]:
    """Rooms with an empty name, and closed faces that no room names, a level at a time."""
    for storey in house:
        for room in storey.level.rooms:
            if not room.name.strip():
                yield Said((room.id,), f"room {room.id} has no name; type one.")
        nameless = _nameless(storey)
        if nameless:
            count = "1 closed space has" if len(nameless) == 1 else f"{len(nameless)} closed spaces have"
            middle = storey.scene.faces.outline[nameless[0]].representative_point()
            where = f"{house.length_text(middle.x)} east, {house.length_text(middle.y)} north"
            yield Said(
                (storey.level.id,),
                f"{count} no name on {storey.level.name}, the first at {where} of the origin; name the rooms.",
            )


def _nameless(storey: Storey) -> list[int]:
    return [
        face
        for face, outline in enumerate(storey.scene.faces.outline)
        if face not in storey.scene.room_of_face and outline.area >= _LEAST_ROOM
    ]


@rule(
    "label.twice",
    "should",
    words="No two devices carry the same label.",
    mend="Give one of the devices another label.",
    source="alarm association code of practice: every cable labelled at the panel and at the device",
)
def twice(house: House) -> Iterator[Said]:
    """Devices that share a label, over all levels."""
    carried: dict[str, list[str]] = {}
    for storey in house:
        for device in storey.level.devices:
            if device.label and device.label.strip():
                carried.setdefault(device.label.strip(), []).append(device.id)
    for label, devices in carried.items():
        if len(devices) > 1:
            yield Said(tuple(devices), f"{len(devices)} devices are labelled “{label}”; give each its own label.")


@rule(
    "label.overlap",
    "note",
    words="Symbols on the drawing do not lie on each other.",
    mend="Drag one of the devices aside.",
    source="common practice, no source; a symbol is about 1 ft wide at 1/4 in to the foot",
)
def overlap(house: House) -> Iterator[Said]:
    """Devices of a level whose symbols cover each other by more than half."""
    for storey in house:
        devices = storey.level.devices
        if len(devices) < 2:
            continue
        spots = shapely.points(np.array([device.at for device in devices]))
        first, second = shapely.STRtree(spots).query(spots, predicate="dwithin", distance=_SYMBOL)
        once = first < second
        crowded: dict[int, list[int]] = {}
        for one, two in zip(first[once], second[once], strict=True):
            crowded.setdefault(int(one), []).append(int(two))
        told: set[int] = set()
        for one, others in sorted(crowded.items()):
            if one in told:
                continue  # it lies in a heap that is told already
            told.update(others)
            heap = [devices[index].id for index in (one, *others)]
            names = ", ".join(storey.name(name) for name in heap[:3]) + (" and others" if len(heap) > 3 else "")
            yield Said(tuple(heap), f"{names} lie on each other on the drawing; drag one aside.")
