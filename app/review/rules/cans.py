"""Rules on the can: one, in a closet or utility room, in conditioned space, not in an exterior wall."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from app.plan.devices import cable_of
from app.plan.model import Device
from app.plan.practice import COMMON_PRACTICE
from app.plan.room_uses import FOR_THE_CAN, UNCONDITIONED, use_of
from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House, Storey

_BESIDE = 0.75  # ft from a wall's line: mounted on or in that wall
_ACROSS = 0.05  # ft off a wall's line: in the face beside it


def _cans(house: House) -> list[tuple[Storey, Device]]:
    return [(storey, can) for storey in house for can in storey.devices("can")]


@rule(
    "can.none",
    "should",
    words="A house with cabled devices has a can, where every home run ends.",
    mend="Put a can in a closet or utility room near the middle of the house.",
    source="ANSI/TIA/EIA-570-A-1 (2002): every security cable home-run from the panel to the device",
)
def none(house: House) -> Iterator[Said]:
    """Plans with devices that need cable and no can.

    Not a ``must``: a proof of the glass alone is begun without a can, and the schedule names each pull without one.
    """
    if _cans(house):
        return
    cabled = sum(cable_of(device, house.practice) is not None for storey in house for device in storey.level.devices)
    if cabled:
        count = "1 device needs" if cabled == 1 else f"{cabled} devices need"
        yield Said((), f"{count} a home run and no can is planned; put one in a closet or utility room.")


@rule(
    "can.several",
    "should",
    words="One can serves the house; a second one has a reason.",
    mend="Take a can out, or say in its note why there are two.",
    source=COMMON_PRACTICE,
)
def several(house: House) -> Iterator[Said]:
    """Two or more cans of which more than one has no note."""
    plain = [can.id for _, can in _cans(house) if not remark(can)]
    if len(plain) > 1:
        yield Said(
            tuple(plain), f"{len(plain)} cans are planned and none says why; keep one or write the reason in a note."
        )


@rule(
    "can.exterior_wall",
    "should",
    words="A can is not let into an exterior wall.",
    mend="Move the can to an interior wall.",
    source="common practice, no source: the can breaks the insulation, and its back faces outdoors",
)
def exterior_wall(house: House) -> Iterator[Said]:
    """Cans whose nearest wall, within reach of mounting, has outdoors on its other side."""
    for storey, can in _cans(house):
        wall = _exterior_wall_at(storey, can.at)
        if wall is not None and len(storey.scene.faces):
            yield Said(
                (can.id, wall),
                f"{storey.name(can.id)} stands in exterior {storey.name(wall)}; move it to an interior wall.",
            )


def _exterior_wall_at(storey: Storey, at: tuple[float, float]) -> str | None:
    """The exterior wall that a spot is mounted on; none where an interior wall is nearer."""
    bodies = storey.scene.bodies
    spot = np.array(at)
    found: list[tuple[float, bool, str]] = []
    for body in bodies.near(*at, _BESIDE):
        line = bodies.centreline[body]
        if np.isnan(line[0, 0]):
            continue
        along = line[1] - line[0]
        length = float(np.hypot(*along))
        share = float(np.clip(np.dot(spot - line[0], along) / length**2, 0.0, 1.0))
        foot = line[0] + share * along
        across = np.array([-along[1], along[0]]) / length * _ACROSS
        beside = storey.scene.faces.holding(np.array([foot + across, foot - across]))
        found.append((round(float(np.hypot(*(spot - foot))), 6), bool(beside.min() < 0), bodies.owner[body]))
    if not found:
        return None
    away, exterior, owner = min(found)
    return owner if exterior and away <= _BESIDE else None


@rule(
    "can.unconditioned",
    "should",
    words="A can is in conditioned space inside the protected area.",
    mend="Move the can indoors, to a closet or utility room.",
    source="UL 1641-2015 17.1: control unit inside the protected area; battery and heat: common practice, no source",
)
def unconditioned(house: House) -> Iterator[Said]:
    """Cans in garages, attics, porches and other unconditioned spaces."""
    for storey, can in _cans(house):
        room = storey.room_of_device[can.id]
        if room is not None and use_of(room) in UNCONDITIONED:
            yield Said(
                (can.id, room.id),
                f"{storey.name(can.id)} is in {storey.name(room.id)}, which is not conditioned; move it to a closet "
                "or utility room.",
            )


@rule(
    "can.in_sight",
    "note",
    words="A can is out of sight, in a closet or utility room.",
    mend="Move the can to a closet, utility room, laundry or pantry, or say in its note why it stands there.",
    source=COMMON_PRACTICE,
)
def in_sight(house: House) -> Iterator[Said]:
    """Cans without a note in conditioned rooms of another use."""
    for storey, can in _cans(house):
        room = storey.room_of_device[can.id]
        if room is not None and not remark(can) and use_of(room) not in FOR_THE_CAN | UNCONDITIONED | {"other"}:
            yield Said(
                (can.id, room.id),
                f"{storey.name(can.id)} is in {storey.name(room.id)}; a closet or utility room keeps it out of sight.",
            )
