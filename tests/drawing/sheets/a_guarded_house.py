"""The small house of the drawings' tests with every kind of device in it, for the contents of printed sets."""

from __future__ import annotations

from typing import Any

from app.plan.model import Plan
from app.plan.reading import plan_from
from tests.drawing.a_house import house_value

DEVICES: tuple[dict[str, Any], ...] = (
    {"id": "can", "kind": "can", "at": [29, 13], "label": "CAN-1"},
    {"id": "kp", "kind": "keypad", "at": [11, 0.3], "label": "KP-1"},
    {"id": "dc", "kind": "door_contact", "at": [12.5, 0], "serves": ["d1"], "label": "DC-1"},
    {"id": "wc", "kind": "window_contact", "at": [5, 0], "serves": ["w1"], "label": "WC-1", "height": 4},
    {"id": "gb", "kind": "glass_break", "at": [8, 6], "label": "GB-1"},
    {"id": "md", "kind": "motion", "at": [0.6, 13.4], "facing": 315, "label": "MD-1"},
    {"id": "sr", "kind": "siren", "at": [19.6, 10], "facing": 180, "label": "SR-1"},
    {"id": "fl", "kind": "flood", "at": [28, 2], "label": "FL-1"},
    {"id": "sm", "kind": "smoke", "at": [25, 7], "label": "SM-1"},
    {"id": "ot", "kind": "other", "at": [2, 2], "label": "OT-1", "note": "perhaps a beam"},
)


def guarded_value(**changes: Any) -> dict[str, Any]:
    """The house as a JSON value; ``changes`` replace keys of the plan."""
    return house_value(devices=[dict(device) for device in DEVICES]) | changes


def guarded(**changes: Any) -> Plan:
    """The house, read."""
    return plan_from(guarded_value(**changes))
