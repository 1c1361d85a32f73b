"""The table of device kinds: name, abbreviation, cable, mount, height, symbol and words, each once.

The page, the schedules, the rules and the legend all read it. A symbol is a list of simple shapes in a box from
-1 to 1 with y upward; ``("circle", x, y, r)``, ``("line", x1, y1, x2, y2)``, ``("polygon", x1, y1, …)``,
``("arc", x, y, r, from°, to°)``; a name that ends in ``!`` is filled. They are drawings of our own.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from app.plan.practice import Practice

if TYPE_CHECKING:
    from app.plan.model import Device, Level

Shape = tuple[str | float, ...]


@dataclass(frozen=True)
class DeviceKind:
    """What the trade knows of one kind of device.

    ``height_key`` names the practice value of its usual height in feet, or is None for a device on the ceiling;
    ``cable_key`` names the practice value of its cable, or is None where others wire it; ``carries`` says what
    that cable is for.
    """

    kind: str
    name: str
    abbreviation: str
    words: str
    mount: str
    height_key: str | None
    cable_key: str | None
    symbol: tuple[Shape, ...]
    faces: bool = False
    located_by_others: bool = False
    carries: str = "signal"


DEVICE_KINDS: tuple[DeviceKind, ...] = (
    DeviceKind(
        "can",
        "Can (panel enclosure)",
        "CAN",
        "Where every home run ends; in a closet or utility room, never in an exterior wall.",
        "wall",
        "can.height",
        None,
        (
            ("polygon", -0.9, -0.9, 0.9, -0.9, 0.9, 0.9, -0.9, 0.9),
            ("line", -0.9, -0.9, 0.9, 0.9),
            ("line", -0.9, 0.9, 0.9, -0.9),
        ),
        carries="",
    ),
    DeviceKind(
        "keypad",
        "Keypad",
        "KP",
        "Arms and disarms; stacked above the light switch nearest a critical entry.",
        "wall",
        "keypad.height",
        "cable.powered",
        (("polygon", -0.7, -0.9, 0.7, -0.9, 0.7, 0.9, -0.7, 0.9), ("line", -0.7, 0.3, 0.7, 0.3)),
        carries="signal and power",
    ),
    DeviceKind(
        "door_contact",
        "Door contact",
        "DC",
        "Tells an opened door; at the head of the frame or its hinge side.",
        "recessed",
        "door_contact.height",
        "cable.contact",
        (("polygon!", 0, 0.8, 0.75, -0.6, -0.75, -0.6),),
    ),
    DeviceKind(
        "window_contact",
        "Window contact",
        "WC",
        "Tells an opened window; drilled only with the window manufacturer's word.",
        "surface",
        "window_contact.height",
        "cable.contact",
        (("polygon", 0, 0.8, 0.75, -0.6, -0.75, -0.6),),
    ),
    DeviceKind(
        "overhead_door_contact",
        "Overhead-door contact",
        "OD",
        "Tells an opened overhead door.",
        "surface",
        "overhead_door_contact.height",
        "cable.contact",
        (("polygon", 0, 0.8, 0.75, -0.6, -0.75, -0.6), ("line", -0.75, -0.9, 0.75, -0.9)),
    ),
    DeviceKind(
        "motion",
        "Motion detector",
        "MD",
        "Watches a room from an inside corner; off in stay.",
        "corner",
        "motion.height",
        "cable.powered",
        (("polygon", -0.8, 0, 0, -0.8, 0.8, 0, 0, 0.8), ("circle!", 0, 0, 0.2)),
        faces=True,
        carries="signal and power",
    ),
    DeviceKind(
        "glass_break",
        "Glass-break detector",
        "GB",
        "Hears breaking glass; all that guards the windows in stay.",
        "ceiling",
        None,
        "cable.powered",
        (("circle", 0, 0, 0.85), ("line", -0.6, -0.6, 0.6, 0.6), ("line", 0, 0, 0.6, -0.6)),
        carries="signal and power",
    ),
    DeviceKind(
        "siren",
        "Siren",
        "SR",
        "Sounds the alarm; beside the doorbell chime.",
        "wall",
        "siren.height",
        "cable.siren",
        (("polygon", -0.8, -0.35, 0, -0.35, 0.7, -0.9, 0.7, 0.9, 0, 0.35, -0.8, 0.35),),
        faces=True,
        carries="power only",
    ),
    DeviceKind(
        "flood",
        "Flood sensor",
        "FL",
        "Tells standing water at a heater, washer or sump.",
        "surface",
        "flood.height",
        "cable.specialty",
        (("circle", 0, -0.2, 0.65), ("line", -0.45, 0.25, 0, 0.95), ("line", 0.45, 0.25, 0, 0.95)),
    ),
    DeviceKind(
        "smoke",
        "Smoke alarm (located by others)",
        "SM",
        "Number and location set by local code and licensed others; not designed on this plan.",
        "ceiling",
        None,
        None,
        (("circle", 0, 0, 0.9), ("circle", 0, 0, 0.5)),
        located_by_others=True,
        carries="signal and power",
    ),
    DeviceKind(
        "other",
        "Other device",
        "OT",
        "A device of no listed kind; its note says what.",
        "wall",
        "other.height",
        "cable.undecided",
        (("polygon", -0.8, -0.8, 0.8, -0.8, 0.8, 0.8, -0.8, 0.8),),
        carries="not yet chosen",
    ),
)

DEVICE_KIND: Mapping[str, DeviceKind] = {kind.kind: kind for kind in DEVICE_KINDS}


def height_of(device: Device, level: Level, practice: Practice) -> float:
    """Height of a device above its level's finished floor, in feet."""
    if device.height is not None:
        return device.height
    key = DEVICE_KIND[device.kind].height_key
    return level.ceiling if key is None else practice.number(key)


def tag_of(device: Device) -> str:
    """What is written beside a device's symbol: its label, else its kind's abbreviation and its id."""
    return device.label or f"{DEVICE_KIND[device.kind].abbreviation} {device.id}"


def range_of(device: Device, practice: Practice) -> float:
    """Reach of a detector in feet: slant for a glass break, in plan for a motion."""
    if device.range is not None:
        return device.range
    return practice.number("motion.range" if device.kind == "motion" else "glass.range")


def view_angle_of(device: Device, practice: Practice) -> float:
    """Whole angle in degrees that a motion detector watches."""
    return practice.number("motion.view_angle") if device.view_angle is None else device.view_angle


def cable_of(device: Device, practice: Practice) -> str | None:
    """The cable of a device's home run, or None where it has none (the can; a smoke alarm wired by others)."""
    if device.cable is not None:
        return device.cable or None
    key = DEVICE_KIND[device.kind].cable_key
    return None if key is None else practice.text(key)
