"""Which way a door's leaf swings, where the plan says only its hinge.

Common practice, no source: a door in an outer wall swings in; a closet's door out of the closet; one off a hall or an
entry into the room, and one between rooms into the smaller of them.
"""

from __future__ import annotations

from app.geometry.scene import LevelScene
from app.plan.model import Opening
from app.plan.room_uses import ENTRY, STAIR, use_of

CLOSET = 30.0  # sq ft
_PASSED_THROUGH = ENTRY | STAIR | frozenset(("hall", "hallway", "corridor", "passage", "landing", "gallery"))


def swing_side(scene: LevelScene, opening: Opening) -> int:
    """1 where the leaf swings to the left of the wall (seen from its ``a``), -1 where to the right."""
    left, right = scene.sides[opening.id]
    if left < 0 or right < 0:
        return 1 if left >= 0 or right < 0 else -1
    areas = [float(scene.faces.outline[face].area) for face in (left, right)]
    smaller = 1 if areas[0] <= areas[1] else -1
    if min(areas) < CLOSET <= max(areas):
        return -smaller
    passed = [_is_passed_through(scene, face) for face in (left, right)]
    if passed[0] != passed[1]:
        return -1 if passed[0] else 1
    return smaller


def _is_passed_through(scene: LevelScene, face: int) -> bool:
    name = scene.room_of_face.get(face)
    return name is not None and use_of(scene.room_by_id[name]) in _PASSED_THROUGH
