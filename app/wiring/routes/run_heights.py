"""Heights above the plan's datum: where a level's cable runs, and where a device's cable ends."""

from __future__ import annotations

from app.plan.devices import height_of
from app.plan.model import Device, Level
from app.plan.practice import Practice


def run_height(level: Level, practice: Practice) -> float:
    """Feet above the datum at which a level's home runs travel: its ceiling and ``cable.above_ceiling``."""
    return level.elevation + level.ceiling + practice.number("cable.above_ceiling")


def cable_end(device: Device, level: Level, practice: Practice) -> float:
    """Feet above the datum at which a device's cable ends."""
    return level.elevation + height_of(device, level, practice)
