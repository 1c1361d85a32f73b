"""Plans as JSON values for the tests of server and commands: one small house, and what spoils it."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

Value = dict[str, Any]


def den(name: str = "14 Larch Lane") -> Value:
    """A den of 20 by 15 ft with one window, which its glass break covers."""
    return {
        "format": "studbay-plan/1",
        "name": name,
        "levels": [
            {
                "id": "L1",
                "name": "Ground floor",
                "walls": [
                    {"id": "w1", "a": [0, 0], "b": [20, 0]},
                    {"id": "w2", "a": [20, 0], "b": [20, 15]},
                    {"id": "w3", "a": [20, 15], "b": [0, 15]},
                    {"id": "w4", "a": [0, 15], "b": [0, 0]},
                ],
                "openings": [{"id": "o1", "wall": "w1", "kind": "window", "offset": 5, "width": 4, "sill": 2}],
                "fixtures": [],
                "rooms": [{"id": "r1", "name": "Den", "use": "other", "at": [10, 7]}],
                "devices": [
                    {"id": "g1", "kind": "glass_break", "at": [10, 7]},
                    {"id": "m1", "kind": "motion", "at": [1, 1], "facing": 45},
                ],
            }
        ],
    }


def spoiled(change: Callable[[Value], Any]) -> Value:
    """The den after a change to it."""
    value = copy.deepcopy(den())
    change(value)
    return value


def grid(columns: int, rows: int, windows: int, detectors: int) -> Value:
    """A house of square rooms of 12 ft, as many windows as asked for, and detectors in its first rooms."""
    room = 12.0
    walls = [
        {"id": f"h{i}-{j}", "a": [i * room, j * room], "b": [(i + 1) * room, j * room]}
        for j in range(rows + 1)
        for i in range(columns)
    ]
    walls += [
        {"id": f"v{i}-{j}", "a": [i * room, j * room], "b": [i * room, (j + 1) * room]}
        for i in range(columns + 1)
        for j in range(rows)
    ]
    places = [((i + 0.4) * room, (j + 0.6) * room) for j in range(rows) for i in range(columns)]
    level = {
        "id": "L1",
        "name": "Ground floor",
        "walls": walls,
        "openings": [
            {"id": f"o{i}", "wall": wall["id"], "kind": "window", "offset": 4, "width": 4, "sill": 2.5}
            for i, wall in enumerate(walls[:windows])
        ],
        "rooms": [{"id": f"r{i}", "name": f"Room {i}", "at": list(place)} for i, place in enumerate(places)],
        "devices": [
            {"id": f"g{i}", "kind": "glass_break", "at": list(place)} for i, place in enumerate(places[:detectors])
        ],
    }
    return {"format": "studbay-plan/1", "name": f"{columns} by {rows} rooms", "levels": [level]}


def _level(value: Value) -> Value:
    level: Value = value["levels"][0]
    return level


REFUSED: dict[str, tuple[str, Value]] = {
    "an infinite number": ("levels[0].walls[0].a[0]", spoiled(lambda v: _level(v)["walls"][0].update(a=[1e999, 0]))),
    "a coordinate too far out": (
        "levels[0].walls[0].b[0]",
        spoiled(lambda v: _level(v)["walls"][0].update(b=[10_001, 0])),
    ),
    "a wall too short": ("levels[0].walls[1]", spoiled(lambda v: _level(v)["walls"][1].update(b=[20, 0.005]))),
    "an opening off its wall": ("levels[0].openings[0]", spoiled(lambda v: _level(v)["openings"][0].update(offset=18))),
    "openings that overlap": (
        "levels[0].openings[1]",
        spoiled(
            lambda v: _level(v)["openings"].append({"id": "o2", "wall": "w1", "kind": "door", "offset": 7, "width": 3})
        ),
    ),
    "a head below its sill": ("levels[0].openings[0]", spoiled(lambda v: _level(v)["openings"][0].update(head=1.5))),
    "a wall that is not there": (
        "levels[0].openings[0].wall",
        spoiled(lambda v: _level(v)["openings"][0].update(wall="w9")),
    ),
    "an opening that is not there": (
        "levels[0].devices[0].serves[0]",
        spoiled(lambda v: _level(v)["devices"][0].update(serves=["o9"])),
    ),
    "a level that is not there": (
        "risers[0]",
        spoiled(lambda v: v.update(risers=[{"id": "s1", "at": [0, 0], "from": "L1", "to": "L9"}])),
    ),
    "an obstruction that crosses itself": (
        "levels[0].fixtures[0].polygon",
        spoiled(
            lambda v: _level(v)["fixtures"].append(
                {"id": "f1", "kind": "obstruction", "polygon": [[1, 1], [3, 3], [3, 1], [1, 3]]}
            )
        ),
    ),
    "an obstruction without area": (
        "levels[0].fixtures[0].polygon",
        spoiled(
            lambda v: _level(v)["fixtures"].append(
                {"id": "f1", "kind": "obstruction", "polygon": [[1, 1], [2, 2], [3, 3]]}
            )
        ),
    ),
    "an id twice": ("levels[0].devices[0].id", spoiled(lambda v: _level(v)["devices"][0].update(id="w1"))),
    "an id with a space": ("levels[0].devices[0].id", spoiled(lambda v: _level(v)["devices"][0].update(id="g 1"))),
    "an unknown key": ("levels[0].walls[0].colour", spoiled(lambda v: _level(v)["walls"][0].update(colour="red"))),
    "a name over its limit": ("name", spoiled(lambda v: v.update(name="x" * 121))),
    "a control character": ("name", spoiled(lambda v: v.update(name="14 Larch\x1b[31m Lane"))),
    "a lone surrogate": ("name", spoiled(lambda v: v.update(name="14 Larch \ud800 Lane"))),
    "text for a number": ("levels[0].ceiling", spoiled(lambda v: _level(v).update(ceiling="nine"))),
    "a format that is not known": ("format", spoiled(lambda v: v.update(format="studbay-plan/2"))),
    "no levels": ("levels", spoiled(lambda v: v.update(levels=[]))),
    "an unknown design value": ("practice.glass.rang", spoiled(lambda v: v.update(practice={"glass.rang": 12}))),
    "a design value out of bounds": ("practice.glass.range", spoiled(lambda v: v.update(practice={"glass.range": -1}))),
}
"""What contract §2 refuses: the place that must be named, and the plan."""

REFUSED_BYTES: dict[str, bytes] = {
    "nothing": b"",
    "no JSON": b"{",
    "a list": b"[]",
    "null": b"null",
    "no UTF-8": b'{"format": "\xff"}',
    "a key twice": b'{"format": "studbay-plan/1", "format": "studbay-plan/1"}',
    "nesting without end": b"[" * 200_000,
    "a number without end": b'{"format": ' + b"9" * 10_000 + b"}",
    "a zip file": b"PK\x03\x04" + b"\x00" * 100,
}
"""What is no plan at all."""
