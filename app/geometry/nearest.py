"""The nearest of some named spots to each of some points, for plans with thousands of them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

import numpy as np
import shapely

Spot = tuple[float, float]


def nearest_spots(points: Sequence[Spot], spots: Mapping[str, Spot]) -> list[tuple[str, float]]:
    """For each point the name of its nearest spot and the distance in feet; ("", infinity) where there is no spot."""
    if not spots or not points:
        return [("", math.inf)] * len(points)
    names = list(spots)
    tree = shapely.STRtree(shapely.points(np.array([spots[name] for name in names])))
    index, distance = tree.query_nearest(shapely.points(np.array(points)), return_distance=True, all_matches=False)
    found = [("", math.inf)] * len(points)
    for point, spot, away in zip(*index, distance, strict=True):
        found[point] = (names[spot], float(away))
    return found
