"""The invented house at 9 Plum Lane: two storeys of differing outline on one sheet, beside an elevation and a wall key.

``python -m tests.intake.writing.two_storeys beside|stacked SHAPES.json`` writes the shapes for the other libraries.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any

from tests.intake.writing.from_plan import LAYERS, primitives
from tests.intake.writing.plum_lane import LEVEL as GROUND
from tests.intake.writing.plum_lane import OUTER, _opening, _wall

UPPER: dict[str, Any] = {
    "id": "L2",
    "name": "Second floor",
    "walls": [
        _wall("south", (0, 0), (18, 0), OUTER),
        _wall("east", (18, 0), (18, 26), OUTER),
        _wall("north", (18, 26), (0, 26), OUTER),
        _wall("west", (0, 26), (0, 0), OUTER),
        _wall("across", (0, 12), (18, 12)),
    ],
    "openings": [
        _opening("w1", "south", "window", 4, 5, panes=2),
        _opening("w2", "east", "window", 18, 4),
        _opening("w3", "west", "window", 5, 3),
        _opening("d1", "across", "door", 12, 2.5, hinge="a"),
    ],
    "rooms": [
        {"id": "r1", "name": "Guest room", "use": "guest_bedroom", "at": [9, 6]},
        {"id": "r2", "name": "Loft", "use": "other", "at": [9, 19]},
    ],
}
PLACES = {"beside": (62.0, 0.0), "stacked": (3.5, 44.0)}
"""Where the upper storey's origin is drawn, from the lower's."""


def sheet(way: str, *, titled: bool = True, more: bool = True) -> list[dict[str, Any]]:
    """The shapes of the whole sheet in feet; ``more`` adds an elevation and a key of walls."""
    east, north = PLACES[way]
    shapes = [*primitives(GROUND), *_stair()]
    shapes += [_moved(one, east, north) for one in (*primitives(UPPER), *_stair())]
    if titled:
        shapes.append(_title((17, -5), "FIRST FLOOR PLAN"))
        shapes.append(_title((east + 9, north - 5), 'SECOND FLOOR PLAN   1/4" = 1\'-0"'))
    if more:
        shapes += [_moved(one, 0, -48) for one in (*_elevation(), *_key())]
    return shapes


def _stair() -> list[dict[str, Any]]:
    return [_line("A-STAIR", (1 + k * 0.9, 11.5), (1 + k * 0.9, 8)) for k in range(9)]


def _elevation() -> list[dict[str, Any]]:
    """A front seen from the street, on the walls' layer as careless offices draw it."""
    lines = [((0, 0), (34, 0)), ((34, 0), (34, 18)), ((34, 18), (17, 26)), ((17, 26), (0, 18)), ((0, 18), (0, 0))]
    lines += [((0, 0.5 * k), (34, 0.5 * k)) for k in range(1, 30)]
    return [*(_line(LAYERS[0], *ends) for ends in lines), _title((17, -5), "SOUTH ELEVATION")]


def _key() -> list[dict[str, Any]]:
    rows = [_line(LAYERS[0], (60, 3 * k + v), (66, 3 * k + v)) for k in range(3) for v in (0.0, 0.4)]
    return [*rows, _title((63, 9.5), "WALL TYPES")]


def _line(layer: str, *ends: tuple[float, float]) -> dict[str, Any]:
    return {"kind": "line", "layer": layer, "spots": [list(end) for end in ends]}


def _title(at: tuple[float, float], text: str) -> dict[str, Any]:
    return {"kind": "text", "layer": LAYERS[3], "at": list(at), "text": text, "height": 1.0}


def _moved(shape: dict[str, Any], east: float, north: float) -> dict[str, Any]:
    def put(spot: list[float]) -> list[float]:
        return [spot[0] + east, spot[1] + north]

    moved = dict(shape)
    for key in ("at", "centre"):
        if key in shape:
            moved[key] = put(shape[key])
    if "spots" in shape:
        moved["spots"] = [put(spot) for spot in shape["spots"]]
    return moved


if __name__ == "__main__":
    shapes = sheet(sys.argv[1], titled="untitled" not in sys.argv, more="untitled" not in sys.argv)
    Path(sys.argv[2]).write_text(json.dumps(shapes), encoding="utf-8")
