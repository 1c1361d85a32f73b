"""The places from which enough of a pane is heard: exact for whole panes, a part of them where less is asked.

Where the practice asks for less than the whole, the places that see the whole of some part of that size are taken:
to the left, to the right, in the middle, below, above and in the corners. Each is enough; there may be more.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import TOLERANCE
from app.geometry.joined import Joined
from app.geometry.panes import Panes
from app.geometry.scene import LevelScene
from app.geometry.vantage import vantage_region
from app.proposal.cells import NARROWEST


def is_whole(required: float) -> bool:
    """Whether a required share asks for the whole pane."""
    return required >= 1 - TOLERANCE


def enough_of_pane(
    scene: LevelScene, pane: int, z: float, reach: float, within: BaseGeometry, required: float
) -> BaseGeometry:
    """The part of ``within`` from which an eye at height ``z`` sees the required share of a pane, as told above."""
    if is_whole(required):
        return vantage_region(scene, pane, z, reach, within)
    parts = [replace(scene, panes=part) for part in _parts_of(scene.panes, pane, required)]
    return shapely.union_all([vantage_region(part, 0, z, reach, within) for part in parts])


def _parts_of(panes: Panes, pane: int, share: float) -> Iterator[Panes]:
    """Parts of a pane, each a pane by itself, of a share of its area."""
    width, sill, head = float(panes.width[pane]), float(panes.sill[pane]), float(panes.head[pane])
    root = math.sqrt(share)
    for wide, high in ((share, 1.0), (1.0, share), (root, root)):
        for left in {0.0, (1 - wide) / 2, 1 - wide}:
            for low in {0.0, 1 - high}:
                yield Panes(
                    panes.origin[[pane]] + panes.direction[[pane]] * left * width,
                    panes.direction[[pane]],
                    np.array([wide * width]),
                    np.array([sill + low * (head - sill)]),
                    np.array([sill + (low + high) * (head - sill)]),
                    (panes.name[pane],),
                    (panes.opening[pane],),
                )


def areas_of(region: BaseGeometry) -> BaseGeometry:
    """The polygons of a region that are wide enough for a detector to be in."""
    parts = [
        part
        for part in shapely.get_parts(region)
        if part.geom_type == "Polygon" and part.area > NARROWEST * part.length / 2
    ]
    return shapely.multipolygons(parts) if parts else shapely.Polygon()


def hanging_together(regions: Sequence[BaseGeometry]) -> list[list[int]]:
    """The numbers of the regions in groups joined by overlaps, each in order."""
    if not regions:
        return []
    shapes = np.array(regions, dtype=object)
    first, second = shapely.STRtree(shapes).query(shapes, predicate="intersects")
    sets = Joined(len(regions))
    for one, two in zip(first.tolist(), second.tolist(), strict=True):
        sets.join(one, two)
    groups: dict[int, list[int]] = {}
    for index in range(len(regions)):
        groups.setdefault(sets.root(index), []).append(index)
    return list(groups.values())
