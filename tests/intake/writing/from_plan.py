"""Plans drawn to DXF with ezdxf as offices draw them: walls as two faces with jambs, swings, glass lines, room names.

Nothing here uses the reading side, so that what is read back owes it nothing.
"""

from __future__ import annotations

import io
import math
from typing import Any

import ezdxf
import shapely
from shapely.geometry.base import BaseGeometry

Value = dict[str, Any]
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


def drawn(
    level: Value,
    unit: str = "in",
    version: str = "R2010",
    *,
    layers: tuple[str, str, str, str] = ("A-WALL", "A-DOOR", "A-GLAZ", "A-AREA-IDEN"),
    place: tuple[float, float, float] = (0.0, 0.0, 0.0),
    polylines: bool = True,
) -> bytes:
    """The level as the bytes of a DXF; ``place`` turns it by degrees, then shifts it by feet."""
    document = ezdxf.new(version)
    document.header["$INSUNITS"] = INSUNITS[unit]
    model = document.modelspace()
    walls, doors, glass, names = layers
    for name in layers:
        document.layers.add(name) if name not in document.layers else None
    scale, (turn, east, north) = PER_FOOT[unit], place
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))

    def put(spot: Any) -> tuple[float, float]:
        x, y = spot
        return (cosine * x - sine * y + east) * scale, (sine * x + cosine * y + north) * scale

    for part in shapely.get_parts(solid_walls(level)):
        for ring in (part.exterior, *part.interiors):
            spots = [put(spot) for spot in ring.coords]
            if polylines and version != "R12":
                model.add_lwpolyline(spots[:-1], close=True, dxfattribs={"layer": walls})
            else:
                for a, b in zip(spots, spots[1:], strict=False):
                    model.add_line(a, b, dxfattribs={"layer": walls})
    by_id = {wall["id"]: wall for wall in level["walls"]}
    for opening in level["openings"]:
        _opening(model, by_id[opening["wall"]], opening, put, scale, turn, doors, glass)
    for room in level.get("rooms", []):
        model.add_text(room["name"].upper(), height=0.5 * scale, dxfattribs={"layer": names}).set_placement(
            put(room["at"]), align=ezdxf.enums.TextEntityAlignment.MIDDLE_CENTER
        )
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.encoding, "replace")


def _opening(
    model: Any, wall: Value, opening: Value, put: Any, scale: float, turn: float, doors: str, glass: str
) -> None:
    length = math.dist(wall["a"], wall["b"])
    ux, uy = (wall["b"][0] - wall["a"][0]) / length, (wall["b"][1] - wall["a"][1]) / length
    half = wall.get("thickness", 0.375) / 2
    start, width = opening["offset"], opening["width"]

    def at(u: float, v: float) -> tuple[float, float]:
        return put((wall["a"][0] + u * ux - v * uy, wall["a"][1] + u * uy + v * ux))

    if opening["kind"] == "window":
        for v in (-half, -0.06, 0.06, half):
            model.add_line(at(start, v), at(start + width, v), dxfattribs={"layer": glass})
        for k in range(1, opening.get("panes", 1)):
            u = start + width * k / opening.get("panes", 1)
            model.add_line(at(u, -0.06), at(u, 0.06), dxfattribs={"layer": glass})
    elif opening["kind"] == "door" and opening.get("leaf") in ("slide", "overhead"):
        if opening["leaf"] == "overhead":
            model.add_line(at(start, half - 0.1), at(start + width, half - 0.1), dxfattribs={"layer": doors})
        else:
            model.add_line(at(start, -0.05), at(start + 0.55 * width, -0.05), dxfattribs={"layer": doors})
            model.add_line(at(start + 0.45 * width, 0.05), at(start + width, 0.05), dxfattribs={"layer": doors})
    elif opening["kind"] == "door":
        first = opening.get("hinge") != "b"
        hinge, along = (start, 1.0) if first else (start + width, -1.0)
        model.add_line(at(hinge, half), at(hinge, half + width), dxfattribs={"layer": doors})
        closed = math.degrees(math.atan2(uy * along, ux * along)) + turn
        opened = closed + (90 if first else -90)
        low, high = (closed, opened) if first else (opened, closed)
        model.add_arc(at(hinge, half), width * scale, low, high, dxfattribs={"layer": doors})
