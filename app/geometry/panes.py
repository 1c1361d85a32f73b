"""Panes of glass as arrays: each lite a rectangle on its wall's centreline, from sill to head.

``u`` runs along the glass from the end nearer the wall's ``a``, ``z`` up from the floor.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely

from app.geometry.bodies import FloatArray, IntArray
from app.plan.model import Level


@dataclass(frozen=True)
class Panes:
    """``origin`` and ``direction`` (n, 2), ``width``, ``sill``, ``head`` (n,) in feet; ``opening`` names what each lite
    belongs to; ``name`` is ``<opening id>/<1-based index counted from the wall's a>``.
    """

    origin: FloatArray
    direction: FloatArray
    width: FloatArray
    sill: FloatArray
    head: FloatArray
    name: tuple[str, ...]
    opening: tuple[str, ...]

    def __len__(self) -> int:
        return len(self.name)

    @cached_property
    def ends(self) -> FloatArray:
        """Both ends in plan, (n, 2, 2)."""
        return np.stack([self.origin, self.origin + self.direction * self.width[:, None]], axis=1)

    @cached_property
    def area(self) -> FloatArray:
        """Area of each lite in square feet."""
        return self.width * (self.head - self.sill)

    @cached_property
    def tree(self) -> shapely.STRtree:
        """Spatial index over the panes in plan."""
        return shapely.STRtree(shapely.linestrings(self.ends) if self.name else [])

    def near(self, x: float, y: float, reach: float) -> IntArray:
        """Indices of the panes that come into the square of half side ``reach`` about a point, in their order."""
        found: IntArray = self.tree.query(shapely.box(x - reach, y - reach, x + reach, y + reach))
        return np.sort(found)


def compile_panes(level: Level) -> Panes:
    """Every lite of every glazed opening of a level, in the order of the file."""
    origin, direction, width, sill, head, name, owner = [], [], [], [], [], [], []
    for opening in level.openings:
        if not opening.has_glass:
            continue
        wall = level.wall_by_id[opening.wall]
        along = ((wall.b[0] - wall.a[0]) / wall.length, (wall.b[1] - wall.a[1]) / wall.length)
        lite = opening.width / opening.panes
        for index in range(opening.panes):
            origin.append(wall.along(opening.offset + index * lite))
            direction.append(along)
            width.append(lite)
            sill.append(opening.sill)
            head.append(opening.head)
            name.append(f"{opening.id}/{index + 1}")
            owner.append(opening.id)
    return Panes(
        np.array(origin).reshape(-1, 2),
        np.array(direction).reshape(-1, 2),
        np.array(width),
        np.array(sill),
        np.array(head),
        tuple(name),
        tuple(owner),
    )
