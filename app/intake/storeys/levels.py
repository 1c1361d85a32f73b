"""The levels that a designer makes of the drawings on a sheet, as typed: which drawings, what name."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from app.intake.refused import DrawingRefused
from app.intake.strokes import Spot

EVERYTHING = "all"
"""Said for the drawings of a level: the whole sheet as it stands."""

_LEVEL = re.compile(r"\s*(all|\d{1,3}(?:\s*\+\s*\d{1,3})*)\s*(?:[:=]\s*(.*?)\s*)?$", re.IGNORECASE)
_POINT = re.compile(r"\s*(\d{1,3})\s*[:=]\s*(-?[\d.]+(?:[eE][-+]?\d+)?)\s*[,;]\s*(-?[\d.]+(?:[eE][-+]?\d+)?)\s*$")


@dataclass(frozen=True)
class LevelOf:
    """One level: the numbers of its drawings (none: the whole sheet), and its name where it is told."""

    drawings: tuple[int, ...]
    name: str = ""


def levels_told(texts: Sequence[str]) -> tuple[LevelOf, ...]:
    """Levels from ``1``, ``1+3``, ``2:Upper floor`` or ``all``, the lowest first; raises ``DrawingRefused``."""
    levels: list[LevelOf] = []
    for text in texts:
        found = _LEVEL.match(text)
        if found is None:
            raise DrawingRefused(
                f"{text[:40]!r} is no level: give the drawing's number and a name, such as 2:Upper floor, or all"
            )
        numbers = () if found[1].lower() == EVERYTHING else tuple(int(one) for one in found[1].split("+"))
        levels.append(LevelOf(numbers, (found[2] or "")[:120]))
    given = [number for level in levels for number in level.drawings]
    if len(levels) > 1 and any(not level.drawings for level in levels):
        raise DrawingRefused("all makes one level of the whole sheet; leave out the other levels")
    if twice := {number for number in given if given.count(number) > 1}:
        raise DrawingRefused(f"drawing {min(twice)} is given to two levels; give it to one")
    return tuple(levels)


def points_told(texts: Sequence[str]) -> Mapping[int, Spot]:
    """A point common to drawings, each ``number:x,y`` in the drawing's own unit; raises ``DrawingRefused``."""
    points: dict[int, Spot] = {}
    for text in texts:
        found = _POINT.match(text)
        try:
            if found is None:
                raise ValueError
            points[int(found[1])] = (float(found[2]), float(found[3]))
        except ValueError:
            words = "give the drawing's number and the point in the drawing's unit, such as 2:1250,300"
            raise DrawingRefused(f"{text[:40]!r} is no point: {words}") from None
    return points
