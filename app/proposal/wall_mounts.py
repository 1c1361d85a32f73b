"""Detectors on walls for panes that no ceiling place hears: along every clear wall, at every foot of height.

Along a wall the places that hear a pane are intervals, so the middles of the pieces between their ends are all that
need be tried at a height.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import prove_glass
from app.geometry.vantage import vantage_region
from app.plan.model import Device
from app.plan.room_uses import KITCHEN_OR_BATH, use_of
from app.proposal.ceilings import Ceilings
from app.proposal.cover import fewest_cover
from app.proposal.listeners import covered_by
from app.proposal.wall_sides import Stretch, stretches_of
from app.review.house import Storey

OFF_WALL = 0.1  # ft: the middle of a detector's face off the wall
LOWEST = 6.0  # ft: lower than this furniture and people stand before it
_TOP_ROOM = 0.5  # ft kept below the ceiling
_FROM_ENDS = 0.25  # ft kept from corners and openings
_NARROWEST = 1 / 24  # ft: a shorter piece of wall is no place


@dataclass(frozen=True)
class WallMount:
    """A detector for a wall: where, at what height and facing which way, and the panes that it is there for."""

    at: tuple[float, float]
    height: float
    facing: float
    face: int
    heard: tuple[int, ...]


def mount_on_walls(
    storey: Storey, ceilings: Ceilings, panes: Sequence[int], *, seconds: float, stop: Callable[[], bool]
) -> list[WallMount]:
    """As few wall mounts as are found for the panes that walls can hear; the higher ones where the number is equal."""
    mounts: list[WallMount] = []
    for height in _heights(storey.level.ceiling):
        if stop():
            break
        mounts += _at_height(storey, ceilings, panes, height)
    uses = {face: use_of(storey.room_by_id[room]) for face, room in storey.scene.room_of_face.items()}
    cover = fewest_cover(
        [frozenset(mount.heard) for mount in mounts],
        [int(storey.level.ceiling - mount.height) + 50 * (uses.get(mount.face) in KITCHEN_OR_BATH) for mount in mounts],
        bound=0,
        seconds=seconds,
        stop=stop,
    )
    return [mounts[index] for index in cover.chosen]


def _heights(ceiling: float) -> list[float]:
    """Whole feet from just below the ceiling down."""
    return [float(height) for height in range(int(ceiling - _TOP_ROOM), int(LOWEST) - 1, -1)]


def _at_height(storey: Storey, ceilings: Ceilings, panes: Sequence[int], height: float) -> list[WallMount]:
    """The undominated mounts at one height, each borne out by its own proof."""
    reach = storey.practice.number("glass.range")
    regions: dict[int, BaseGeometry] = {}
    faces: set[int] = set()
    for pane in panes:
        opening = storey.scene.panes.opening[pane]
        within = ceilings.within_reach(opening, reach)
        region = within if within.is_empty else vantage_region(storey.scene, pane, height, reach, within)
        if not region.is_empty:
            regions[pane] = region
            faces.update(ceilings.faces_towards(opening))
    found: dict[frozenset[int], WallMount] = {}
    for face in sorted(faces):
        for wall in stretches_of(storey.scene, face, height + _TOP_ROOM / 2, _FROM_ENDS):
            for along, heard in _pieces(wall, regions):
                if heard in found:
                    continue
                at = wall.spot(along, OFF_WALL)
                device = Device(id="trial", kind="glass_break", at=at, height=height)
                proven = covered_by(prove_glass(storey.scene, device, storey.practice), storey.practice)
                if heard <= proven:
                    found[heard] = WallMount(at, height, wall.facing, face, tuple(sorted(heard)))
    return [found[heard] for heard in found if not any(heard < other for other in found)]


def _pieces(wall: Stretch, regions: dict[int, BaseGeometry]) -> list[tuple[float, frozenset[int]]]:
    """The middles, in feet along the wall, of the pieces of a stretch with the panes that each hears; most first."""
    line = shapely.LineString([wall.spot(wall.start, OFF_WALL), wall.spot(wall.end, OFF_WALL)])
    spans: list[tuple[float, float, int]] = []
    for pane, region in regions.items():
        for part in shapely.get_parts(shapely.intersection(line, region)):
            if part.length > _NARROWEST:
                ends = [wall.nearest(*corner) for corner in shapely.get_coordinates(part)]
                spans.append((min(ends), max(ends), pane))
    marks = np.unique([mark for low, high, _ in spans for mark in (low, high)])
    pieces = []
    for low, high in pairwise(marks.tolist()):
        middle = (low + high) / 2
        heard = frozenset(pane for start, end, pane in spans if start < middle < end)
        if heard and high - low > _NARROWEST:
            pieces.append((float(middle), float(high - low), heard))
    return [(middle, heard) for middle, _, heard in sorted(pieces, key=lambda one: (-len(one[2]), -one[1], one[0]))]
