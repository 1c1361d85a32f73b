"""What a trial's body says: the level, and a device that the plan's own reader would take."""

from __future__ import annotations

from typing import Any

from pydantic import ValidationError

from app.plan.faults import Fault, PlanRefused
from app.plan.model import Device
from app.plan.reading import faults_of

_KEYS = ("level", "device", "scale")


def trial_of(value: Any) -> dict[str, Any]:
    """The ``level``, ``device`` (as given) and ``scale`` of a trial's JSON; raises ``PlanRefused`` with every fault."""
    if not isinstance(value, dict):
        raise PlanRefused([Fault("", 'a trial is a JSON object with "level" and "device"')])
    faults = [Fault(ascii(key)[1:-1][:60], "is not a key of a trial; take it out") for key in value if key not in _KEYS]
    if "level" not in value:
        faults.append(Fault("level", "is missing; give the id of a level"))
    elif not isinstance(value["level"], str):
        faults.append(Fault("level", "must be text in quotes"))
    scale = value.get("scale")
    if scale is not None and not _is_scale(scale):
        faults.append(Fault("scale", "must be the zoom in pixels a foot: a number from 0.01 to 10000"))
    if "device" not in value:
        raise PlanRefused([*faults, Fault("device", "is missing; give the device that is tried")])
    try:
        Device.model_validate(value["device"])
    except ValidationError as error:
        raise PlanRefused(faults + faults_of(error, under="device")) from None
    if faults:
        raise PlanRefused(faults)
    return {"level": value["level"], "device": value["device"], "scale": scale}


def _is_scale(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and 0.01 <= value <= 10_000
