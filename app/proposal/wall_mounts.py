"""Detectors on walls for panes that no ceiling place hears: along every clear wall, at every foot of height.

Along a wall the places that hear a pane are intervals, so the middles of the pieces between their ends are all that
need be tried at a height.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import prove_glass
from app.plan.model import Device
from app.plan.room_uses import KITCHEN_OR_BATH, use_of
from app.proposal.ceilings import Ceilings
from app.proposal.cover import fewest_cover
from app.proposal.hearing_regions import enough_of_pane
from app.proposal.listeners import covered_by
from app.proposal.wall_sides import Stretch, WallSides
from app.review.house import Storey

OFF_WALL = 0.1  # ft: the middle of a detector's face off the wall
LOWEST = 7.0  # ft: lower than this furniture and people stand before it
_USUAL = 8.0  # ft: a height that is reached from a step ladder
_TOP_ROOM = 0.5  # ft kept below the ceiling
_FROM_ENDS = 0.25  # ft kept from corners and openings
_NARROWEST = 1 / 24  # ft: a shorter piece of wall is no place
_AMPLE = 1.0  # ft short of the range: enough
_OFF_GLASS = 3.0  # ft off the plane of the glass: nearer to it a detector looks along the pane
_WET, _NEAR_REGISTER, _SCARCE, _ALONG_GLASS, _A_FOOT_OFF = 50, 10, 8, 8, 1  # penalties of a mount


@dataclass(frozen=True)
class WallMount:
    """A detector for a wall: where, at what height and facing which way, and the panes that it is there for."""

    at: tuple[float, float]
    height: float
    facing: float
    face: int
    heard: tuple[int, ...]
    penalty: int


def mount_on_walls(
    storey: Storey, ceilings: Ceilings, panes: Sequence[int], *, seconds: float, stop: Callable[[], bool]
) -> list[WallMount]:
    """As few wall mounts as are found for the panes that walls can hear, at good places where the number is equal."""
    best: dict[tuple[int, ...], WallMount] = {}
    for height in _heights(storey.level.ceiling):
        if stop():
            break
        for mount in _at_height(storey, ceilings, panes, height):
            if mount.heard not in best or mount.penalty < best[mount.heard].penalty:
                best[mount.heard] = mount
    mounts = list(best.values())
    cover = fewest_cover(
        [frozenset(mount.heard) for mount in mounts],
        [mount.penalty for mount in mounts],
        bound=0,
        seconds=seconds,
        stop=stop,
    )
    return [mounts[index] for index in cover.chosen]


def _heights(ceiling: float) -> list[float]:
    """Whole feet from just below the ceiling down."""
    return [float(height) for height in range(int(ceiling - _TOP_ROOM), int(LOWEST) - 1, -1)]


def _at_height(storey: Storey, ceilings: Ceilings, panes: Sequence[int], height: float) -> Iterator[WallMount]:
    """The mounts at one height, each borne out by its own proof."""
    reach, required = storey.practice.number("glass.range"), storey.practice.number("glass.required_fraction")
    regions: dict[int, BaseGeometry] = {}
    faces: set[int] = set()
    for pane in panes:
        opening = storey.scene.panes.opening[pane]
        within = ceilings.within_reach(opening, reach)
        if within.is_empty:
            continue
        region = enough_of_pane(storey.scene, pane, height, reach, within, required)
        if not region.is_empty:
            regions[pane] = region
            faces.update(ceilings.faces_towards(opening))
    sides = WallSides(storey.scene)
    for face in sorted(faces):
        for wall in sides.stretches(face, height + _TOP_ROOM / 2, _FROM_ENDS):
            for along, heard in _pieces(wall, regions):
                at = wall.spot(along, OFF_WALL)
                device = Device(id="trial", kind="glass_break", at=at, height=height)
                proof = prove_glass(storey.scene, device, storey.practice)
                if heard <= covered_by(proof, storey.practice):
                    farthest = max(proof.views[pane].farthest for pane in heard)
                    penalty = _penalty(storey, face, at, height, reach - farthest)
                    penalty += round(_ALONG_GLASS * max(0.0, 1 - _off_glass(storey, at, heard) / _OFF_GLASS))
                    yield WallMount(at, height, wall.facing, face, tuple(sorted(heard)), penalty)


def _penalty(storey: Storey, face: int, at: tuple[float, float], height: float, slack: float) -> int:
    """What speaks against a mount: a wet room, a register nearby, little left of the range, an unusual height."""
    room = storey.scene.room_of_face.get(face)
    wet = room is not None and use_of(storey.room_by_id[room]) in KITCHEN_OR_BATH
    least = storey.practice.number("glass.register_clearance")
    registers = [one.at for one in storey.level.fixtures if one.kind == "supply_register" and one.at is not None]
    blown = any(math.dist(at, register) < least for register in registers)
    scarce = max(0.0, _AMPLE - slack) / _AMPLE
    return _WET * wet + _NEAR_REGISTER * blown + round(_SCARCE * scarce) + round(_A_FOOT_OFF * abs(height - _USUAL))


def _off_glass(storey: Storey, at: tuple[float, float], panes: Iterable[int]) -> float:
    """The least distance, in feet, of a spot from the planes of some panes."""
    some, glass = list(panes), storey.scene.panes
    offset = np.array(at) - glass.origin[some]
    across = glass.direction[some, 0] * offset[:, 1] - glass.direction[some, 1] * offset[:, 0]
    return float(np.abs(across).min())


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
