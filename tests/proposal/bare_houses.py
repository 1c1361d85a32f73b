"""Random bare houses small enough for brute force: open rooms with columns, half walls, partitions, turned anyhow."""

from __future__ import annotations

import math
import random
from typing import Any

from app.plan.model import Plan
from app.plan.reading import plan_from


def bare_house(seed: int) -> Plan:
    """A house of one to four spaces with 3 to 9 windows, without devices."""
    dice = random.Random(seed)
    width, depth = dice.uniform(18, 34), dice.uniform(14, 26)
    split_x, split_y = width * dice.uniform(0.35, 0.65), depth * dice.uniform(0.35, 0.65)
    walls = [
        _wall("south", (0, 0), (width, 0)),
        _wall("east", (width, 0), (width, depth)),
        _wall("north", (width, depth), (0, depth)),
        _wall("west", (0, depth), (0, 0)),
    ]
    openings = _windows(dice, [("south", width), ("east", depth), ("north", width), ("west", depth)])
    rooms = [_room("r1", "great_room", width * 0.1, depth * 0.1)]
    plan = dice.randrange(4)
    if plan >= 1:
        half = dice.choice([None, 3.5, 6.0])
        walls.append(_wall("mid", (split_x, 0), (split_x, depth), height=half))
        openings.append(_cased("gap", "mid", dice.uniform(1, 3), dice.uniform(3, depth - 5)))
        rooms.append(_room("r2", dice.choice(["living", "kitchen", "dining"]), width * 0.9, depth * 0.1))
    if plan >= 2:
        walls.append(_wall("cross", (0, split_y), (split_x, split_y)))
        kind = dice.choice([_cased, _door])
        openings.append(kind("way", "cross", dice.uniform(1, 2), dice.uniform(2.5, 4)))
        rooms.append(_room("r3", "bedroom", width * 0.1, depth * 0.9))
    fixtures = [_column(f"post{n}", dice, width, depth, dice.choice([9.0, 9.0, 4.0, 6.5])) for n in range(plan)]
    if dice.random() < 0.5:
        fixtures.append({"id": "air", "kind": "supply_register", "at": [width / 4, depth / 4]})
    value = {
        "format": "studbay-plan/1",
        "name": f"bare house {seed}",
        "practice": {"glass.range": dice.choice([15, 15, 12, 10])},
        "levels": [
            {
                "id": "L1",
                "name": "Main",
                "walls": walls,
                "openings": openings,
                "rooms": rooms,
                "fixtures": fixtures,
            }
        ],
    }
    return plan_from(_turned(value, dice.choice([0.0, 0.0, dice.uniform(0, 360)])))


def _wall(name: str, a: tuple[float, float], b: tuple[float, float], height: float | None = None) -> dict[str, Any]:
    return {"id": name, "a": list(a), "b": list(b), "thickness": 0.375, "height": height}


def _windows(dice: random.Random, sides: list[tuple[str, float]]) -> list[dict[str, Any]]:
    found = []
    for wall, length in sides:
        mark = dice.uniform(1, 4)
        while mark < length - 5 and len(found) < 9:
            width = dice.uniform(1.5, 4)
            sill = dice.choice([0.5, 2.5, 3.5])
            found.append(
                {
                    "id": f"{wall}-{len(found)}",
                    "wall": wall,
                    "kind": "window",
                    "offset": round(mark, 3),
                    "width": round(width, 3),
                    "sill": sill,
                    "head": sill + dice.choice([2.0, 4.0]),
                    "panes": dice.choice([1, 1, 2]),
                }
            )
            mark += width + dice.uniform(2, 9)
    return found


def _cased(name: str, wall: str, offset: float, width: float) -> dict[str, Any]:
    return {"id": name, "wall": wall, "kind": "cased", "offset": offset, "width": width, "head": 7.0}


def _door(name: str, wall: str, offset: float, width: float) -> dict[str, Any]:
    return {"id": name, "wall": wall, "kind": "door", "offset": offset, "width": width}


def _room(name: str, use: str, x: float, y: float) -> dict[str, Any]:
    return {"id": name, "name": use.replace("_", " ").title(), "use": use, "at": [x, y]}


def _column(name: str, dice: random.Random, width: float, depth: float, top: float) -> dict[str, Any]:
    x, y = dice.uniform(2, width - 2), dice.uniform(2, depth - 2)
    half = dice.uniform(0.3, 1.2)
    corners = [[x - half, y - half], [x + half, y - half], [x + half, y + half], [x - half, y + half]]
    return {"id": name, "kind": "obstruction", "polygon": corners, "top": top}


def _turned(value: dict[str, Any], degrees: float) -> dict[str, Any]:
    """The plan turned about the origin."""
    turn = math.radians(degrees)

    def at(point: list[float]) -> list[float]:
        x, y = point
        return [x * math.cos(turn) - y * math.sin(turn), x * math.sin(turn) + y * math.cos(turn)]

    for level in value["levels"]:
        for wall in level["walls"]:
            wall["a"], wall["b"] = at(wall["a"]), at(wall["b"])
        for thing in (*level["rooms"], *level["fixtures"]):
            if "at" in thing:
                thing["at"] = at(thing["at"])
            if "polygon" in thing:
                thing["polygon"] = [at(corner) for corner in thing["polygon"]]
    return value
