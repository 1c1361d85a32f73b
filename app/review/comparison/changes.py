"""What a comparison finds: changes, each of one thing, with the fields that differ and where it was and is."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from shapely.geometry.base import BaseGeometry

What = Literal["added", "moved", "changed", "renamed", "removed"]
WHATS: tuple[What, ...] = ("added", "moved", "changed", "renamed", "removed")

Spot = tuple[float, float]


@dataclass(frozen=True)
class FieldChange:
    """One field that differs: its key in the file, what people call it, and both values as the plan's units say."""

    field: str
    words: str
    old: str
    new: str


@dataclass(frozen=True)
class Move:
    """A point of a thing that went from one place to another, in feet."""

    start: Spot
    end: Spot

    @property
    def feet(self) -> float:
        """How far, in plan."""
        return math.dist(self.start, self.end)


@dataclass(frozen=True)
class Change:
    """One thing that differs.

    ``family`` is that of the file ("walls", "devices", …), or "levels", "risers", "plan" or "practice". ``level`` and
    ``was_level`` are ids of the new and the old plan, None where the thing is on none. ``moves`` holds the points that
    moved, the farthest first; ``carries`` the openings that went along with their wall. ``shape`` and ``was_shape`` are
    its place in plan, in feet; ``number`` is what the drawing and the list call it by.
    """

    what: What
    family: str
    id: str
    was_id: str | None
    name: str
    level: str | None = None
    was_level: str | None = None
    fields: tuple[FieldChange, ...] = ()
    moves: tuple[Move, ...] = ()
    carries: tuple[str, ...] = ()
    shape: BaseGeometry | None = None
    was_shape: BaseGeometry | None = None
    number: int = 0

    @property
    def place(self) -> BaseGeometry | None:
        """Where it is, or was if it is gone."""
        return self.was_shape if self.shape is None else self.shape

    @property
    def shown_on(self) -> str | None:
        """The level that shows it, None where no drawing does."""
        return self.was_level if self.level is None else self.level
