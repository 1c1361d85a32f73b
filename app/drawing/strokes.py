"""Lines of a sheet gathered by their look, so that a plan of thousands of lines becomes a handful of SVG paths."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from app.drawing.maker import SVG
from app.drawing.palette import INK


@dataclass(frozen=True)
class Look:
    """How a line is drawn: ``weight`` and ``dash`` in millimetres of paper; ``fill`` for closed shapes."""

    weight: float
    colour: str = INK
    dash: str = ""
    fill: str = "none"


@dataclass
class Strokes:
    """Path data by look, in the order in which each look was first used."""

    lines: dict[Look, list[str]] = field(default_factory=dict)

    def add(self, look: Look, *paths: str) -> None:
        """Add path data in a look."""
        drawn = [path for path in paths if path]
        if drawn:
            self.lines.setdefault(look, []).extend(drawn)

    def group(self, name: str) -> Any:
        """All of it as one group of class ``name``."""
        group = SVG.g(class_=name, fill="none", stroke_linejoin="miter", stroke_linecap="butt")
        for look, paths in self.lines.items():
            path = SVG.path(d="".join(paths), stroke=look.colour, stroke_width=look.weight)
            if look.fill != "none":
                path.attribs.update({"fill": look.fill, "fill-rule": "evenodd"})
            if look.dash:
                path["stroke-dasharray"] = look.dash
            group.add(path)
        return group
