"""A motion detector in the best inside corner of each gathering room that is not watched well enough.

Every inside corner of the floor is tried, along its bisector and turned off it as far as the practice allows; the
corner that watches most of the floor wins, less what glass straight ahead and a register nearby take off.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from app.coverage.motion import MotionProof, prove_motion, watched_share
from app.geometry.corners import corner_at
from app.plan.model import Device, Room
from app.plan.room_uses import GATHERING, use_of
from app.proposal.proposals import Numbering, Proposal, below_ceiling, sentence
from app.review.house import House, Storey
from app.review.rules.motions import glass_on_axis

_OFF_FACES = 0.04  # ft: half an inch off both faces of the corner
_TURNS = (0.0, 10.0, -10.0, 20.0, -20.0)  # degrees off the bisector
_GLASS_AHEAD, _REGISTER_NEAR, _A_DEGREE = 0.25, 0.15, 0.001  # shares of the floor that a fault is worth
_MOST_IN_A_ROOM = 3
_LEAST_GAIN = 0.1  # share of the floor that a further detector must add
_SHARPEST, _BLUNTEST = 30.0, 150.0  # degrees: corners between which a detector is mounted


@dataclass(frozen=True)
class _Choice:
    score: float
    share: float
    device: Device
    proof: MotionProof
    faults: tuple[str, ...]


def propose_motions(house: House, numbering: Numbering) -> list[Proposal]:
    """Motion detectors for the gathering rooms of which too little is watched."""
    return [
        proposal
        for storey in house
        for room in storey.level.rooms
        if use_of(room) in GATHERING and storey.scene.face_of_room[room.id] >= 0
        for proposal in _for_room(storey, room, numbering)
    ]


def _for_room(storey: Storey, room: Room, numbering: Numbering) -> Iterator[Proposal]:
    face = storey.scene.face_of_room[room.id]
    asked = storey.practice.number("motion.gathering_share")
    proofs = list(storey.motions)
    share = watched_share(storey.ground, face, proofs)
    for _ in range(_MOST_IN_A_ROOM):
        if share >= asked:
            return
        best = max(_choices(storey, face, proofs), key=lambda choice: choice.score, default=None)
        if best is None or best.share < share + _LEAST_GAIN:
            return
        device = best.device.model_copy(update={"id": numbering.next("motion")})
        proofs.append(best.proof)
        before = "" if share == 0 else f", where {share:.0%} was watched"
        share = best.share
        faults = f" ({'; '.join(best.faults)})" if best.faults else ""
        yield Proposal(
            storey.level.id,
            device,
            f"{sentence(storey.name(room.id))} is a gathering room{before}: from this corner {share:.0%} of its floor "
            f"is watched{faults}.",
        )


def _choices(storey: Storey, face: int, proofs: list[MotionProof]) -> Iterator[_Choice]:
    """Every corner of a face and turn in it, with the watched share and the score."""
    height = below_ceiling(storey, storey.practice.number("motion.height"))
    most = storey.practice.number("motion.off_bisector")
    for x, y in _inside_corners(storey.scene.faces.floors[face]):
        corner = corner_at(storey.scene.bodies, x, y, height or storey.practice.number("motion.height"), 0.5)
        if corner is None or _at_an_opening(storey, x, y, height):
            continue
        for turn in _TURNS:
            if abs(turn) > most:
                continue
            facing = round((corner.bisector + turn) % 360, 2)
            device = Device(id="trial", kind="motion", at=(x, y), height=height, facing=facing)
            proof = prove_motion(storey.scene, storey.ground, device, storey.practice)
            if proof.inside is not None:
                break
            share = watched_share(storey.ground, face, [*proofs, proof])
            faults = tuple(_faults(storey, face, device))
            worth = _GLASS_AHEAD * any("glass" in fault for fault in faults)
            worth += _REGISTER_NEAR * any("register" in fault for fault in faults)
            yield _Choice(round(share - worth - _A_DEGREE * abs(turn), 6), share, device, proof, faults)


def _inside_corners(floor: shapely.Geometry) -> Iterator[tuple[float, float]]:
    """The spots a hair off both faces at each convex corner of a floor's outer rings."""
    for polygon in shapely.get_parts(floor):
        ring = shapely.get_coordinates(shapely.orient_polygons(polygon.simplify(1e-6)).exterior)[:-1]
        for before, here, after in zip(np.roll(ring, 1, axis=0), ring, np.roll(ring, -1, axis=0), strict=True):
            into, out = here - before, after - here
            into, out = into / np.hypot(*into), out / np.hypot(*out)
            turn = float(into[0] * out[1] - into[1] * out[0])
            inside = 180 - math.degrees(math.atan2(turn, float(into @ out)))
            if _SHARPEST <= inside <= _BLUNTEST:
                # Along both faces by the same length, so that the spot is as far off the one as off the other.
                spot = here + (out - into) * _OFF_FACES / math.sin(math.radians(inside))
                yield round(float(spot[0]), 4), round(float(spot[1]), 4)


def _at_an_opening(storey: Storey, x: float, y: float, height: float | None) -> bool:
    """Whether an opening takes the wall away at the corner at the detector's height."""
    here = storey.practice.number("motion.height") if height is None else height
    for opening in storey.level.openings:
        if not opening.sill - 0.25 < here < opening.head + 0.25:
            continue
        wall = storey.level.wall_by_id[opening.wall]
        line = shapely.LineString([wall.along(opening.offset), wall.along(min(opening.end, wall.length))])
        if line.distance(shapely.Point(x, y)) < wall.thickness / 2 + 0.25:
            return True
    return False


def _faults(storey: Storey, face: int, device: Device) -> Iterator[str]:
    if (glass := glass_on_axis(storey, device)) is not None:
        yield f"no corner avoids glass straight ahead: {storey.name(glass)}"
    least = storey.practice.number("motion.register_clearance")
    registers = [one for one in storey.level.fixtures if one.kind == "supply_register"]
    for one in registers:
        if one.at and math.dist(one.at, device.at) < least and storey.scene.faces.face_at(*one.at) == face:
            yield f"a register is near: {storey.name(one.id)}"
            return
