"""The invented cottage at 5 Plum Lane that every library here draws, and its shapes as JSON for the others.

``python -m tests.intake.writing.plum_lane SHAPES.json`` writes the shapes; lengths are feet.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from tests.intake.writing.from_plan import primitives

OUTER, INNER = 0.5417, 0.375


def _wall(name: str, a: tuple[float, float], b: tuple[float, float], thickness: float = INNER) -> dict[str, Any]:
    return {"id": name, "a": list(a), "b": list(b), "thickness": thickness}


def _opening(name: str, wall: str, kind: str, offset: float, width: float, **more: Any) -> dict[str, Any]:
    return {"id": name, "wall": wall, "kind": kind, "offset": offset, "width": width, **more}


LEVEL: dict[str, Any] = {
    "id": "L1",
    "name": "Main floor",
    "walls": [
        _wall("south", (0, 0), (34, 0), OUTER),
        _wall("east", (34, 0), (34, 26), OUTER),
        _wall("north", (34, 26), (0, 26), OUTER),
        _wall("west", (0, 26), (0, 0), OUTER),
        _wall("middle", (18, 0), (18, 26)),
        _wall("bed", (18, 13), (34, 13)),
        _wall("bath", (26, 13), (26, 26)),
        _wall("kitchen", (0, 15), (18, 15)),
    ],
    "openings": [
        _opening("front", "south", "door", 12, 3, hinge="a"),
        _opening("w1", "south", "window", 3, 6, panes=2),
        _opening("w2", "south", "window", 23, 5),
        _opening("w3", "east", "window", 4, 4, panes=2),
        _opening("w4", "east", "window", 18, 2.5),
        _opening("patio", "north", "door", 20, 8, leaf="slide"),
        _opening("w5", "west", "window", 3.5, 3),
        _opening("d1", "middle", "door", 8, 2.667, hinge="b"),
        _opening("d2", "middle", "door", 16, 2.5, hinge="a"),
        _opening("d3", "bed", "door", 1, 2.5, hinge="a"),
        _opening("d4", "bath", "door", 1.5, 2.333, hinge="b"),
        _opening("c1", "kitchen", "cased", 6, 5),
    ],
    "rooms": [
        {"id": "r1", "name": "Living room", "use": "living_room", "at": [8, 7]},
        {"id": "r2", "name": "Kitchen", "use": "kitchen", "at": [9, 21]},
        {"id": "r3", "name": "Bedroom 1", "use": "bedroom", "at": [26, 6]},
        {"id": "r4", "name": "Study", "use": "office", "at": [22, 20]},
        {"id": "r5", "name": "Bath", "use": "bath", "at": [30, 20]},
    ],
}

if __name__ == "__main__":
    Path(sys.argv[1]).write_text(json.dumps(primitives(LEVEL)), encoding="utf-8")
