"""Spaces of a building model: a name, a point well inside, and how high the room is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from app.intake.ifc.library import Building, Storey
from app.intake.strokes import Spot


@dataclass(frozen=True)
class Space:
    """A space in feet; ``height`` is None where its body does not tell it."""

    name: str
    at: Spot
    height: float | None


def spaces_on(storey: Storey, building: Building) -> list[Space]:
    """The spaces of a storey that have a body."""
    made = []
    for element in storey.of("IfcSpace"):
        points = building.points(element)
        if points is None:
            continue
        name = " ".join(str(element.LongName or element.Name or "").split())[:60]
        height = float(points[:, 2].max() - points[:, 2].min())
        made.append(Space(name, _inside(element, points, building), height if height > 1.0 else None))
    return made


def _inside(element: Any, points: NDArray[np.float64], building: Building) -> Spot:
    """A point of the floor: of the lowest faces' union where they are told, else of the hull."""
    faces = building.lowest_faces(element)
    shape = faces if faces is not None and faces.area > 0 else shapely.convex_hull(shapely.multipoints(points[:, :2]))
    spot = shapely.point_on_surface(shape)
    return float(spot.x), float(spot.y)
