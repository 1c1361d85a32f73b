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
from app.geometry.pane_views import views_of_eyes
from app.geometry.vantage import Ask, vantage_regions

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
class _Try:
    """A detector that might be moved for a pane: where in its room it would see all of it, the shortest move there."""

    pane: int
    proof: GlassProof
    eye: Eye
    region: BaseGeometry
    move: tuple[float, float]


@dataclass(frozen=True)
class Mender:
    """Finds mends for the panes of one level, for all that are not covered at once when first asked."""

    listening: Listening

    def smallest_move(self, verdict: PaneVerdict) -> Mend | None:
        """The smallest move of an existing detector, within its room, that would cover a pane that is not covered.

        Panes that this detector alone covers stay covered where any such move keeps them; else those lost are named.
        """
        return self._moves.get(verdict.pane)

    def words(self, verdict: PaneVerdict) -> str:
        """What to do about a pane that is not covered, as a sentence."""
        mend = self.smallest_move(verdict)
        if mend is not None:
            return f"To mend: {mend.words}."
        room = self.listening.room_of_pane(verdict.pane)
        where = f" in {room}" if room else ""
        if verdict.pane not in self._unreachable:
            return f"To mend: add a detector{where}."
        return (
            f"No place on the ceiling{where} reaches all of it: mount a detector on a wall nearer to it, "
            "clear what hides it, or protect this glass in another way."
        )

    @cached_property
    def _missed(self) -> list[int]:
        """The panes that are not covered."""
        return [verdict.pane for verdict in self.listening.verdicts if verdict.status != "covered"]

    @cached_property
    def _unreachable(self) -> set[int]:
        """The panes with neither a mend nor a place on the ceiling of their room for a new detector."""
        scene, reach = self.listening.scene, self.listening.ceiling_reach
        faces = {pane: self.listening.face_of_pane(pane) for pane in self._missed if pane not in self._moves}
        indoors = [(pane, face) for pane, face in faces.items() if face >= 0]
        asks = [Ask(pane, scene.level.ceiling, reach, scene.faces.floors[face]) for pane, face in indoors]
        regions = vantage_regions(scene, asks)
        return {pane for (pane, _), region in zip(indoors, regions, strict=True) if region.area <= _CLEARANCE**2}

    @cached_property
    def _moves(self) -> dict[int, Mend]:
        """The smallest move for each pane that has one."""
        tries = self._tries()
        keeping = self._keeping([one for one, keeps in zip(tries, self._keeps(tries), strict=True) if not keeps])
        found: dict[int, list[Mend]] = {}
        for one in tries:
            mend = self._mend(one, keeping.get((one.pane, one.proof.device)))
            if mend is not None:
                found.setdefault(one.pane, []).append(mend)
        return {
            pane: min(mends, key=lambda mend: (bool(mend.uncovers), math.hypot(*mend.move)))
            for pane, mends in found.items()
        }

    def _tries(self) -> list[_Try]:
        """The detectors near each missed pane that a move within their room would bring to see all of it."""
        scene = self.listening.scene
        near = [
            (pane, proof, proof.eye) for pane in self._missed for proof in self._near(pane) if proof.eye is not None
        ]
        asks = [
            Ask(pane, eye.z, proof.reach, scene.faces.floors[self.listening.face_of(proof)])
            for pane, proof, eye in near
        ]
        return [
            _Try(pane, proof, eye, region, move)
            for (pane, proof, eye), region in zip(near, vantage_regions(scene, asks), strict=True)
            if not region.is_empty and (move := _shortest(eye, region)) is not None
        ]

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

    def _keeps(self, tries: Sequence[_Try]) -> list[bool]:
        """Whether each moved detector still covers the panes that it alone covers."""
        scene, required = self.listening.scene, self.listening.required - TOLERANCE
        moved = [Eye(one.eye.x + one.move[0], one.eye.y + one.move[1], one.eye.z) for one in tries]
        views = views_of_eyes(scene.panes, scene.bodies, moved, [one.proof.reach for one in tries])
        keeps = []
        for one, seen in zip(tries, views, strict=True):
            fractions = {view.pane: view.fraction for view in seen}
            keeps.append(all(fractions.get(pane, 0.0) >= required for pane in self._kept.get(one.proof.device, ())))
        return keeps

    def _keeping(self, tries: Sequence[_Try]) -> dict[tuple[int, str], BaseGeometry]:
        """By pane and detector of some tries, the part of their regions that also sees the panes to be kept."""
        wanted = [(one, other) for one in tries for other in self._kept[one.proof.device]]
        asks = [Ask(other, one.eye.z, one.proof.reach, one.region) for one, other in wanted]
        found: dict[tuple[int, str], list[BaseGeometry]] = {}
        for (one, _), region in zip(wanted, vantage_regions(self.listening.scene, asks), strict=True):
            found.setdefault((one.pane, one.proof.device), []).append(region)
        return {name: shapely.intersection_all(regions) for name, regions in found.items()}

    def _mend(self, one: _Try, keeping: BaseGeometry | None) -> Mend | None:
        """The mend by one try; ``keeping`` is where it keeps its other panes, if its shortest move does not."""
        move: tuple[float, float] | None = one.move
        names: list[str] = []
        if keeping is not None and keeping.area >= _CLEARANCE**2:
            move = _shortest(one.eye, keeping)
        elif keeping is not None:
            names = [self.listening.scene.panes.name[other] for other in self._kept[one.proof.device]]
        if move is None or math.hypot(*move) > LONGEST_MOVE:
            return None
        words = f"move {self.listening.name(one.proof.device)} {self._course(move)}"
        if names:
            words += f"; that loses {listed([self.listening.name(name) for name in names])}, so add a detector there"
        return Mend(one.proof.device, move, words, tuple(names))

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

    def _course(self, move: tuple[float, float]) -> str:
        parts = [
            f"{self.listening.length(abs(along))} {plus if along > 0 else minus}"
            for along, (plus, minus) in zip(move, (("east", "west"), ("north", "south")), strict=True)
            if abs(along) > 1 / 400
        ]
        return listed(parts) if parts else "by less than 1/16 in"


def _shortest(eye: Eye, region: BaseGeometry) -> tuple[float, float] | None:
    """The shortest move into a region, in whole inches or the coarsest parts of them that end inside it."""
    inside = shapely.buffer(region, -_CLEARANCE, quad_segs=2)
    here = shapely.Point(eye.x, eye.y)
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
