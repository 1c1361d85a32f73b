"""What would mend a pane that is not covered: the smallest move of an existing detector, or a place for a new one.

Both come from the exact region of places that see the whole pane, so a move that is told does mend.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import shapely
import shapely.ops
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import TOLERANCE, GlassProof, PaneVerdict
from app.coverage.listening import Listening, listed
from app.geometry.eye import Eye
from app.geometry.pane_views import pane_views
from app.geometry.vantage import vantage_region

LONGEST_MOVE = 12.0  # ft: a longer move is another detector, not a move
_CLEARANCE = 1 / 24  # ft: half an inch inside the region, so that the crew's tape may err
_STEPS = (1.0, 0.5, 0.25)  # in: a move is said in the coarsest of these that still mends
_CANDIDATES = 3


@dataclass(frozen=True)
class Mend:
    """A move of an existing detector, in feet east and north, that would cover a pane; ``uncovers`` names the panes
    that only it covers now and would lose.
    """

    device: str
    move: tuple[float, float]
    words: str
    uncovers: tuple[str, ...] = ()


@dataclass(frozen=True)
class Mender:
    """Finds mends for the panes of one level; regions and answers are worked out once."""

    listening: Listening

    @cached_property
    def _moves(self) -> dict[int, Mend | None]:
        return {}

    def smallest_move(self, verdict: PaneVerdict) -> Mend | None:
        """The smallest move of an existing detector, within its room, that would cover a pane that is not covered.

        Panes that this detector alone covers stay covered where any such move keeps them; else those lost are named.
        """
        if verdict.pane not in self._moves:
            found = [
                mend for proof in self._near(verdict.pane) if (mend := self._move(proof, verdict.pane)) is not None
            ]
            self._moves[verdict.pane] = min(
                found, key=lambda mend: (bool(mend.uncovers), math.hypot(*mend.move)), default=None
            )
        return self._moves[verdict.pane]

    def words(self, verdict: PaneVerdict) -> str:
        """What to do about a pane that is not covered, as a sentence."""
        mend = self.smallest_move(verdict)
        if mend is not None:
            return f"To mend: {mend.words}."
        face, room = self.listening.face_of_pane(verdict.pane), self.listening.room_of_pane(verdict.pane)
        where = f" in {room}" if room else ""
        if face < 0 or self._place_for_new(verdict.pane, face):
            return f"To mend: add a detector{where}."
        return (
            f"No place on the ceiling{where} reaches all of it: mount a detector on a wall nearer to it, "
            "clear what hides it, or protect this glass in another way."
        )

    def _place_for_new(self, pane: int, face: int) -> bool:
        region = self._region_in_room(pane, face, self.listening.scene.level.ceiling, self.listening.ceiling_reach)
        return bool(region.area > _CLEARANCE**2)

    def _near(self, pane: int) -> list[GlassProof]:
        """The few detectors that a move could bring to a pane: those of its room first, then those that see some of it.

        A detector that hangs in another room and sees nothing of a pane would have to pass a wall to see all of it.
        """
        face, views = self.listening.face_of_pane(pane), self.listening.verdicts[pane].views
        near = self.listening.nearest(pane, beyond=LONGEST_MOVE)
        return [
            proof
            for proof in near
            if self.listening.face_of(proof) >= 0 and (self.listening.face_of(proof) == face or proof.device in views)
        ][:_CANDIDATES]

    def _move(self, proof: GlassProof, pane: int) -> Mend | None:
        region = self._region(pane, proof)
        if region.is_empty:
            return None
        kept, lost = self._kept.get(proof.device, []), False
        move = _shortest(proof, region)
        # The shortest move mostly keeps the other panes; only where it does not is it sought among those that do.
        if kept and move is not None and not self._keeps(proof, move, kept):
            keeping = region
            for other in kept:
                if not keeping.is_empty:
                    keeping = self._region_within(other, proof, keeping)
            lost = keeping.area < _CLEARANCE**2
            move = move if lost else _shortest(proof, keeping)
        if move is None or math.hypot(*move) > LONGEST_MOVE:
            return None
        names = [self.listening.scene.panes.name[other] for other in kept] if lost else []
        words = f"move {self.listening.name(proof.device)} {self._course(move)}"
        if names:
            words += f"; that loses {listed([self.listening.name(name) for name in names])}, so add a detector there"
        return Mend(proof.device, move, words, tuple(names))

    def _keeps(self, proof: GlassProof, move: tuple[float, float], kept: Sequence[int]) -> bool:
        """Whether a moved detector still covers some panes."""
        assert proof.eye is not None
        scene = self.listening.scene
        eye = Eye(proof.eye.x + move[0], proof.eye.y + move[1], proof.eye.z)
        seen = {view.pane: view.fraction for view in pane_views(scene.panes, scene.bodies, eye, proof.reach)}
        return all(seen.get(pane, 0.0) >= self.listening.required - TOLERANCE for pane in kept)

    @cached_property
    def _kept(self) -> dict[str, list[int]]:
        """By detector, the panes that it alone covers."""
        kept: dict[str, list[int]] = {}
        required = self.listening.required - TOLERANCE
        for verdict in self.listening.verdicts:
            able = [device for device, view in verdict.views.items() if view.fraction >= required]
            if len(able) == 1:
                kept.setdefault(able[0], []).append(verdict.pane)
        return kept

    def _region(self, pane: int, proof: GlassProof) -> BaseGeometry:
        """Where in its room a detector sees the whole of a pane."""
        assert proof.eye is not None
        return self._region_in_room(pane, self.listening.face_of(proof), proof.eye.z, proof.reach)

    def _region_in_room(self, pane: int, face: int, z: float, reach: float) -> BaseGeometry:
        asked = (pane, face, z, reach)
        if asked not in self._regions:
            scene = self.listening.scene
            self._regions[asked] = vantage_region(scene, pane, z, reach, scene.faces.floors[face])
        return self._regions[asked]

    @cached_property
    def _regions(self) -> dict[tuple[int, int, float, float], BaseGeometry]:
        return {}

    def _region_within(self, pane: int, proof: GlassProof, within: BaseGeometry) -> BaseGeometry:
        assert proof.eye is not None
        return vantage_region(self.listening.scene, pane, proof.eye.z, proof.reach, within)

    def _course(self, move: tuple[float, float]) -> str:
        parts = [
            f"{self.listening.length(abs(along))} {plus if along > 0 else minus}"
            for along, (plus, minus) in zip(move, (("east", "west"), ("north", "south")), strict=True)
            if abs(along) > 1 / 400
        ]
        return listed(parts) if parts else "by less than 1/16 in"


def _shortest(proof: GlassProof, region: BaseGeometry) -> tuple[float, float] | None:
    """The shortest move into a region, in whole inches or the coarsest parts of them that end inside it."""
    assert proof.eye is not None
    inside = shapely.buffer(region, -_CLEARANCE, quad_segs=2)
    here = shapely.Point(proof.eye.x, proof.eye.y)
    _, goal = shapely.ops.nearest_points(here, region if inside.is_empty else inside)
    dx, dy = goal.x - here.x, goal.y - here.y
    for step in _STEPS:
        options = [
            (east, north)
            for east in _either_side(dx, step / 12)
            for north in _either_side(dy, step / 12)
            if shapely.contains_xy(region, here.x + east, here.y + north)
        ]
        if options:
            return min(options, key=lambda move: math.hypot(*move))
    return (dx, dy) if shapely.contains_xy(region, goal.x, goal.y) else None


def _either_side(value: float, step: float) -> Sequence[float]:
    return sorted({math.floor(value / step) * step, math.ceil(value / step) * step})
