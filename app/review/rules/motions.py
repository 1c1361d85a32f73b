"""Rules on motion detectors: in an inside corner at the usual height, facing out, away from heat, sun and sleepers."""

from __future__ import annotations

import math
from collections.abc import Iterator

import numpy as np

from app.coverage.motion import watched_share
from app.geometry.corners import Corner, corner_at, turned_by
from app.geometry.nearest import nearest_spots
from app.plan.devices import height_of, range_of, view_angle_of
from app.plan.model import Device
from app.plan.practice import COMMON_PRACTICE
from app.plan.room_uses import GATHERING, SLEEPING, UNCONDITIONED, use_of
from app.review.accepted import remark
from app.review.findings import Said, rule
from app.review.house import House, Storey

_PREWIRE = "trade article “How to prewire home security” (updated June 2023)"


def _free_motions(house: House) -> Iterator[tuple[Storey, Device]]:
    """Motion detectors that do not lie in a body; those are told by their own rule."""
    for storey in house:
        inside = {proof.device for proof in storey.motions if proof.inside is not None}
        for device in storey.devices("motion"):
            if device.id not in inside:
                yield storey, device


def _corner(storey: Storey, device: Device) -> Corner | None:
    within = storey.practice.number("motion.corner_within")
    return corner_at(storey.scene.bodies, *device.at, height_of(device, storey.level, storey.practice), within)


def _on_ceiling(storey: Storey, device: Device) -> bool:
    return device.mount == "ceiling" or view_angle_of(device, storey.practice) > 180


@rule(
    "motion.not_in_corner",
    "should",
    words="A motion detector hangs in an inside corner.",
    mend="Drag it into a corner of the room, or say in its note why it hangs elsewhere.",
    source=f"{_PREWIRE}: 7 ft, corner",
)
def not_in_corner(house: House) -> Iterator[Said]:
    """Wall-mounted motion detectors without a note that are in no inside corner."""
    within = house.practice.number("motion.corner_within")
    for storey, device in _free_motions(house):
        if not remark(device) and not _on_ceiling(storey, device) and _corner(storey, device) is None:
            yield Said(
                (device.id,),
                f"{storey.name(device.id)} is in no inside corner: "
                f"both walls must pass within {house.length_text(within)}; drag it into one or say why in its note.",
            )


@rule(
    "motion.off_bisector",
    "should",
    words="A motion detector faces out of its corner along the bisector.",
    mend="Turn it to the bisector of its corner.",
    source=COMMON_PRACTICE,
)
def off_bisector(house: House) -> Iterator[Said]:
    """Motion detectors in a corner that are turned too far from its bisector."""
    most = house.practice.number("motion.off_bisector")
    for storey, device in _free_motions(house):
        corner = None if remark(device) or _on_ceiling(storey, device) else _corner(storey, device)
        if corner is None:
            continue
        turned = turned_by(device.facing or 0.0, corner.bisector)
        if turned > most + 1e-9:
            yield Said(
                (device.id,),
                f"{storey.name(device.id)} is turned {turned:.0f}° from the bisector of its corner, most {most:g}°; "
                f"turn it to {corner.bisector:.0f}°.",
            )


@rule(
    "motion.height",
    "should",
    words="A motion detector hangs at 7 ft.",
    mend="Change its height, or say in its note why it hangs higher or lower.",
    source=f"{_PREWIRE}: 7 ft, corner",
)
def height(house: House) -> Iterator[Said]:
    """Motion detectors without a note that hang too high or too low."""
    usual = house.practice.number("motion.height")
    tolerance = house.practice.number("motion.height_tolerance")
    for storey in house:
        for device in storey.devices("motion"):
            here = height_of(device, storey.level, house.practice)
            if not remark(device) and not _on_ceiling(storey, device) and abs(here - usual) > tolerance + 1e-9:
                yield Said(
                    (device.id,),
                    f"{storey.name(device.id)} hangs at {house.length_text(here)}, usual is "
                    f"{house.length_text(usual)}; change its height or say why in its note.",
                )


@rule(
    "motion.faces_glass",
    "should",
    words="A motion detector does not look straight at an exterior window of its room.",
    mend="Turn it away from the glass or take another corner, so that the sun does not shine into it.",
    source="MIL-HDBK-1013/1A 5.3.4.4: avoid a geometry with sunlight through windows",
)
def faces_glass(house: House) -> Iterator[Said]:
    """Motion detectors whose axis meets exterior glass of their own room within their range."""
    for storey, device in _free_motions(house):
        met = None if remark(device) else glass_on_axis(storey, device)
        if met is not None:
            yield Said(
                (device.id, met),
                f"{storey.name(device.id)} looks straight at {storey.name(met)}; turn it away or take another corner.",
            )


def glass_on_axis(storey: Storey, device: Device) -> str | None:
    """The exterior opening whose glass the axis of a motion detector meets first, if it is of the same room."""
    panes, face = storey.scene.panes, storey.scene.faces.face_at(*device.at)
    here = np.flatnonzero(storey.scene.rooms_overlooked == face) if face >= 0 else np.empty(0, dtype=np.int64)
    if not len(here):
        return None
    turn = math.radians(device.facing or 0.0)
    axis = np.array([math.cos(turn), math.sin(turn)])
    from_eye = panes.ends[here] - np.array(device.at)
    side = axis[0] * from_eye[:, :, 1] - axis[1] * from_eye[:, :, 0]
    ahead = from_eye @ axis
    reach = range_of(device, storey.practice)
    height_here = height_of(device, storey.level, storey.practice)
    low = min(height_here, storey.practice.number("motion.target_height"))
    found = []
    for index in np.flatnonzero((side[:, 0] * side[:, 1] < 0) & (ahead.max(axis=1) > 0)):
        one, two = side[index]
        away = float(ahead[index, 0] + (ahead[index, 1] - ahead[index, 0]) * one / (one - two))
        pane = int(here[index])
        opening = storey.opening_by_id[panes.opening[pane]]
        between = panes.head[pane] > low and panes.sill[pane] < height_here
        if 0 < away < reach and between and storey.scene.is_exterior(opening):
            found.append((away, opening.id))
    return min(found)[1] if found else None


@rule(
    "motion.near_register",
    "should",
    words="A motion detector keeps its distance from a supply register, whose warm air moves.",
    mend="Take another corner, farther from the register.",
    source="UFC 4-021-02NF 5-3.7.6: heat registers; occupancy-sensor guides, 6 to 8 ft",
)
def near_register(house: House) -> Iterator[Said]:
    """Motion detectors with a register of the same room within the practice's distance."""
    least = house.practice.number("motion.register_clearance")
    for storey in house:
        registers = storey.spots("supply_register")
        motions = storey.devices("motion")
        if not registers or not motions:
            continue
        here = storey.scene.faces.holding(np.array([device.at for device in motions]))
        there = storey.scene.faces.holding(np.array(list(registers.values())))
        together: dict[int, dict[str, tuple[float, float]]] = {}
        for (name, at), face in zip(registers.items(), there, strict=True):
            together.setdefault(int(face), {})[name] = at
        for device, face in zip(motions, here, strict=True):
            ((register, away),) = nearest_spots([device.at], together.get(int(face), {}))
            if away < least - 1e-9 and not remark(device):
                yield Said(
                    (device.id, register),
                    f"{storey.name(device.id)} is {house.length_text(away)} from {storey.name(register)}, least "
                    f"{house.length_text(least)}; take another corner.",
                )


@rule(
    "motion.where_people_sleep",
    "note",
    words="A motion detector in a room used at night is off in stay, so it guards nobody who sleeps there.",
    mend="Let contacts and glass breaks guard the bedroom, or note that the detector is for away only.",
    source="UL 1641-2015 16.1: detectors may be switched out to allow movement at home",
)
def where_people_sleep(house: House) -> Iterator[Said]:
    """Motion detectors without a note in bedrooms."""
    for storey in house:
        for device in storey.devices("motion"):
            room = storey.room_of_device[device.id]
            if room is not None and not remark(device) and use_of(room) in SLEEPING:
                yield Said(
                    (device.id, room.id),
                    f"{storey.name(device.id)} watches {storey.name(room.id)}, used at night: it is off in stay. Note "
                    "that it is for away only, or take it out.",
                )


@rule(
    "motion.unconditioned",
    "should",
    words="A motion detector is not put in a garage, a porch or another space without conditioned air.",
    mend="Guard the space by its contacts and the door to the house.",
    source=f"{_PREWIRE}: not in garages; UFC 4-021-02NF 5-3.7.4: climate-controlled rooms",
)
def unconditioned(house: House) -> Iterator[Said]:
    """Motion detectors in garages and other unconditioned spaces."""
    for storey in house:
        for device in storey.devices("motion"):
            room = storey.room_of_device[device.id]
            if room is not None and not remark(device) and use_of(room) in UNCONDITIONED:
                yield Said(
                    (device.id, room.id),
                    f"{storey.name(device.id)} hangs in {storey.name(room.id)}, where the temperature changes; move "
                    "it to a conditioned room.",
                )


@rule(
    "motion.gathering_room",
    "should",
    words="A gathering room (great room, living, media, bonus) is watched by a motion detector.",
    mend="Put a motion detector in a corner of the room that sees most of its floor.",
    source="UFC 4-021-02NF 5-3.2.5: volumetric sensors with glass break; which rooms: common practice, no source",
)
def gathering_room(house: House) -> Iterator[Said]:
    """Gathering rooms of whose floor no motion detector, or too little, is watched."""
    asked = house.practice.number("motion.gathering_share")
    for storey in house:
        for room in storey.level.rooms:
            face = storey.scene.face_of_room[room.id]
            if use_of(room) not in GATHERING or face < 0:
                continue
            share = watched_share(storey.ground, face, storey.motions)
            if share < asked - 1e-9:
                state = f"only {share:.0%} of its floor is watched" if share > 0 else "no motion detector watches it"
                yield Said(
                    (room.id,),
                    f"{storey.name(room.id)} is a gathering room and {state}, asked is {asked:.0%}; put one in a "
                    "corner that sees most of the floor.",
                )
