"""A plan of two levels as a JSON value, and edits of it whose finding is known beforehand."""

from __future__ import annotations

import copy
import random
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from app.plan.model import Plan
from app.plan.reading import plan_from

Value = dict[str, Any]
FAMILIES = ("walls", "openings", "fixtures", "rooms", "devices")


def house() -> Value:
    """Two levels of 30 × 20 ft with openings, furniture and devices; every thing stands at a place of its own."""
    levels = []
    for number, name in ((1, "Ground floor"), (2, "Upper floor")):
        p = f"L{number}-"
        corners = [(0, 0), (30, 0), (30, 20), (0, 20)]
        walls = [{"id": f"{p}w{i}", "a": corners[i], "b": corners[(i + 1) % 4]} for i in range(4)]
        openings = [
            {"id": f"{p}o0", "wall": f"{p}w0", "kind": "window", "offset": 4, "width": 4, "sill": 2},
            {"id": f"{p}o1", "wall": f"{p}w0", "kind": "door", "offset": 14, "width": 3, "hinge": "a"},
            {"id": f"{p}o2", "wall": f"{p}w2", "kind": "window", "offset": 8, "width": 6, "sill": 3, "panes": 2},
        ]
        fixtures = [
            {"id": f"{p}f0", "kind": "obstruction", "polygon": [[10, 8], [13, 8], [13, 10], [10, 10]], "top": 3},
            {"id": f"{p}f1", "kind": "light_switch", "at": [14, 0.3], "height": 4},
        ]
        devices = [
            {"id": f"{p}g0", "kind": "glass_break", "at": [12, 6]},
            {"id": f"{p}m0", "kind": "motion", "at": [1, 19], "facing": 315},
            {"id": f"{p}c0", "kind": "door_contact", "at": [15, 0], "serves": [f"{p}o1"]},
            {"id": f"{p}k0", "kind": "keypad", "at": [18, 0.4], "label": f"KP-{number}"},
        ]
        levels.append(
            {
                "id": f"L{number}",
                "name": name,
                "elevation": 10.0 * (number - 1),
                "walls": walls,
                "openings": openings,
                "fixtures": fixtures,
                "rooms": [{"id": f"{p}r0", "name": "Hall", "use": "hall", "at": [20, 10]}],
                "devices": devices,
            }
        )
    levels[0]["devices"].append({"id": "can", "kind": "can", "at": [28, 18]})
    risers = [{"id": "riser", "at": [29, 19], "from": "L1", "to": "L2"}]
    return {"format": "studbay-plan/1", "name": "21 Teasel Way", "levels": levels, "risers": risers}


def plan(value: Value) -> Plan:
    """The plan that a value says."""
    return plan_from(value)


@dataclass(frozen=True)
class Edit:
    """A change of one thing, and what a comparison must say of it: (what, family, id), and the old id if it is new."""

    what: str
    family: str
    id: str
    apply: Callable[[Value], None]


def edits() -> list[Edit]:
    """Edits of things that touch no other: any of them may be made together with any others."""
    made = []
    for p in ("L1-", "L2-"):
        made += [
            Edit("moved", "devices", f"{p}g0", _at(f"{p}g0", [16.5, 7.25])),
            Edit("changed", "devices", f"{p}m0", _put(f"{p}m0", height=8.25)),
            Edit("removed", "devices", f"{p}c0", _drop(f"{p}c0")),
            Edit("renamed", "devices", f"{p}k9", _put(f"{p}k0", id=f"{p}k9")),
            Edit("added", "devices", f"{p}new", _add(p, {"id": f"{p}new", "kind": "flood", "at": [25, 4]})),
            Edit("moved", "openings", f"{p}o0", _put(f"{p}o0", offset=7.5)),
            Edit("changed", "openings", f"{p}o1", _put(f"{p}o1", hinge="b")),
            Edit("moved", "fixtures", f"{p}f0", _shift_outline(f"{p}f0", 1.5)),
            Edit("changed", "rooms", f"{p}r0", _put(f"{p}r0", name="Long hall")),
            Edit("changed", "walls", f"{p}w1", _put(f"{p}w1", thickness=0.5)),
            Edit("moved", "walls", f"{p}w2", _put(f"{p}w2", a=[30, 22], b=[0, 22])),
        ]
    made += [
        Edit("moved", "risers", "riser", lambda value: value["risers"][0].update(at=[27, 19])),
        Edit("changed", "levels", "L2", lambda value: value["levels"][1].update(ceiling=10)),
        Edit("changed", "plan", "plan", lambda value: value.update(site={"client": "A. Lark"})),
        Edit("changed", "practice", "glass.range", lambda value: value.update(practice={"glass.range": 12})),
    ]
    return made


def thing(value: Value, name: str) -> Value:
    """The thing of that id."""
    found: Value = next(
        one for level in value["levels"] for family in FAMILIES for one in level[family] if one["id"] == name
    )
    return found


def shuffled(value: Value, seed: int) -> Value:
    """The same plan with every list in another order."""
    other, chance = copy.deepcopy(value), random.Random(seed)
    for level in other["levels"]:
        for family in FAMILIES:
            chance.shuffle(level[family])
        for fixture in level["fixtures"]:
            if turn := chance.randrange(4) if "polygon" in fixture else 0:
                fixture["polygon"] = fixture["polygon"][turn:] + fixture["polygon"][:turn]
    return other


def _put(of: str, /, **values: Any) -> Callable[[Value], None]:
    return lambda value: thing(value, of).update(values)


def _at(name: str, at: list[float]) -> Callable[[Value], None]:
    return _put(name, at=at)


def _drop(name: str) -> Callable[[Value], None]:
    def drop(value: Value) -> None:
        for level in value["levels"]:
            level["devices"] = [device for device in level["devices"] if device["id"] != name]

    return drop


def _add(prefix: str, device: Value) -> Callable[[Value], None]:
    return lambda value: value["levels"][0 if prefix == "L1-" else 1]["devices"].append(dict(device))


def _shift_outline(name: str, east: float) -> Callable[[Value], None]:
    def shift(value: Value) -> None:
        fixture = thing(value, name)
        fixture["polygon"] = [[x + east, y] for x, y in fixture["polygon"]]

    return shift
