"""Pulls: one home run for every device that needs cable, with its label, its way, its measured and its cut length.

A pull is labelled by its device's id, which no edit changes and no other thing of the plan shares; boxes, zones and
power read the pulls and never measure again.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from app.geometry.scene import LevelScene, compile_level
from app.plan.devices import DEVICE_KIND, cable_of
from app.plan.model import Device, Level, Plan
from app.plan.practice import Practice
from app.wiring.routes.axes import main_axes
from app.wiring.routes.overhead import OverheadWays
from app.wiring.routes.run_heights import run_height
from app.wiring.routes.way import Way
from app.wiring.routes.waypoints import way_by_waypoints, waypoints_of
from app.wiring.whereabouts import rooms_of

ROUNDING = 1e-6  # ft: a hair over a whole foot is arithmetic, and buys no further foot


@dataclass(frozen=True)
class Pull:
    """One length of cable from a device to a can; ``way`` and the lengths are None where no can can be reached.

    ``carries`` says what it is for: "signal", "signal and power", "power only", "not yet chosen" or "spare".
    """

    label: str
    device: Device
    level: Level
    room: str | None
    room_name: str
    cable: str
    carries: str
    way: Way | None
    measured_ft: float | None
    cut_ft: int | None

    @property
    def name(self) -> str:
        """What people call the device: its own label, or its kind and room."""
        if self.device.label and self.device.label.strip():
            return self.device.label.strip()
        kind = DEVICE_KIND[self.device.kind].name
        return f"{kind}, {self.room_name}" if self.room_name else kind

    @property
    def can(self) -> str | None:
        """The id of the can where the pull ends."""
        return None if self.way is None else self.way.can


def by_can(pulls: Iterable[Pull]) -> dict[str, list[Pull]]:
    """The pulls that end at each can."""
    ending: dict[str, list[Pull]] = {}
    for pull in pulls:
        if pull.way is not None:
            ending.setdefault(pull.way.can, []).append(pull)
    return ending


def cut_length(measured: float, practice: Practice) -> int:
    """Whole feet to cut for a measured run: waste and the slack at both ends added, rounded up (contract §6)."""
    exact = (
        measured * (1 + practice.number("cable.waste"))
        + practice.number("cable.slack_at_device")
        + practice.number("cable.slack_at_can")
    )
    return math.ceil(exact - ROUNDING)


def compile_pulls(plan: Plan, scenes: Mapping[str, LevelScene] | None = None) -> tuple[Pull, ...]:
    """Every pull of a plan, by level, each level's in the order of the file; ``scenes`` saves compiling them again."""
    cabled = [
        (level, device)
        for level in plan.levels
        for device in level.devices
        if device.kind != "can" and cable_of(device, plan.practice_in_force) is not None
    ]
    given = scenes or {}
    compiled = {level.id: given.get(level.id) or compile_level(level) for level in plan.levels}
    rooms = _rooms(plan, compiled)
    pulls: list[Pull] = []
    for (level, device), way in zip(cabled, ways_of(plan, cabled, compiled), strict=True):
        pulls += _pulls_of(plan, level, device, rooms[device.id], way)
    return tuple(pulls)


def ways_of(plan: Plan, cabled: Sequence[tuple[Level, Device]], scenes: Mapping[str, LevelScene]) -> list[Way | None]:
    """The shortest way of each device to a can, as the practice ``cable.way`` lets cable run."""
    cans = [(level, device) for level in plan.levels for device in level.devices if device.kind == "can"]
    axes, practice = main_axes(plan), plan.practice_in_force
    starts = [_start(level, device, practice) for level, device in cabled]
    if practice.text("cable.way") == "in_walls":
        from app.wiring.routes.in_walls import InWallWays  # its graphs load slowly, and most plans run overhead

        ways = InWallWays(plan, scenes, cans, starts).ways()
    else:
        ways = OverheadWays(plan, axes, cans).ways(starts)
    return [
        way if way is None or device is start else way_by_waypoints(level, device, way, axes, practice)
        for (level, device), (_, start), way in zip(cabled, starts, ways, strict=True)
    ]


def _start(level: Level, device: Device, practice: Practice) -> tuple[Level, Device]:
    """Where the search for a device's way sets out: the device, or its last way-point at run height."""
    points = waypoints_of(device)
    if not points:
        return level, device
    height = run_height(level, practice) - level.elevation
    return level, device.model_copy(update={"at": points[-1], "height": height})


def _rooms(plan: Plan, scenes: Mapping[str, LevelScene]) -> dict[str, tuple[str | None, str]]:
    """Room id and name of every device that is not a can."""
    rooms: dict[str, tuple[str | None, str]] = {}
    for level in plan.levels:
        names = {room.id: room.name.strip() or room.use.replace("_", " ") for room in level.rooms}
        devices = [device for device in level.devices if device.kind != "can"]
        if devices:
            found = rooms_of(scenes[level.id], devices)
            rooms |= {device.id: (room, names.get(room or "", "")) for device, room in zip(devices, found, strict=True)}
    return rooms


def _pulls_of(plan: Plan, level: Level, device: Device, room: tuple[str | None, str], way: Way | None) -> list[Pull]:
    """A device's home run, and the spares that the practice runs beside it."""
    practice = plan.practice_in_force
    measured = None if way is None else round(way.length, 6)
    cut = None if way is None else cut_length(way.length, practice)
    cable = cable_of(device, practice)
    assert cable is not None
    own = Pull(device.id, device, level, *room, cable, _carries(device), way, measured, cut)
    spares = int(practice.number("cable.spares_at_keypads")) if device.kind == "keypad" else 0
    return [own] + [
        Pull(f"{device.id}/S{number + 1}", device, level, *room, cable, "spare", way, measured, cut)
        for number in range(spares)
    ]


def _carries(device: Device) -> str:
    words = f"{device.label or ''} {device.note or ''}".lower()
    if "spare" in words and device.kind == "other":
        return "spare"
    if "wireless" in words:
        return "power only"
    return DEVICE_KIND[device.kind].carries
