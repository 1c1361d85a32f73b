"""Where a level lies in the drawing: feet of the plan become inches or millimetres of model space, at real size."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.layout import Modelspace

from app.documents.dxf.layers import Layer

APPLICATION = "STUDBAY"  # whose extended data the ids of things are
PER_FOOT = {"imperial": 12.0, "metric": 304.8}
STYLE = "STUDBAY"
_LONGEST_DATA = 250  # bytes: the format holds 255

Point = Sequence[float]


@dataclass(frozen=True)
class Ground:
    """Draws in plan feet into ``space``; ``scale`` is drawing units a foot, ``shift`` feet that the level is moved."""

    space: Modelspace
    scale: float
    shift: tuple[float, float] = (0.0, 0.0)

    def at(self, point: Point) -> tuple[float, float]:
        """A point of the plan in model space."""
        return ((point[0] + self.shift[0]) * self.scale, (point[1] + self.shift[1]) * self.scale)

    def outline(self, layer: Layer, ring: Iterable[Point], **data: object) -> Any:
        """A closed polyline."""
        return _marked(self.space.add_lwpolyline(self._all(ring), close=True, dxfattribs={"layer": layer.name}), data)

    def line(self, layer: Layer, points: Iterable[Point], width: float = 0.0, **data: object) -> Any:
        """An open polyline, ``width`` feet wide."""
        attributes = {"layer": layer.name, "const_width": width * self.scale}
        return _marked(self.space.add_lwpolyline(self._all(points), dxfattribs=attributes), data)

    def straight(self, layer: Layer, start: Point, end: Point, **data: object) -> Any:
        """One line."""
        return _marked(self.space.add_line(self.at(start), self.at(end), dxfattribs={"layer": layer.name}), data)

    def circle(self, layer: Layer, centre: Point, radius: float, **data: object) -> Any:
        """A circle."""
        attributes = {"layer": layer.name}
        return _marked(self.space.add_circle(self.at(centre), radius * self.scale, dxfattribs=attributes), data)

    def text(
        self, layer: Layer, words: str, at: Point, height: float, *, middle: bool = False, turn: float = 0.0
    ) -> Any:
        """One line of text with its baseline, or its middle, at a point; ``height`` in feet, ``turn`` in degrees."""
        attributes = {"layer": layer.name, "style": STYLE, "height": height * self.scale, "rotation": turn}
        text = self.space.add_text(plain(words), dxfattribs=attributes)
        place = TextEntityAlignment.MIDDLE_CENTER if middle else TextEntityAlignment.LEFT
        return text.set_placement(self.at(at), align=place)

    def block(
        self, layer: Layer, name: str, at: Point, *, turn: float = 0.0, scale: tuple[float, float] = (1.0, 1.0)
    ) -> Any:
        """A block's insertion; ``turn`` in degrees, ``scale`` of the block's own x and y."""
        attributes = {"layer": layer.name, "rotation": turn, "xscale": scale[0], "yscale": scale[1], "zscale": 1.0}
        return self.space.add_blockref(name, self.at(at), dxfattribs=attributes)

    def attribute(self, insert: Any, tag: str, words: str, at: Point, height: float, *, seen: bool = False) -> None:
        """An attribute of an insertion, upright whatever the block's turn."""
        attribute = insert.add_attrib(
            tag, plain(words), self.at(at), dxfattribs={"height": height * self.scale, "style": STYLE}
        )
        attribute.dxf.layer = insert.dxf.layer
        attribute.is_invisible = not seen

    def _all(self, points: Iterable[Point]) -> list[tuple[float, float]]:
        return [self.at(point) for point in points]


def plain(words: str) -> str:
    """A text of one line that comes out as it is: carets and pairs of percent signs are codes of the format's own."""
    line = " ".join(words.split()).replace("^", "^ ")
    return line.replace("%", "%%%") if "%%" in line else line


def _marked(entity: Any, data: dict[str, object]) -> Any:
    """An entity with what it stands for as extended data, ``key=value`` each."""
    if data:
        tags = [(1000, _short(f"{key}={value}")) for key, value in data.items()]
        entity.set_xdata(APPLICATION, tags)
    return entity


def _short(text: str) -> str:
    return " ".join(text.split()).encode()[:_LONGEST_DATA].decode(errors="ignore")
