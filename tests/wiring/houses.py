"""Plans for the cable's tests: two rooms on each of some levels, and the same plan turned and moved."""

import math

from app.plan.model import Plan
from app.plan.reading import plan_from

WALLS = {
    "north": ((0, 24), (40, 24)),
    "east": ((40, 24), (40, 0)),
    "south": ((40, 0), (0, 0)),
    "west": ((0, 0), (0, 24)),
    "middle": ((20, 0), (20, 24)),
    "cross": ((20, 12), (40, 12)),
}


def device(id, kind, at, **more):
    return {"id": id, "kind": kind, "at": list(at), **more}


def level(number, devices, *, elevation=None, walls=WALLS, openings=(), ceiling=9.0):
    name = f"L{number}"
    return {
        "id": name,
        "name": f"Level {number}",
        "elevation": 10.0 * number if elevation is None else elevation,
        "ceiling": ceiling,
        "walls": [{"id": f"{wall}-{name}", "a": list(a), "b": list(b)} for wall, (a, b) in walls.items()],
        "openings": list(openings),
        "rooms": [
            {"id": f"den-{name}", "name": "Den", "use": "great_room", "at": [10, 10]},
            {"id": f"hall-{name}", "name": "Hall", "use": "other", "at": [30, 6]},
            {"id": f"bed-{name}", "name": "Bedroom", "use": "bedroom", "at": [30, 18]},
        ],
        "devices": list(devices),
    }


def riser(id, at, low, high):
    return {"id": id, "at": list(at), "from": low, "to": high}


def value(levels, risers=(), **practice):
    keys = {key.replace("__", "."): given for key, given in practice.items()}
    return {"format": "studbay-plan/1", "name": "A house", "levels": levels, "risers": list(risers), "practice": keys}


def plan(levels, risers=(), **practice) -> Plan:
    return plan_from(value(levels, risers, **practice))


def turned(given, degrees, move=(0.0, 0.0)) -> Plan:
    """The same plan turned about the origin and moved; lengths must not change."""
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))

    def spot(at):
        return [at[0] * cosine - at[1] * sine + move[0], at[0] * sine + at[1] * cosine + move[1]]

    def storey(one):
        return one | {
            "walls": [wall | {"a": spot(wall["a"]), "b": spot(wall["b"])} for wall in one["walls"]],
            "rooms": [room | {"at": spot(room["at"])} for room in one["rooms"]],
            "devices": [thing | {"at": spot(thing["at"])} for thing in one["devices"]],
        }

    levels = [storey(one) for one in given["levels"]]
    risers = [one | {"at": spot(one["at"])} for one in given["risers"]]
    return plan_from(given | {"levels": levels, "risers": risers})
