"""Small lengths of the trade, which are published in inches: fractions, or millimetres in a metric plan.

A limit is rounded to the safe side: what something may be at most downwards, what it must be at least upwards.
"""

from __future__ import annotations

import math
from fractions import Fraction

INCH = 25.4  # mm
_SLOP = 1e-9


def at_most(inches: float, units: str) -> str:
    """``2.10`` as ``2 1/16 in`` or ``53 mm``: to the 1/16 in or millimetre below."""
    if units == "metric":
        return f"{math.floor(inches * INCH + _SLOP)} mm"
    return _sixteenths(math.floor(inches * 16 + _SLOP))


def at_least(inches: float, units: str) -> str:
    """``0.231`` as ``1/4 in`` or ``6 mm``: to the 1/16 in or millimetre above."""
    if units == "metric":
        return f"{math.ceil(inches * INCH - _SLOP)} mm"
    return _sixteenths(math.ceil(inches * 16 - _SLOP))


def _sixteenths(count: int) -> str:
    whole, part = divmod(count, 16)
    words = [str(whole)] if whole or not part else []
    return " ".join([*words, *([str(Fraction(part, 16))] if part else [])]) + " in"
