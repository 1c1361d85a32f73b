"""Plans drawn to DXF with ezdxf as offices draw them: walls as two faces with jambs, swings, glass lines, room names.

Nothing here uses the reading side, so that what is read back owes it nothing.
"""

from __future__ import annotations

import io
import itertools
import math
from typing import Any

import ezdxf
import shapely
from ezdxf.enums import TextEntityAlignment
from shapely.geometry.base import BaseGeometry

Value = dict[str, Any]
LAYERS = ("A-WALL", "A-DOOR", "A-GLAZ", "A-AREA-IDEN")
INSUNITS = {"in": 1, "ft": 2, "mm": 4, "cm": 5, "m": 6, "none": 0}
PER_FOOT = {"in": 12.0, "ft": 1.0, "mm": 304.8, "cm": 30.48, "m": 0.3048, "none": 12.0}


def strip(wall: Value, start: float, end: float, more: float = 0.0) -> shapely.Polygon:
    """The body of a wall from ``start`` to ``end`` feet along it, ``more`` wider on each side."""
    length = math.dist(wall["a"], wall["b"])
    ux, uy = (wall["b"][0] - wall["a"][0]) / length, (wall["b"][1] - wall["a"][1]) / length
    half = wall.get("thickness", 0.375) / 2 + more
    return shapely.Polygon(
        [
            (wall["a"][0] + u * ux - v * uy, wall["a"][1] + u * uy + v * ux)
            for u, v in ((start, -half), (end, -half), (end, half), (start, half))
        ]
    )


def solid_walls(level: Value) -> BaseGeometry:
    """What is cut by a plane through all openings: walls, squared at their corners, less the openings."""
    bodies = []
    for wall in level["walls"]:
        length, half = math.dist(wall["a"], wall["b"]), wall.get("thickness", 0.375) / 2
        bodies.append(
            strip(wall, -half if _meets(level, wall, "a") else 0, length + (half if _meets(level, wall, "b") else 0))
        )
    by_id = {wall["id"]: wall for wall in level["walls"]}
    holes = [strip(by_id[one["wall"]], one["offset"], one["offset"] + one["width"], 0.01) for one in level["openings"]]
    return shapely.difference(shapely.union_all(bodies, grid_size=1e-7), shapely.union_all(holes), grid_size=1e-7)


def _meets(level: Value, wall: Value, end: str) -> bool:
    """Whether an end is a corner with another wall's end, where the outline must be squared."""
    return any(
        other is not wall and math.dist(wall[end], other[at]) < 0.01 for other in level["walls"] for at in ("a", "b")
    )


def primitives(level: Value, layers: tuple[str, str, str, str] = LAYERS) -> list[Value]:
    """The drawing of a level as plain shapes in feet: rings, lines, arcs (degrees, counter-clockwise) and texts."""
    walls, doors, glass, names = layers
    shapes: list[Value] = []
    for part in shapely.get_parts(solid_walls(level)):
        rings = (part.exterior, *part.interiors)
        shapes += [
            {"kind": "ring", "layer": walls, "spots": [list(spot) for spot in ring.coords[:-1]]} for ring in rings
        ]
    by_id = {wall["id"]: wall for wall in level["walls"]}
    for opening in level["openings"]:
        shapes += _opening(by_id[opening["wall"]], opening, doors, glass)
    for room in level.get("rooms", []):
        shapes.append({"kind": "text", "layer": names, "at": room["at"], "text": room["name"].upper(), "height": 0.5})
    return shapes


def _opening(wall: Value, opening: Value, doors: str, glass: str) -> list[Value]:
    length = math.dist(wall["a"], wall["b"])
    ux, uy = (wall["b"][0] - wall["a"][0]) / length, (wall["b"][1] - wall["a"][1]) / length
    half = wall.get("thickness", 0.375) / 2
    start, width, panes = opening["offset"], opening["width"], opening.get("panes", 1)

    def at(u: float, v: float) -> list[float]:
        return [wall["a"][0] + u * ux - v * uy, wall["a"][1] + u * uy + v * ux]

    def line(layer: str, *ends: tuple[float, float]) -> Value:
        return {"kind": "line", "layer": layer, "spots": [at(*end) for end in ends]}

    if opening["kind"] == "window":
        panels = [line(glass, (start, v), (start + width, v)) for v in (-half, -0.06, 0.06, half)]
        places = [start + width * k / panes for k in range(1, panes)]
        return panels + [line(glass, (u, -0.06), (u, 0.06)) for u in places]
    if opening["kind"] == "cased":
        return []
    if opening.get("leaf") == "overhead":
        return [line(doors, (start, half - 0.1), (start + width, half - 0.1))]
    if opening.get("leaf") == "slide":
        return [
            line(doors, (start, -0.05), (start + 0.55 * width, -0.05)),
            line(doors, (start + 0.45 * width, 0.05), (start + width, 0.05)),
        ]
    first = opening.get("hinge") != "b"
    hinge, along = (start, 1.0) if first else (start + width, -1.0)
    closed = math.degrees(math.atan2(uy * along, ux * along))
    low, high = (closed, closed + 90) if first else (closed - 90, closed)
    swing = {"kind": "arc", "layer": doors, "centre": at(hinge, half), "radius": width, "start": low, "end": high}
    return [line(doors, (hinge, half), (hinge, half + width)), swing]


def drawn(
    level: Value,
    unit: str = "in",
    version: str = "R2010",
    *,
    layers: tuple[str, str, str, str] = LAYERS,
    place: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> bytes:
    """The level as the bytes of a DXF; ``place`` turns it by degrees, then shifts it by feet."""
    return drawn_shapes(primitives(level, layers), unit, version, layers=layers, place=place)


def drawn_shapes(
    shapes: list[Value],
    unit: str = "in",
    version: str = "R2010",
    *,
    layers: tuple[str, ...] = LAYERS,
    place: tuple[float, float, float] = (0.0, 0.0, 0.0),
) -> bytes:
    """Plain shapes in feet as the bytes of a DXF."""
    document = ezdxf.new(version)
    document.header["$INSUNITS"] = INSUNITS[unit]
    for name in layers:
        if name not in document.layers:
            document.layers.add(name)
    model = document.modelspace()
    scale, (turn, east, north) = PER_FOOT[unit], place
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def put(spot: Any) -> tuple[float, float]:
        x, y = spot
        return (cosine * x - sine * y + east) * scale, (sine * x + cosine * y + north) * scale

    for shape in shapes:
        on = {"layer": shape["layer"]}
        if shape["kind"] == "ring" and version != "R12":
            model.add_lwpolyline([put(spot) for spot in shape["spots"]], close=True, dxfattribs=on)
        elif shape["kind"] == "ring":
            spots = [put(spot) for spot in (*shape["spots"], shape["spots"][0])]
            for a, b in itertools.pairwise(spots):
                model.add_line(a, b, dxfattribs=on)
        elif shape["kind"] == "line":
            model.add_line(*map(put, shape["spots"]), dxfattribs=on)
        elif shape["kind"] == "arc":
            angles = shape["start"] + turn, shape["end"] + turn
            model.add_arc(put(shape["centre"]), shape["radius"] * scale, *angles, dxfattribs=on)
        else:
            on = on | {"rotation": turn}
            text = model.add_text(shape["text"], height=shape["height"] * scale, dxfattribs=on)
            text.set_placement(put(shape["at"]), align=TextEntityAlignment.MIDDLE_CENTER)
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.encoding, "replace")
