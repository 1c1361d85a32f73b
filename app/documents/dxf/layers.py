"""The layers of the drawing: discipline, major group, minor group, status, after the published national CAD habit.

The form of the names (A architectural, E electrical, F fire, TY security; N for new work) is that of the NCS/AIA
summary; the minor groups for devices are our own. Colours are the drawings' own, and none says anything alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from app.drawing.palette import COVERED, INK, MISSED, QUIET, REACH, SEEN_FLOOR

_HAIR, _FINE, _MEDIUM, _HEAVY = 13, 18, 35, 50  # hundredths of a mm, of the pen series


@dataclass(frozen=True)
class Layer:
    """``words`` say what lies on the layer; ``weight`` is in hundredths of a mm; one that is not ``on`` is there to be
    switched on, and is not plotted.
    """

    name: str
    words: str
    colour: str = INK
    weight: int = _FINE
    line: str = "CONTINUOUS"
    on: bool = True


WALL = Layer("A-WALL", "Walls as cut in plan, closed outlines", weight=_HEAVY)
WALL_FILL = Layer("A-WALL-PATT", "Fill of the walls", "#8C8C8C", _HAIR)
WALL_LOW = Layer("A-WALL-PRHT", "Half walls, closed outlines", weight=_FINE)
WALL_CENTRE = Layer("A-WALL-CNTR", "Centrelines of walls, with id, thickness and height", QUIET, _HAIR, "CENTER", False)
CASED = Layer("A-OPNG", "Cased openings: the header, dashed", weight=_FINE)
DOOR = Layer("A-DOOR", "Doors")
OVERHEAD = Layer("A-DOOR-OVHD", "Overhead doors as they stand open", weight=_HAIR, line="DASHED")
GLAZING = Layer("A-GLAZ", "Windows")
ROOM = Layer("A-AREA", "Floor of rooms, closed outlines", QUIET, _HAIR, on=False)
ROOM_NAME = Layer("A-AREA-IDEN", "Names and areas of rooms")
FURNITURE = Layer("A-FURN", "Beds", QUIET, _HAIR)
OBSTRUCTION = Layer("A-OBST", "What stands in the way of sight, closed outlines", QUIET, _FINE)
FIXTURE = Layer("E-FIXT", "Light switches, outlets, chimes and registers", QUIET, _HAIR)
SMOKE = Layer("F-DEVC-SMOK", "Smoke alarms, located by others", weight=_MEDIUM)
GLASS = {
    "covered": Layer("TY-GLAS-COVR", "Panes covered by one detector", COVERED, _HEAVY),
    "partial": Layer("TY-GLAS-PART", "Panes covered in part", MISSED, _HEAVY, "DASHED2"),
    "uncovered": Layer("TY-GLAS-MISS", "Panes not covered", MISSED, _HEAVY, "DOT2"),
}
GLASS_GAP = Layer("TY-GLAS-GAPS", "Stretches of glass that the best detector misses", MISSED, _MEDIUM, "DASHED2")
HEARING = Layer("TY-RECH-GLBK", "Reach of glass-break detectors in plan", REACH, _FINE, "DASHED")
SEEN = Layer("TY-RECH-MOTN", "Floor that motion detectors see, closed outlines", SEEN_FLOOR, _FINE, "DASHDOT")
RISER = Layer("TY-CABL-RISR", "Risers", REACH, _FINE)
WINDOW = Layer("TY-NOTE-VPRT", "Frames of the viewports, which are not plotted", QUIET, _HAIR)
TITLE = Layer("TY-NOTE", "Title, units, caution and confidentiality")

_DEVICES: Mapping[str, str] = {
    "can": "CANS",
    "keypad": "KEYP",
    "door_contact": "DRCT",
    "window_contact": "WDCT",
    "overhead_door_contact": "OHCT",
    "motion": "MOTN",
    "glass_break": "GLBK",
    "siren": "SIRN",
    "flood": "FLOD",
    "other": "OTHR",
}
_FIXED = (
    WALL_FILL,
    WALL,
    WALL_LOW,
    WALL_CENTRE,
    CASED,
    DOOR,
    OVERHEAD,
    GLAZING,
    ROOM,
    ROOM_NAME,
    FURNITURE,
    OBSTRUCTION,
    FIXTURE,
    SMOKE,
    *GLASS.values(),
    GLASS_GAP,
    HEARING,
    SEEN,
    RISER,
    WINDOW,
    TITLE,
)


def device_layer(kind: str, name: str) -> Layer:
    """The layer of a kind of device: new work, but for smoke alarms, which others locate."""
    if kind == "smoke":
        return SMOKE
    return Layer(f"TY-DEVC-{_DEVICES[kind]}-N", name, weight=_MEDIUM)


def cable_layer(cable: str) -> Layer:
    """The layer of a cable's home runs; what a layer's name cannot hold becomes a hyphen."""
    safe = "".join(letter if letter.isalnum() or letter in "_$" else "-" for letter in cable.strip()) or "NONE"
    return Layer(f"TY-CABL-{safe}-N".upper(), f"Home runs of {' '.join(cable.split())}", REACH, _FINE)


def layers_of(kinds: Mapping[str, str], cables: Iterable[str]) -> list[Layer]:
    """Every layer of a drawing, each name once; ``kinds`` are the names of the kinds of device."""
    found = [*_FIXED, *(device_layer(kind, name) for kind, name in kinds.items()), *map(cable_layer, cables)]
    return list({layer.name: layer for layer in found}.values())
