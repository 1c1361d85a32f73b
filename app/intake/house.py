"""A plan made of a traced floor: ids, openings on their walls, rooms with the names that stand in them.

What only the whole floor tells is settled here: which openings lead outdoors, and so which gaps must be doors.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
import shapely

from app.geometry.rooms import Faces, compile_faces
from app.geometry.scene import compile_level
from app.intake.choices import Choices
from app.intake.refused import DrawingRefused
from app.intake.strokes import Spot, Words
from app.intake.tracing.floor import Floor
from app.intake.tracing.joints import Piece
from app.intake.tracing.names import name_among, use_told
from app.intake.tracing.openings import OVERHEAD
from app.intake.tracing.runs import Opened
from app.intake.wording import told
from app.plan.faults import PlanRefused
from app.plan.model import FARTHEST, Plan, Wall
from app.plan.reading import plan_from

Value = dict[str, Any]

_DECIMALS = 4  # of a foot: a hundredth of a millimetre is more than any drawing means
_SMALLEST_ROOM = 3.0  # sq ft: a chase is no room
_LEAST_LEFT = 0.02


def level_from(
    floor: Floor, words: Sequence[Words], choices: Choices, number: int = 1, corner: Spot | None = None
) -> tuple[Value, list[str]]:
    """A level as a plan file says it, and notes on what to look at; lengths of the floor are feet.

    ``corner`` is the point that becomes the plan's origin, the same for all levels; None: this level's own.
    """
    notes: list[str] = []
    prefix = "" if number == 1 else f"L{number}-"
    west, south = lowest_corner(floor) if corner is None else corner

    def put(spot: Spot) -> list[float]:
        return [round(spot[0] - west, _DECIMALS), round(spot[1] - south, _DECIMALS)]

    walls: list[Value] = []
    openings: list[Value] = []
    for piece in floor.pieces:
        a, b = map(put, piece.ends)
        if max(map(abs, (*a, *b))) > FARTHEST:
            raise DrawingRefused("the drawing would be over 10,000 ft wide; choose another unit or fewer layers")
        if math.dist(a, b) < 0.05:
            continue
        wall_id = f"{prefix}w{len(walls) + 1}"
        walls.append({"id": wall_id, "a": a, "b": b, "thickness": round(piece.run.thickness, _DECIMALS)})
        if piece.run.height is not None:
            walls[-1]["height"] = round(piece.run.height, _DECIMALS)
        openings += [one | {"wall": wall_id} for one in _openings(piece, math.dist(a, b), choices)]
    for link in floor.links:
        a, b = put(link.a), put(link.b)
        if math.dist(a, b) >= 0.011:
            thickness = round(link.thickness, _DECIMALS)
            walls.append({"id": f"{prefix}w{len(walls) + 1}", "a": a, "b": b, "thickness": thickness})
    for index, opening in enumerate(openings):
        opening["id"] = f"{prefix}o{index + 1}"
    placed = [Words(one.layer, (one.at[0] - west, one.at[1] - south), one.text, one.height) for one in words]
    level: Value = {"id": f"L{number}", "name": choices.level_name, "ceiling": round(choices.ceiling, _DECIMALS)}
    level |= {"walls": walls, "openings": openings, "rooms": _rooms(walls, placed, prefix, notes)}
    return level, notes


def plan_of(levels: list[Value], choices: Choices, metric: bool, notes: list[str]) -> Plan:
    """The plan of some levels, with its outside openings settled; raises ``DrawingRefused`` where none can be made."""
    if not any(level["walls"] for level in levels):
        raise DrawingRefused("no walls were found: choose the layer they are drawn on, and check the unit")
    value: Value = {"format": "studbay-plan/1", "name": choices.name[:120] or "Read from a drawing", "levels": levels}
    value["units"] = "metric" if metric else "imperial"
    try:
        _settle_outside(value, notes)
        return plan_from(value)
    except PlanRefused as refused:
        raise DrawingRefused(f"what was read makes no plan ({refused.faults[0]}); choose other layers") from None


def lowest_corner(floor: Floor) -> Spot:
    """The south-west corner of the box about a floor's centrelines."""
    ends = [end for piece in floor.pieces for end in piece.ends]
    if not ends:
        return 0.0, 0.0
    return min(x for x, _ in ends), min(y for _, y in ends)


def _openings(piece: Piece, length: float, choices: Choices) -> list[Value]:
    """The openings of a wall as a plan file says them, kept within it."""
    made: list[Value] = []
    for opened in piece.openings:
        usual_sill = choices.sill if opened.kind == "window" else 0.0
        sill = round(max(0.0, usual_sill if opened.sill is None else opened.sill), _DECIMALS)
        head = round(choices.head if opened.head is None else opened.head, _DECIMALS)
        beside = [other for other in made if min(head, other["head"]) > max(sill, other["sill"])]
        start = max(opened.start - piece.start, 0.0, *(other["offset"] + other["width"] for other in beside), 0.0)
        end = min(opened.end - piece.start, length)
        if end - start < _LEAST_LEFT:
            continue
        one: Value = {"kind": opened.kind, "offset": _up(start), "width": math.floor((end - start) * 1e4 - 1) / 1e4}
        one |= {"sill": sill, "head": head}
        if opened.panes > 1:
            one["panes"] = opened.panes
        if opened.kind == "door":
            one["leaf"] = opened.leaf
            one |= {"hinge": _hinge(opened)} | ({"glazed": True} if opened.glazed else {})
        made.append(one)
    return made


def _up(value: float) -> float:
    return math.ceil(value * 1e4 - 1e-6) / 1e4


def _hinge(opened: Opened) -> str | None:
    if opened.hinge is None:
        return None
    return "a" if abs(opened.hinge - opened.start) <= abs(opened.hinge - opened.end) else "b"


def _rooms(walls: list[Value], words: Sequence[Words], prefix: str, notes: list[str]) -> list[Value]:
    faces = compile_faces([Wall.model_validate(wall) for wall in walls])
    held: dict[int, list[Words]] = {}
    outside = 0
    if words:
        for one, face in zip(words, faces.holding(np.array([one.at for one in words])).tolist(), strict=True):
            held.setdefault(face, []).append(one)
        outside = sum(name_among([one]) is not None for one in held.pop(-1, []))
    rooms: list[Value] = []
    nameless = 0
    for index in _in_reading_order(faces):
        name = name_among(held.get(index, []))
        if name is None and faces.outline[index].area < _SMALLEST_ROOM:
            continue
        nameless += name is None
        rooms.append(_room(faces, index, name, f"{prefix}r{len(rooms) + 1}", held.get(index, []), len(rooms) + 1))
    if nameless:
        notes.append(f"{told(nameless, 'room has', 'rooms have')} no name in the drawing: called Room and a number.")
    if outside:
        notes.append(f"{told(outside, 'text', 'texts')} of the name layers in no room: no room is called so.")
    return rooms


def _in_reading_order(faces: Faces) -> list[int]:
    """Rooms from the top row down, each from the left."""
    middles = shapely.get_coordinates(shapely.centroid(faces.outline)) if len(faces) else np.empty((0, 2))
    return sorted(range(len(faces)), key=lambda index: (-round(middles[index][1] / 4), middles[index][0]))


def _room(faces: Faces, index: int, name: str | None, room_id: str, words: Sequence[Words], number: int) -> Value:
    floor = faces.floors[index]
    inside = shapely.point_on_surface(floor if not floor.is_empty else faces.outline[index])
    at = [round(inside.x, 3), round(inside.y, 3)]
    for one in words:
        if name is not None and one.text.lower() in name.lower() and floor.contains(shapely.Point(one.at)):
            at = [round(one.at[0], 3), round(one.at[1], 3)]
            break
    return {"id": room_id, "name": name or f"Room {number}", "use": use_told(name or ""), "at": at}


def _settle_outside(value: Value, notes: list[str]) -> None:
    """A bare gap to the weather is a door; a wide one overhead; a sliding one to the garden is of glass."""
    gaps = glazed = untold = 0
    for level_value, level in zip(value["levels"], plan_from(value).levels, strict=True):
        scene = compile_level(level)
        outside = {opening.id for opening in level.openings if scene.is_exterior(opening)}
        for one in level_value["openings"]:
            wide = one["width"] >= OVERHEAD
            if one["kind"] == "cased" and one["id"] in outside:
                one |= {"kind": "door", "leaf": "overhead" if wide else "swing"}
                gaps += 1
            elif wide and one["kind"] == "door" and one.get("leaf") == "swing" and not one.get("hinge"):
                beside = scene.room_of_opening(one["id"])
                garage = any(room.id == beside and room.use == "garage" for room in level.rooms)
                one["leaf"] = "overhead" if garage and one["id"] in outside else "slide"
                untold += 1
            if one.get("leaf") == "slide" and one["id"] in outside:
                one |= {"glazed": True, "panes": 2}
                glazed += 1
            elif one.get("leaf") == "overhead" and one["id"] not in outside:
                one["leaf"] = "slide"
    if gaps:
        notes.append(
            f"{told(gaps, 'bare gap', 'bare gaps')} in outside walls read as doors (overhead where wide): look at each."
        )
    if untold:
        notes.append(f"{told(untold, 'wide door', 'wide doors')} of no told leaf: overhead in a garage, else sliding.")
    if glazed:
        notes.append(
            f"{told(glazed, 'sliding door', 'sliding doors')} to the outside read as glass in two lites: look at each."
        )
