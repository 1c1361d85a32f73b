"""Which way a door's leaf swings, where the plan says only its hinge.

Common practice, no source: a door in an outer wall swings in; one between rooms swings into the smaller of them, and
a closet's door out of the closet.
"""

from __future__ import annotations

from app.geometry.scene import LevelScene
from app.plan.model import Opening

CLOSET = 30.0  # sq ft


def swing_side(scene: LevelScene, opening: Opening) -> int:
    """1 where the leaf swings to the left of the wall (seen from its ``a``), -1 where to the right."""
    left, right = scene.sides[opening.id]
    if left < 0 or right < 0:
        return 1 if left >= 0 or right < 0 else -1
    areas = [float(scene.faces.outline[face].area) for face in (left, right)]
    smaller = 1 if areas[0] <= areas[1] else -1
    return -smaller if min(areas) < CLOSET <= max(areas) else smaller
