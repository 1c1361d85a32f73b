"""What the designer chooses before a foreign file becomes a plan: roles of layers, unit, heights, names."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from app.intake.refused import DrawingRefused
from app.intake.roles import ROLES, Role
from app.intake.storeys.levels import levels_told, points_told
from app.intake.units import FEET


@dataclass(frozen=True)
class Choices:
    """The choices, lengths in feet; ``roles`` and ``units`` left out take what the survey proposes.

    A drawing in plan tells no heights: ``sill``, ``head`` and ``ceiling`` are taken for all. ``thickness`` is that of
    walls drawn as one line. ``storeys`` are the names of an IFC's storeys to read, none: all. ``levels`` say which
    drawings of a sheet make which level, the lowest first, ``common`` a point that several drawings show, both as
    typed (see ``storeys.levels``); ``floor_to_floor`` are the heights from level to level, the last for all above.
    """

    roles: Mapping[str, Role] | None = None
    units: str | None = None
    name: str = "Read from a drawing"
    level_name: str = "Main floor"
    ceiling: float = 9.0
    sill: float = 3.0
    head: float = 6.667
    thickness: float = 0.375
    storeys: tuple[str, ...] = field(default=())
    levels: Sequence[str] = field(default=())
    floor_to_floor: Sequence[float] = field(default=())
    common: Sequence[str] = field(default=())

    def __post_init__(self) -> None:
        """Refuse what no plan can have, with a line that says what is right."""
        if self.units is not None and self.units not in FEET:
            raise DrawingRefused(f"{self.units[:20]!r} is no unit; give {', '.join(FEET)}")
        for layer, role in (self.roles or {}).items():
            if role not in ROLES:
                raise DrawingRefused(f"{str(role)[:20]!r} for layer {layer[:60]} is not known; give {', '.join(ROLES)}")
        for words, value, low, high in (
            ("ceiling", self.ceiling, 1.0, 100.0),
            ("thickness", self.thickness, 0.05, 3.0),
            ("head", self.head, 0.5, 100.0),
            ("sill", self.sill, 0.0, 99.0),
            *(("floor to floor", height, self.ceiling, 100.0) for height in self.floor_to_floor),
        ):
            if not low <= value <= high:
                raise DrawingRefused(f"{words} {value:g} ft is out of bounds: give {low:g} to {high:g} ft")
        if self.sill >= self.head:
            raise DrawingRefused(f"sill {self.sill:g} ft must be below head {self.head:g} ft")
        levels_told(self.levels)
        points_told(self.common)
