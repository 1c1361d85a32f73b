"""The home runs as they would be with one device moved, changed or added: the drag call of the step Cable.

Walls do not move in a drag, so the level scenes are the stored ones; boxes, zones and power wait for the drag's end.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.geometry.scene import LevelScene
from app.plan.model import Device, Plan
from app.wiring.answer import bundle_value
from app.wiring.schedule.schedule import pull_value
from app.wiring.wiring import Wiring


def try_pulls(plan: Plan, scenes: Mapping[str, LevelScene], level_id: str, device: Device) -> dict[str, Any]:
    """``pulls`` and ``bundles`` of the whole plan as in its cable's answer, with the device in place on a level."""
    wiring = Wiring(_with_device(plan, level_id, device), scenes)
    return {
        "pulls": [pull_value(pull) for pull in wiring.pulls],
        "bundles": [bundle_value(bundle) for bundle in wiring.bundles],
    }


def _with_device(plan: Plan, level_id: str, device: Device) -> Plan:
    """The plan with a device on a level, in the place of the one of its id, or last where there is none."""
    levels = []
    for level in plan.levels:
        devices = [device if other.id == device.id and level.id == level_id else other for other in level.devices]
        if level.id == level_id and device not in devices:
            devices.append(device)
        levels.append(level.model_copy(update={"devices": tuple(devices)}))
    return plan.model_copy(update={"levels": tuple(levels)})
