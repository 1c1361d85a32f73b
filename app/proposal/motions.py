"""A motion detector in the best inside corner of each gathering room that is not watched well enough.

Every inside corner of the floor is tried along its bisector, and turned off it where glass lies straight ahead; the
corner that watches most of the floor wins, less what such glass and a register nearby take off.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from app.coverage.motion import MotionProof, prove_motion, watched_share
from app.plan.model import Device, Room
from app.plan.room_uses import GATHERING, use_of
from app.proposal.inside_corners import InsideCorners
from app.proposal.proposals import Numbering, Proposal, below_ceiling, sentence
from app.review.house import House, Storey
from app.review.rules.motions import glass_on_axis

_TURNS = (10.0, -10.0, 20.0, -20.0)  # degrees off the bisector
_GLASS_AHEAD, _REGISTER_NEAR = 0.25, 0.15  # shares of the floor that a fault is worth
_MOST_IN_A_ROOM = 3
_LEAST_GAIN = 0.1  # share of the floor that a further detector must add


@dataclass(frozen=True)
class _Choice:
    """A detector in a corner, the watched share of the floor with it, and what is less than good there."""

    device: Device
    proof: MotionProof
    share: float
    glass: str | None
    register: str | None

    @property
    def score(self) -> tuple[float, float]:
        """What choices are compared by."""
        worth = self.share - _GLASS_AHEAD * (self.glass is not None) - _REGISTER_NEAR * (self.register is not None)
        return round(worth, 6), self.share

    @property
    def words(self) -> str:
        """What to know of the corner."""
        glass = [f"no corner looks past the glass of {self.glass}"] if self.glass else []
        register = [f"{self.register} is near"] if self.register else []
        return f" ({'; '.join(glass + register)})" if glass or register else ""


def propose_motions(house: House, numbering: Numbering) -> list[Proposal]:
    """Motion detectors for the gathering rooms of which too little is watched."""
    found: list[Proposal] = []
    for storey in house:
        usual = storey.practice.number("motion.height")
        lowered = below_ceiling(storey, usual)
        corners = InsideCorners(storey.scene, usual if lowered is None else lowered)
        for room in storey.level.rooms:
            if use_of(room) in GATHERING and storey.scene.face_of_room[room.id] >= 0:
                found += _for_room(storey, corners, room, numbering)
    return found


def _for_room(storey: Storey, corners: InsideCorners, room: Room, numbering: Numbering) -> Iterator[Proposal]:
    face = storey.scene.face_of_room[room.id]
    asked = storey.practice.number("motion.gathering_share")
    proofs = list(storey.motions)
    share = watched_share(storey.ground, face, proofs)
    for _ in range(_MOST_IN_A_ROOM):
        if share >= asked:
            return
        best = max(_choices(storey, corners, face, proofs), key=lambda choice: choice.score, default=None)
        if best is None or best.share < share + _LEAST_GAIN:
            return
        proofs.append(best.proof)
        before = "" if share == 0 else f", of which {share:.0%} was watched"
        share = best.share
        yield Proposal(
            storey.level.id,
            best.device.model_copy(update={"id": numbering.next("motion")}),
            f"{sentence(storey.name(room.id))} is a gathering room{before}: with this corner {share:.0%} of its floor "
            f"is watched{best.words}.",
        )


def _choices(storey: Storey, corners: InsideCorners, face: int, proofs: list[MotionProof]) -> Iterator[_Choice]:
    """Every corner of a face along its bisector, and turned off it where glass lies straight ahead."""
    most = storey.practice.number("motion.off_bisector")
    for at, bisector in corners.of_face(face):
        straight = _choice(storey, face, proofs, at, bisector)
        if straight is None:
            continue
        yield straight
        for turn in _TURNS if straight.glass else ():
            if abs(turn) <= most:
                turned = _choice(storey, face, proofs, at, bisector + turn)
                if turned is not None and turned.glass is None:
                    yield turned


def _choice(
    storey: Storey,
    face: int,
    proofs: list[MotionProof],
    at: tuple[float, float],
    facing: float,
) -> _Choice | None:
    height = below_ceiling(storey, storey.practice.number("motion.height"))
    device = Device(id="trial", kind="motion", at=at, height=height, facing=round(facing % 360, 2))
    proof = prove_motion(storey.scene, storey.ground, device, storey.practice)
    if proof.inside is not None:
        return None
    glass = glass_on_axis(storey, device)
    return _Choice(
        device,
        proof,
        watched_share(storey.ground, face, [*proofs, proof]),
        None if glass is None else storey.name(glass),
        _register_near(storey, face, at),
    )


def _register_near(storey: Storey, face: int, at: tuple[float, float]) -> str | None:
    """The name of a supply register of the same room that is too near to a spot."""
    least = storey.practice.number("motion.register_clearance")
    near = [
        one.id
        for one in storey.level.fixtures
        if one.kind == "supply_register" and one.at is not None and math.dist(one.at, at) < least
        if storey.scene.faces.face_at(*one.at) == face
    ]
    return storey.name(near[0]) if near else None
