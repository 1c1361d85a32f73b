"""A small house to place devices in, as a plan value that each test changes as it needs."""

from __future__ import annotations

from typing import Any

from app.plan.model import Device, Plan
from app.plan.reading import plan_from
from app.proposal.draft import Draft, draft_plan

Value = dict[str, Any]


def house(**more: Any) -> Value:
    """Two rooms side by side, 20 × 16 and 12 × 16 ft: a great room with a front door and a closet behind a door."""
    level: Value = {
        "id": "L1",
        "name": "Main",
        "walls": [
            {"id": "s", "a": [0, 0], "b": [32, 0]},
            {"id": "e", "a": [32, 0], "b": [32, 16]},
            {"id": "n", "a": [32, 16], "b": [0, 16]},
            {"id": "w", "a": [0, 16], "b": [0, 0]},
            {"id": "mid", "a": [20, 0], "b": [20, 16]},
        ],
        "openings": [
            {"id": "front", "wall": "s", "kind": "door", "offset": 4, "width": 3, "hinge": "a"},
            {"id": "win", "wall": "n", "kind": "window", "offset": 20, "width": 4, "sill": 2.5, "head": 6.5},
            {"id": "inner", "wall": "mid", "kind": "door", "offset": 6, "width": 2.5},
        ],
        "fixtures": [],
        "rooms": [
            {"id": "great", "name": "Great room", "use": "great_room", "at": [10, 8]},
            {"id": "closet", "name": "Closet", "use": "closet", "at": [26, 8]},
        ],
        "devices": [],
    }
    return {"format": "studbay-plan/1", "name": "Two rooms", "levels": [level | more]}


def plan_of(value: Value) -> Plan:
    return plan_from(value)


def drafted(value: Value) -> Draft:
    return draft_plan(plan_from(value))


def proposed(draft: Draft, *kinds: str) -> list[Device]:
    """The proposed devices of some kinds."""
    return [one.device for one in draft.proposals if one.device.kind in kinds]
