"""What a plan that was read back must share with the one that was drawn, wherever and however it was placed."""

from __future__ import annotations

import math
from typing import Any

import shapely

from app.geometry.rooms import compile_faces
from app.plan.model import Level, Wall

SIXTEENTH = 1 / 16 / 12  # ft


def room_areas(level: Level) -> list[float]:
    """The floor areas of a level's faces, the smallest first."""
    return sorted(float(floor.area) for floor in compile_faces(level.walls).floors)


def drawn_walls(walls: list[dict[str, Any]]) -> tuple[Wall, ...]:
    """Walls of a plan dict as walls."""
    return tuple(
        Wall(id=wall["id"], a=tuple(wall["a"]), b=tuple(wall["b"]), thickness=wall.get("thickness", 0.375))
        for wall in walls
    )


def thicknesses(walls: tuple[Wall, ...], least: float = 1.0) -> list[float]:
    """The thicknesses of walls longer than ``least``, to a hundredth of a foot, each once, sorted."""
    return sorted({round(wall.thickness, 2) for wall in walls if wall.length >= least})


def openings_by_kind(level: dict[str, Any] | Level) -> list[tuple[str, float, str | None]]:
    """Kind, width and whether it swings of every opening, sorted."""
    openings = level["openings"] if isinstance(level, dict) else [one.model_dump() for one in level.openings]
    return sorted((one["kind"], round(one["width"], 1), one.get("leaf") or "swing") for one in openings)


def footprint(walls: tuple[Wall, ...]) -> shapely.Polygon:
    """The building's outline, moved to the origin."""
    outline = shapely.union_all(compile_faces(walls).outline)
    west, south, _, _ = outline.bounds
    return shapely.transform(outline, lambda spots: spots - [west, south])


def is_near(first: float, second: float, share: float = 0.01) -> bool:
    """Whether two areas differ by no more than a share of the larger."""
    return math.isclose(first, second, rel_tol=share)
