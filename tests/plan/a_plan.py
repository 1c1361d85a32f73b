"""A small plan value that is right in every part, for tests that spoil one thing of it."""

import copy
from typing import Any


def a_plan() -> dict[str, Any]:
    """Two levels, one of each family of things, joined by a riser."""
    walls = [
        {"id": "south", "a": [0, 0], "b": [20, 0]},
        {"id": "east", "a": [20, 0], "b": [20, 12]},
        {"id": "north", "a": [20, 12], "b": [0, 12]},
        {"id": "west", "a": [0, 12], "b": [0, 0]},
    ]
    openings = [
        {"id": "win", "wall": "south", "kind": "window", "offset": 3, "width": 4, "sill": 2.5, "head": 6.5},
        {"id": "door", "wall": "south", "kind": "door", "offset": 10, "width": 3},
    ]
    fixtures = [
        {"id": "sofa", "kind": "obstruction", "polygon": [[4, 4], [8, 4], [8, 6], [4, 6]], "top": 2.5},
        {"id": "switch", "kind": "light_switch", "at": [14, 0.2], "height": 4},
    ]
    rooms = [{"id": "den", "name": "Den", "use": "great_room", "at": [10, 9]}]
    devices = [
        {"id": "gb", "kind": "glass_break", "at": [10, 6]},
        {"id": "dc", "kind": "door_contact", "at": [11.5, 0], "serves": ["door"]},
        {"id": "can", "kind": "can", "at": [19, 11]},
    ]
    lower = {"id": "ground", "name": "Ground", "walls": walls, "openings": openings, "fixtures": fixtures}
    lower |= {"rooms": rooms, "devices": devices}
    upper = {"id": "upper", "name": "Upper", "elevation": 10}
    riser = {"id": "shaft", "at": [19, 11], "from": "ground", "to": "upper"}
    plan = {"format": "studbay-plan/1", "name": "A house", "levels": [lower, upper], "risers": [riser]}
    return copy.deepcopy(plan | {"units": "imperial", "site": {"client": "N. Client"}, "practice": {"glass.range": 14}})
