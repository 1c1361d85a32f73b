"""The unit of a drawing: as its header says, or judged by how large the house and how thick its walls would be.

A header's word is not taken for granted: many files say inches and are drawn in millimetres, so every unit's
resulting size is told and an unlikely one is asked about.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

FEET = {"in": 1 / 12, "ft": 1.0, "mm": 1 / 304.8, "cm": 1 / 30.48, "m": 1 / 0.3048}
"""Feet in one unit (the international foot of 0.3048 m)."""

NAMES = {"in": "inches", "ft": "feet", "mm": "millimetres", "cm": "centimetres", "m": "metres"}
METRIC = frozenset(("mm", "cm", "m"))

# $INSUNITS, as the format's published reference numbers it; a survey foot differs by 2 parts in a million.
_HEADER = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m", 21: "ft"}

_HOUSE = (12.0, 400.0)  # ft, the longer side: from a garden room to a long row
_USUAL_HOUSE = 55.0
_WALL = (1.5 / 12, 1.6)
_USUAL_WALL = 0.45


@dataclass(frozen=True)
class Scale:
    """What is known of a drawing's unit: ``said`` by the header, ``likely`` by its size; None where it is not told."""

    said: str | None
    likely: str | None
    extent: tuple[float, float]

    @property
    def proposed(self) -> str | None:
        """The unit to begin with: the header's where it gives a likely house, else the likeliest."""
        if self.said is not None and self.is_plausible(self.said):
            return self.said
        return self.likely

    @property
    def must_ask(self) -> bool:
        """Whether the header is silent or gives a house of unlikely size."""
        return self.said is None or not self.is_plausible(self.said)

    def is_plausible(self, unit: str) -> bool:
        """Whether the drawing would be as large as a house."""
        longest = max(self.extent) * FEET[unit]
        return _HOUSE[0] <= longest <= _HOUSE[1]

    def value(self) -> dict[str, Any]:
        """As a JSON value, with the size in feet that each unit would give."""
        sizes = {unit: [round(side * feet, 2) for side in self.extent] for unit, feet in FEET.items()}
        return {
            "said": self.said,
            "likely": self.likely,
            "proposed": self.proposed,
            "ask": self.must_ask,
            "sizes_ft": sizes,
        }


def unit_of_header(code: object) -> str | None:
    """The unit that ``$INSUNITS`` names, or None where it names none that is read."""
    return _HEADER.get(code) if isinstance(code, int) else None


def likeliest(extent: tuple[float, float], thickness: float | None, metric: bool | None) -> str | None:
    """The unit under which house and walls come nearest to usual ones; None where no unit gives a house.

    ``thickness`` is the commonest distance of faces, in drawing units; ``metric`` what ``$MEASUREMENT`` says.
    """
    best: tuple[float, str] | None = None
    for unit, feet in FEET.items():
        house = max(extent) * feet
        wall = None if thickness is None else thickness * feet
        if not _HOUSE[0] <= house <= _HOUSE[1] or (wall is not None and not _WALL[0] <= wall <= _WALL[1]):
            continue
        far = abs(math.log(house / _USUAL_HOUSE)) + (0 if wall is None else 1.5 * abs(math.log(wall / _USUAL_WALL)))
        far += 0.25 if metric is not None and metric != (unit in METRIC) else 0.0
        if best is None or far < best[0]:
            best = (far, unit)
    return best[1] if best else None
