"""What a number of a table measures: its unit by the plan's units, its decimals, and how people read it.

Tables hold feet, square feet and so on throughout; what leaves the program is in the plan's own units.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from app.drawing.lengths import drawn_length
from app.plan.measures import FEET_PER_METRE, area_text

METRIC = "metric"


@dataclass(frozen=True)
class Measure:
    """``imperial`` and ``metric`` are the units that a heading names, ``metric_factor`` turns one into the other;
    ``words`` (value, units) is how a person reads a value, where that is more than the number and its unit.
    """

    imperial: str
    metric: str
    decimals: int
    metric_factor: float = 1.0
    words: Callable[[float, str], str] | None = None

    def unit(self, units: str) -> str:
        """The unit that a heading names, or nothing."""
        return self.metric if units == METRIC else self.imperial

    def number(self, value: float, units: str) -> float | int:
        """A value in the plan's units, rounded to what it is good for."""
        scaled = round(value * (self.metric_factor if units == METRIC else 1.0), self.decimals)
        return int(scaled) if self.decimals == 0 else scaled

    def shown(self, value: float, units: str) -> str:
        """A value as people read it."""
        if self.words is not None:
            return self.words(value, units)
        unit = self.unit(units)
        return f"{self.number(value, units):g}" + (f" {unit}" if unit else "")


def plain(decimals: int, unit: str = "") -> Measure:
    """A measure with the same unit everywhere."""
    return Measure(unit, unit, decimals)


COUNT = plain(0)
LENGTH = Measure("ft", "m", 3, 1 / FEET_PER_METRE, drawn_length)
CABLE = Measure("ft", "m", 2, 1 / FEET_PER_METRE)
AREA = Measure("sq ft", "m²", 2, FEET_PER_METRE**-2, area_text)
BORE = Measure("in", "mm", 2, 25.4)
BORE_AREA = Measure("sq in", "cm²", 3, 6.4516)
SHARE = Measure("%", "%", 1, words=lambda value, _: f"{value:.0f} %")
DEGREES = plain(1, "°")
SECONDS = plain(1, "s")
MILLIAMPERES = plain(1, "mA")
AMPERE_HOURS = plain(2, "Ah")
HOURS = plain(1, "h")
MINUTES = plain(1, "min")
VOLTS = plain(2, "V")
OHMS = plain(1, "Ω")
DECIBELS = plain(1, "dBA")
