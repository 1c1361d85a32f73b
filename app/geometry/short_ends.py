"""Wall ends that stop short: free ends near another wall that they do not meet, the usual reason of an open room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from app.geometry.rooms import JOIN
from app.plan.model import Wall


@dataclass(frozen=True)
class ShortEnd:
    """An end of ``wall`` at ``at`` that stops ``apart`` feet from the centreline of ``other``."""

    wall: str
    at: tuple[float, float]
    other: str
    apart: float


def short_ends(walls: Sequence[Wall], within: float) -> list[ShortEnd]:
    """The free wall ends of a level with another wall's centreline within some feet, the narrowest gap first."""
    if len(walls) < 2:
        return []
    ends = np.array([[wall.a, wall.b] for wall in walls])
    spots = shapely.points(ends.reshape(-1, 2))
    lines = shapely.linestrings(ends)
    spot, line = shapely.STRtree(lines).query(spots, predicate="dwithin", distance=within)
    other = spot // 2 != line
    spot, line = spot[other], line[other]
    apart = shapely.distance(spots[spot], lines[line])
    nearest: dict[int, tuple[float, int]] = {}
    for end, wall, feet in zip(spot.tolist(), line.tolist(), apart.tolist(), strict=True):
        nearest[end] = min(nearest.get(end, (np.inf, -1)), (feet, wall))
    found = [
        ShortEnd(walls[end // 2].id, (float(spots[end].x), float(spots[end].y)), walls[wall].id, feet)
        for end, (feet, wall) in nearest.items()
        if feet > JOIN
    ]
    return sorted(found, key=lambda gap: (gap.apart, gap.wall))
