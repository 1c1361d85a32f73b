"""Copper conductors: diameter, area and resistance of a wire gauge at a temperature, and what a cable's name says.

Sizes follow ASTM B258; hot resistances are those of NEC Chapter 9 Table 8 where it has the size, and worked from the
cool ones where it has not (Table 8 starts at 18 AWG).
"""

from __future__ import annotations

import re
from dataclasses import dataclass

COPPER = 10.371  # ohm · circular mil / ft at 20 °C; “Copper Wire Table: AWG to Metric” prints 10.37
COEFFICIENT = 0.00393  # 1/°C on a base of 20 °C (annealed copper, from memory)
STRANDED = 7.95 / 7.77  # stranded over solid: the ratio of NEC Chapter 9 Table 8 at 18 AWG
COOL, HOT = 20.0, 75.0

# NEC Chapter 9 Table 8, uncoated copper at 75 °C, Ω per 1000 ft: solid, stranded
TABLE_8 = {18: (7.77, 7.95), 16: (4.89, 4.99), 14: (3.07, 3.14), 12: (1.93, 1.98)}
GAUGES = (22, 20, 18, 16, 14, 12)  # what a device may be fed by: no lighter than 22 (textbook “Device Connectivity”)

_CABLE = re.compile(r"^\s*(?P<gauge>\d{1,2})\s*/\s*(?P<conductors>\d{1,2})(?!\d)")


@dataclass(frozen=True)
class Make:
    """What a cable's name says of it: ``22/4`` is four conductors of 22 AWG."""

    gauge: int
    conductors: int


def make_of(cable: str) -> Make | None:
    """What a cable such as ``22/4`` is made of, or None where its name does not say."""
    found = _CABLE.match(cable)
    if found is None or not 1 <= int(found["gauge"]) <= 36 or int(found["conductors"]) < 1:
        return None
    return Make(int(found["gauge"]), int(found["conductors"]))


def diameter(gauge: int) -> float:
    """Diameter in inches of a solid conductor: 0.005 · 92^((36 − n)/39) (ASTM B258)."""
    return float(0.005 * 92 ** ((36 - gauge) / 39))


def circular_mils(gauge: int) -> float:
    """Area in circular mils: the square of the diameter in thousandths of an inch."""
    return (1000 * diameter(gauge)) ** 2


def cool_resistance(gauge: int, build: str = "solid") -> float:
    """Ω per 1000 ft at 20 °C of a solid or stranded copper conductor."""
    solid = 1000 * COPPER / circular_mils(gauge)
    return solid * STRANDED if build == "stranded" else solid


def hot_resistance(gauge: int, build: str = "solid") -> float:
    """Ω per 1000 ft at 75 °C: NEC Chapter 9 Table 8, or R20 · (1 + 0.00393 · 55) for a size that it lacks."""
    if gauge in TABLE_8:
        return TABLE_8[gauge][build == "stranded"]
    return cool_resistance(gauge, build) * (1 + COEFFICIENT * (HOT - COOL))


def drop(one_way_feet: float, ohms_per_1000_feet: float, amperes: float) -> float:
    """Volts lost on the way out and back: 2 · L · R/1000 · I, L one way in feet (electrical course, “voltage drop”)."""
    return 2 * one_way_feet * ohms_per_1000_feet / 1000 * amperes


def longest_run(volts: float, ohms_per_1000_feet: float, amperes: float) -> float:
    """One-way feet at which a load loses ``volts``; infinite for no load."""
    return float("inf") if amperes <= 0 else volts * 1000 / (2 * ohms_per_1000_feet * amperes)
