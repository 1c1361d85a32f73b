"""A DXF's model space unfolded into strokes, arcs and words: blocks exploded to a bound, curves cut into chords.

What no wall, door, window or name can be made of is counted with its reason. A block's layer "0" takes the layer that
the block stands on, as the format says.
"""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Iterable
from dataclasses import replace
from typing import Any

from ezdxf.document import Drawing
from ezdxf.entities.dxfgfx import DXFGraphic
from ezdxf.entities.insert import Insert
from ezdxf.lldxf.const import DXFError
from ezdxf.math import OCS, Vec3, bulge_to_arc

from app.intake.refused import DrawingRefused
from app.intake.report import Unread
from app.intake.strokes import Arc, Sheet, Spot, Stroke, Words

MOST_UNFOLDED = 200_000
DEEPEST = 12
_FARTHEST = 1e12
_LONGEST_TEXT = 200

_NOT_READ = {
    "DIMENSION": "dimensions are not read: lengths come from the strokes",
    "LEADER": "leaders are not read",
    "MULTILEADER": "leaders are not read",
    "POINT": "a point is no stroke",
    "XLINE": "endless construction lines are not read",
    "RAY": "endless construction lines are not read",
    "IMAGE": "pictures are not read; lay one under the plan to trace it",
    "WIPEOUT": "a mask is no stroke",
    "VIEWPORT": "windows of a printed sheet are not read",
    "ATTDEF": "a block's blank for text holds none",
    "3DSOLID": "solid bodies have no strokes; save the floor plan's lines",
    "BODY": "solid bodies have no strokes; save the floor plan's lines",
    "REGION": "solid bodies have no strokes; save the floor plan's lines",
    "MESH": "meshes are not read; save the floor plan's lines",
    "ACAD_TABLE": "tables are not read",
    "TOLERANCE": "tolerances are not read",
}
_OTHERWISE = "no wall, opening or name is made of this kind"


class Unfolding:
    """Takes entities, one after another, into a sheet and a list of what is not read."""

    def __init__(self, document: Drawing) -> None:
        self.sheet = Sheet()
        self.unread = Unread()
        self._document = document
        self._names = {layer.dxf.name.lower(): layer.dxf.name for layer in document.layers}
        self._left = MOST_UNFOLDED
        self.sheet.hidden = {layer.dxf.name for layer in document.layers if layer.is_off() or layer.is_frozen()}

    def whole(self) -> Unfolding:
        """Take the model space, and count what stands on the printed sheets; raises ``DrawingRefused``."""
        for entity in self._document.modelspace():
            self._take(entity, None, 0, 0)
        for layout in self._document.layouts:
            if not layout.is_any_paperspace:
                continue
            for entity in layout:
                if entity.dxftype() != "VIEWPORT":
                    self._left_out(entity, None, "stands on a printed sheet, not in the model")
        return self

    def _take(self, entity: DXFGraphic, on: str | None, depth: int, symbol: int) -> None:
        self._left -= 1
        if self._left < 0:
            raise _endless()
        kind = entity.dxftype()
        if kind == "INSERT":
            self._unfold(entity, on, depth, symbol)
            return
        way = _WAYS.get(kind)
        if way is None:
            self._left_out(entity, on, _NOT_READ.get(kind, _OTHERWISE))
        elif entity.dxf.get("invisible", 0):
            self._left_out(entity, on, "is set invisible")
        else:
            try:
                way(self, entity, self._layer(entity, on), symbol)
            except (DXFError, ValueError, TypeError, ZeroDivisionError, OverflowError, IndexError, AttributeError):
                self._left_out(entity, on, "its data are damaged")

    def _layer(self, entity: DXFGraphic, on: str | None) -> str:
        name = str(entity.dxf.get("layer", "0"))
        if name == "0" and on is not None:
            return on
        return str(self._names.setdefault(name.lower(), name))

    def _left_out(self, entity: DXFGraphic, on: str | None, reason: str) -> None:
        layer, kind = self._layer(entity, on), entity.dxftype()
        self.sheet.count(layer, "other")
        self.unread.add(layer, kind, reason)

    def _unfold(self, entity: DXFGraphic, on: str | None, depth: int, symbol: int) -> None:
        assert isinstance(entity, Insert)
        layer = self._layer(entity, on)
        block = entity.block()
        if block is None:
            self._left_out(entity, on, "its block is not in the file")
            return
        if block.block is not None and (block.block.is_xref or block.block.is_xref_overlay):
            self._left_out(entity, on, "its block is another file; bind it before saving")
            return
        if depth >= DEEPEST:
            self._left_out(entity, on, f"blocks nested over {DEEPEST} deep are not unfolded")
            return
        if entity.mcount * max(len(block), 1) > self._left:
            raise _endless()
        self.sheet.count(layer, "blocks")
        for attribute in entity.attribs:
            self._take(attribute, layer, depth, symbol)
        for single in entity.multi_insert() if entity.mcount > 1 else (entity,):
            own = symbol or len(self.sheet.symbols) + 1
            if not symbol:
                self.sheet.symbols[own] = entity.dxf.name
            self._explode(single, layer, depth, own)

    def _explode(self, insert: Insert, layer: str, depth: int, symbol: int) -> None:
        def skipped(entity: DXFGraphic, reason: str) -> None:
            self._left_out(entity, layer, f"cannot be taken out of its block ({reason[:60]})")

        try:
            for part in insert.virtual_entities(skipped_entity_callback=skipped):
                self._take(part, layer, depth + 1, symbol)
        except (DXFError, ValueError, TypeError, ZeroDivisionError, OverflowError, AttributeError):
            self._left_out(insert, layer, "its block is damaged")

    # --- what each kind gives ---

    def _stroke(self, layer: str, a: Spot, b: Spot, symbol: int, width: float = 0.0) -> None:
        if not all(math.isfinite(value) and abs(value) < _FARTHEST for value in (*a, *b)):
            raise ValueError("a coordinate that no drawing has")
        if math.dist(a, b) > 0:
            self.sheet.strokes.append(Stroke(layer, a, b, symbol, width))

    def _chain(self, layer: str, spots: Iterable[Vec3 | Spot], symbol: int, closed: bool = False) -> None:
        flat = [(float(spot[0]), float(spot[1])) for spot in spots]
        if closed and flat:
            flat.append(flat[0])
        for a, b in itertools.pairwise(flat):
            self._stroke(layer, a, b, symbol)

    def _line(self, entity: Any, layer: str, symbol: int) -> None:
        self._stroke(layer, _flat(entity.dxf.start), _flat(entity.dxf.end), symbol)
        self.sheet.count(layer, "lines")

    def _arc(self, entity: Any, layer: str, symbol: int) -> None:
        start, end = float(entity.dxf.start_angle), float(entity.dxf.end_angle)
        if _is_flipped(entity):
            start, end = 180 - end, 180 - start
        self._circular(layer, _flat(_in_world(entity, entity.dxf.center)), entity.dxf.radius, start, end, symbol)
        self.sheet.count(layer, "arcs")

    def _circle(self, entity: Any, layer: str, symbol: int) -> None:
        self._circular(layer, _flat(_in_world(entity, entity.dxf.center)), entity.dxf.radius, 0, 360, symbol)
        self.sheet.count(layer, "arcs")

    def _circular(self, layer: str, centre: Spot, radius: float, start: float, end: float, symbol: int) -> None:
        sweep = (end - start) % 360 or 360.0
        if not (math.isfinite(radius) and 0 < abs(radius) < _FARTHEST and math.isfinite(start + sweep)):
            raise ValueError("an arc without a radius")
        self.sheet.arcs.append(Arc(layer, centre, abs(radius), start % 360, sweep, symbol))

    def _ellipse(self, entity: Any, layer: str, symbol: int) -> None:
        major, ratio = Vec3(entity.dxf.major_axis), float(entity.dxf.ratio)
        first, last = float(entity.dxf.start_param), float(entity.dxf.end_param)
        if abs(ratio - 1) < 0.02:
            turn = math.degrees(major.angle)
            ends = sorted((first, last)) if last < first else (first, last)
            start, end = turn + math.degrees(ends[0]), turn + math.degrees(ends[1])
            if Vec3(entity.dxf.extrusion).z < 0:
                start, end = turn - math.degrees(ends[1]), turn - math.degrees(ends[0])
            self._circular(layer, _flat(entity.dxf.center), major.magnitude, start, end, symbol)
        else:
            span = (last - first) % math.tau or math.tau
            steps = max(4, math.ceil(span / math.radians(7.5)))
            self._chain(layer, entity.vertices([first + span * k / steps for k in range(steps + 1)]), symbol)
        self.sheet.count(layer, "arcs")

    def _spline(self, entity: Any, layer: str, symbol: int) -> None:
        tool = entity.construction_tool()
        self._chain(layer, tool.approximate(min(200, max(12, 6 * len(tool.control_points)))), symbol)
        self.sheet.count(layer, "lines")

    def _light_polyline(self, entity: Any, layer: str, symbol: int) -> None:
        rows = [tuple(map(float, row)) for row in entity.get_points("xyseb")]
        flip = -1.0 if _is_flipped(entity) else 1.0
        width = float(entity.dxf.get("const_width", 0.0) or 0.0)
        points = [(flip * x, y, flip * bulge, max(width, min(first, last))) for x, y, first, last, bulge in rows]
        self._bulged(layer, points, bool(entity.closed), symbol)
        self.sheet.count(layer, "areas" if entity.closed else "lines")

    def _polyline(self, entity: Any, layer: str, symbol: int) -> None:
        if entity.is_2d_polyline or entity.is_3d_polyline:
            flip = -1.0 if entity.is_2d_polyline and _is_flipped(entity) else 1.0
            usual = float(entity.dxf.get("default_start_width", 0.0) or 0.0)
            points = []
            for vertex in entity.vertices:
                x, y, _ = vertex.dxf.location
                width = float(vertex.dxf.get("start_width", usual) or 0.0)
                points.append((flip * x, float(y), flip * float(vertex.dxf.get("bulge", 0.0) or 0.0), width))
            self._bulged(layer, points, bool(entity.is_closed), symbol)
            self.sheet.count(layer, "areas" if entity.is_closed else "lines")
        else:
            for part in entity.virtual_entities():
                self._take(part, layer, 0, symbol)

    def _bulged(self, layer: str, points: list[tuple[float, float, float, float]], closed: bool, symbol: int) -> None:
        following = points[1:] + points[:1] if closed else points[1:]
        for (x, y, bulge, width), (u, v, _, _) in zip(points, following, strict=False):
            a, b = (x, y), (u, v)
            if abs(bulge) < 1e-6 or math.dist(a, b) == 0:
                self._stroke(layer, a, b, symbol, width)
                continue
            centre, start, end, radius = bulge_to_arc(a, b, bulge)
            before = len(self.sheet.arcs)
            self._circular(layer, _flat(centre), radius, math.degrees(start), math.degrees(end), symbol)
            if width > 0:  # an arc has no width of its own: its chords have
                chords = [chord for arc in self.sheet.arcs[before:] for chord in arc.chords()]
                del self.sheet.arcs[before:]
                self.sheet.strokes += [replace(chord, width=width) for chord in chords]

    def _multiline(self, entity: Any, layer: str, symbol: int) -> None:
        for part in entity.virtual_entities():
            part.dxf.layer = layer
            self._take(part, layer, 0, symbol)

    def _filled(self, entity: Any, layer: str, symbol: int) -> None:
        self._chain(layer, [_flat(corner) for corner in entity.wcs_vertices()], symbol, closed=True)
        self.sheet.count(layer, "areas")

    def _hatch(self, entity: Any, layer: str, symbol: int) -> None:
        flip = -1.0 if _is_flipped(entity) else 1.0
        for path in entity.paths:
            if hasattr(path, "vertices"):
                self._bulged(layer, [(flip * x, y, flip * bulge, 0.0) for x, y, bulge in path.vertices], True, symbol)
                continue
            for edge in path.edges:
                if edge.EDGE_TYPE == "LineEdge":
                    self._chain(layer, [(flip * x, y) for x, y in (edge.start, edge.end)], symbol)
        self.sheet.count(layer, "areas")

    def _text(self, entity: Any, layer: str, symbol: int) -> None:
        height = float(entity.dxf.get("height", 0.0) or 0.0)
        text = entity.plain_text()
        where = entity.dxf.get("align_point") if entity.dxf.get("halign", 0) or entity.dxf.get("valign", 0) else None
        spot = _flat(where if where is not None else entity.dxf.insert)
        turn = float(entity.dxf.get("rotation", 0.0) or 0.0)
        if where is None:  # it begins at its lower left; letters are about 0.6 as wide as high
            wide = 0.6 * height * float(entity.dxf.get("width", 1.0) or 1.0)
            spot = _moved(spot, wide * len(text) / 2, 0.5 * height, turn)
        at = _flat(_in_world(entity, (*spot, 0.0)))
        self._words(layer, at, text, height, -turn if _is_flipped(entity) else turn)

    def _long_text(self, entity: Any, layer: str, symbol: int) -> None:
        text = entity.plain_text()
        height = float(entity.dxf.get("char_height", 0.0) or 0.0)
        turn = float(entity.get_rotation())
        corner = int(entity.dxf.get("attachment_point", 1)) - 1
        lines = text.split("\n")
        wide, high = 0.6 * height * max(map(len, lines), default=0), 1.6 * height * len(lines)
        along, up = wide * (0.5, 0.0, -0.5)[corner % 3], high * (-0.5, 0.0, 0.5)[corner // 3 % 3]
        self._words(layer, _moved(_flat(entity.dxf.insert), along, up, turn), text, height, turn)

    def _words(self, layer: str, at: Spot, text: str, height: float, turn: float) -> None:
        plain = " ".join("".join(letter if letter.isprintable() else " " for letter in text).split())
        if plain:
            self.sheet.words.append(Words(layer, at, plain[:_LONGEST_TEXT], height, turn))
        self.sheet.count(layer, "texts")


def _endless() -> DrawingRefused:
    words = f"the blocks of the DXF unfold to over {MOST_UNFOLDED:,} entities; save only the floor plan's layers"
    return DrawingRefused(words, too_large=True)


def _flat(point: Any) -> Spot:
    return float(point[0]), float(point[1])


def _moved(spot: Spot, along: float, up: float, turn: float) -> Spot:
    """A point moved along a text's own direction and up from it."""
    cosine, sine = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    return spot[0] + along * cosine - up * sine, spot[1] + along * sine + up * cosine


def _is_flipped(entity: Any) -> bool:
    return bool(Vec3(entity.dxf.get("extrusion", (0, 0, 1))).z < 0)


def _in_world(entity: Any, point: Any) -> Vec3:
    return OCS(entity.dxf.get("extrusion", (0, 0, 1))).to_wcs(Vec3(point))


_WAYS: dict[str, Callable[[Unfolding, Any, str, int], None]] = {
    "LINE": Unfolding._line,
    "ARC": Unfolding._arc,
    "CIRCLE": Unfolding._circle,
    "ELLIPSE": Unfolding._ellipse,
    "SPLINE": Unfolding._spline,
    "LWPOLYLINE": Unfolding._light_polyline,
    "POLYLINE": Unfolding._polyline,
    "MLINE": Unfolding._multiline,
    "SOLID": Unfolding._filled,
    "TRACE": Unfolding._filled,
    "3DFACE": Unfolding._filled,
    "HATCH": Unfolding._hatch,
    "MPOLYGON": Unfolding._hatch,
    "TEXT": Unfolding._text,
    "ATTRIB": Unfolding._text,
    "MTEXT": Unfolding._long_text,
}
