"""A small house of two rooms for the tests of drawings: glass covered, partly covered and not covered."""

from __future__ import annotations

from typing import Any

from app.plan.model import Plan
from app.plan.reading import plan_from

WALLS = (("s", 0, 0, 30, 0), ("e", 30, 0, 30, 14), ("n", 30, 14, 0, 14), ("w", 0, 14, 0, 0), ("mid", 20, 0, 20, 14))


def house_value(**changes: Any) -> dict[str, Any]:
    """The house as a JSON value; ``changes`` replace keys of its one level."""
    level: dict[str, Any] = {
        "id": "L1",
        "name": "Ground floor",
        "walls": [{"id": i, "a": [ax, ay], "b": [bx, by], "thickness": 0.5} for i, ax, ay, bx, by in WALLS],
        "openings": [
            {"id": "w1", "wall": "s", "kind": "window", "offset": 4, "width": 6, "sill": 3, "head": 6.5, "panes": 2},
            {"id": "w2", "wall": "s", "kind": "window", "offset": 22, "width": 5, "sill": 3, "head": 6.5},
            {"id": "w3", "wall": "n", "kind": "window", "offset": 13, "width": 9, "sill": 3, "head": 6.5},
            {"id": "d1", "wall": "s", "kind": "door", "offset": 12, "width": 3, "hinge": "a"},
            {"id": "c1", "wall": "mid", "kind": "cased", "offset": 9, "width": 4},
        ],
        "fixtures": [
            {
                "id": "case",
                "kind": "obstruction",
                "polygon": [[9, 11], [12, 11], [12, 12], [9, 12]],
                "label": "Bookcase",
            },
        ],
        "rooms": [
            {"id": "great", "name": "Great room", "use": "great_room", "at": [5, 8]},
            {"id": "den", "name": "Den", "use": "other", "at": [25, 8]},
        ],
        "devices": [
            {"id": "gb1", "kind": "glass_break", "at": [8, 6], "label": "GB-1"},
            {"id": "md1", "kind": "motion", "at": [0.6, 13.4], "facing": 315, "label": "MD-1"},
        ],
    }
    return {"format": "studbay-plan/1", "name": "Two rooms", "levels": [level | changes]}


def house(**changes: Any) -> Plan:
    """The house, read."""
    return plan_from(house_value(**changes))
