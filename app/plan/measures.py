"""Lengths as people read and type them: feet-inches and metric text to decimal feet, and back.

Grammar (contract §1): ``12'-6"``, ``12' 6 1/2"``, ``12-6``, ``12.5'``, ``150"``, ``3.81 m``, ``381 cm``,
``3810 mm``. A bare number is feet in an imperial plan and metres in a metric one.
"""

from __future__ import annotations

import math
import re
from fractions import Fraction

FEET_PER_METRE = 1 / 0.3048  # exact: the international foot of 1959 is 0.3048 m

_NUMBER = r"(?:\d+(?:\.\d+)?|\.\d+)"
_INCHES = rf"(?:(?P<inches>{_NUMBER})(?=[\s\"-]|$)(?:\s*-\s*|\s+)?)?(?:(?P<top>\d+)\s*/\s*(?P<bottom>\d+))?"
_FEET_INCHES = re.compile(rf"^(?P<sign>-?)\s*(?:(?P<feet>{_NUMBER})\s*'\s*-?\s*)?{_INCHES}\s*(?P<mark>\"?)$")
_DASHED = re.compile(rf"^(?P<sign>-?)\s*(?P<feet>\d+)\s*-\s*{_INCHES}\s*\"?$")
_METRIC = re.compile(rf"^(?P<sign>-?)\s*(?P<value>{_NUMBER})\s*(?P<unit>mm|cm|m)$")
_BARE = re.compile(rf"^(?P<sign>-?)\s*(?P<value>{_NUMBER})$")
_METRES = {"mm": 0.001, "cm": 0.01, "m": 1.0}
_STRAIGHTEN = str.maketrans(
    {"’": "'", "′": "'", "‘": "'", "”": '"', "″": '"', "“": '"', "–": "-", "−": "-"}
    | {"½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8"}
)
_WORDS = ((re.compile(r"\s*(?:feet|foot|ft)\b\.?"), "'"), (re.compile(r"\s*(?:inches|inch|in)\b\.?|''"), '"'))

HOW_TO_TYPE = "type a length as 12'-6\", 12' 6 1/2\", 12-6, 12.5', 150\", 3.81 m, 381 cm or 3810 mm"


def parse_length(text: str, units: str = "imperial") -> float:
    """Decimal feet of a typed length; a bare number is feet, or metres where ``units`` is "metric".

    Raises ``ValueError`` whose text says what may be typed.
    """
    words = text.strip().lower().translate(_STRAIGHTEN)
    for word, mark in _WORDS:
        words = word.sub(mark, words)
    words = words.strip()
    if found := _BARE.match(words):
        value = float(found["value"]) * (FEET_PER_METRE if units == "metric" else 1.0)
    elif found := _METRIC.match(words):
        value = float(found["value"]) * _METRES[found["unit"]] * FEET_PER_METRE
    elif (found := _DASHED.match(words)) and (found["inches"] or found["top"]):
        value = float(found["feet"]) + _inches(found) / 12
    elif (found := _FEET_INCHES.match(words)) and (
        found["feet"] or (found["mark"] and (found["inches"] or found["top"]))
    ):
        value = float(found["feet"] or 0) + _inches(found) / 12
    else:
        raise ValueError(f"“{text.strip()}” is not a length: {HOW_TO_TYPE}")
    if not math.isfinite(value):
        raise ValueError(f"“{text.strip()}” is too large a length")
    return -value if found["sign"] else value


def _inches(found: re.Match[str]) -> float:
    whole = float(found["inches"] or 0)
    if found["top"] is None:
        return whole
    if int(found["bottom"]) == 0:
        raise ValueError(f"a fraction of an inch cannot be over nought: {HOW_TO_TYPE}")
    return whole + float(Fraction(int(found["top"]), int(found["bottom"])))


def feet_inches(feet: float, sixteenths: int = 16) -> str:
    """``12.5417`` as ``12'-6 1/2"``, to the nearest 1/``sixteenths`` of an inch (a power of two up to 64)."""
    parts = round(abs(feet) * 12 * sixteenths)
    whole_feet, rest = divmod(parts, 12 * sixteenths)
    inches, over = divmod(rest, sixteenths)
    fraction = f" {Fraction(over, sixteenths)}" if over else ""
    sign = "-" if feet < 0 and parts else ""
    return f"{sign}{whole_feet}'-{inches}{fraction}\""


def metres(feet: float, decimals: int = 3) -> str:
    """``12.5`` as ``3.81 m``, to the millimetre unless asked otherwise."""
    text = f"{feet / FEET_PER_METRE:.{decimals}f}".rstrip("0").rstrip(".")
    return f"{'0' if text in ('-0', '') else text} m"


def length_text(feet: float, units: str = "imperial", *, sixteenths: int = 16) -> str:
    """A length as the plan's ``units`` write it."""
    return metres(feet) if units == "metric" else feet_inches(feet, sixteenths)


def area_text(square_feet: float, units: str = "imperial") -> str:
    """An area as the plan's ``units`` write it, to one decimal."""
    if units == "metric":
        return f"{square_feet / FEET_PER_METRE**2:.1f} m²"
    return f"{square_feet:.1f} sq ft"
