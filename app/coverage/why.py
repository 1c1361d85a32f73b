"""Why a pane stands as it does, worked out: too far and by how much, hidden by what, nobody in the room.

Also the smallest move of an existing detector that would mend it, from the exact region of places that see the pane.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
import shapely
import shapely.ops
from shapely.geometry.base import BaseGeometry

from app.coverage.glass import TOLERANCE, GlassProof, PaneVerdict
from app.geometry.eye import Eye
from app.geometry.scene import LevelScene
from app.geometry.shadows import blockers_of
from app.geometry.vantage import vantage_region
from app.plan.measures import length_text
from app.plan.model import Device

LONGEST_MOVE = 12.0  # ft: a longer move is another detector, not a move
_CLEARANCE = 1 / 24  # ft: half an inch inside the region, so that the crew's tape may err
_MOVE_STEPS = (1.0, 0.5, 0.25, 0.0)  # in: a move is said in the coarsest of these that still mends


@dataclass(frozen=True)
class Mend:
    """A move of an existing detector, in feet east and north, that would cover a pane; ``words`` say it."""

    device: str
    move: tuple[float, float]
    words: str
    also_uncovers: tuple[str, ...] = ()


@dataclass(frozen=True)
class Explainer:
    """Explains the panes of one level from the proofs of its detectors; ``names`` gives a thing's words by its id."""

    scene: LevelScene
    detectors: Sequence[Device]
    proofs: Sequence[GlassProof]
    verdicts: Sequence[PaneVerdict]
    units: str
    required: float
    names: Callable[[str], str]

    def why(self, verdict: PaneVerdict) -> str:
        """One sentence on how the pane stands."""
        proof = self._proof_to_speak_of(verdict)
        if proof is None:
            if not self.proofs:
                return "Nobody listens: there is no glass-break detector on this level."
            return "Nobody listens: every glass-break detector of this level lies inside a solid body."
        name = self.names(proof.device)
        if verdict.status == "covered":
            far = self._length(verdict.views[proof.device].farthest)
            return f"{name} covers it; its farthest point is {far} away, limit {self._length(proof.reach)}."
        reasons = " and ".join(self._reasons(verdict.pane, proof))
        view = verdict.views.get(proof.device)
        if view is not None and view.fraction > TOLERANCE:
            return f"{name} covers {_percent(view.fraction)} of it: {reasons}."
        room = self._room_of_pane(verdict.pane)
        here = [one for one in self.proofs if one.eye and self._face_of(one) == self._face_of_pane(verdict.pane)]
        alone = f"Nobody in {room}: the nearest, {name}," if not here and room else name
        return f"{alone} covers none of it: {reasons}."

    def _reasons(self, pane: int, proof: GlassProof) -> Iterator[str]:
        assert proof.eye is not None
        view = proof.views.get(pane)
        if view is not None and view.edge_on:
            yield "it lies in the plane of the glass and sees it edge-on"
            return
        far, near = self._distances(pane, proof.eye)
        if far > proof.reach + 1e-9:
            part = "even its nearest point" if near >= proof.reach else "its farthest point"
            over = self._length((near if near >= proof.reach else far) - proof.reach)
            yield f"{part} is {over} beyond the {self._length(proof.reach)} range"
        hiders = self._hiders(pane, proof.eye, proof.reach)
        if hiders:
            hidden = "it is hidden" if view is None or view.fraction <= TOLERANCE else "part is hidden"
            yield f"{hidden} by {_listed(hiders)}"

    def _hiders(self, pane: int, eye: Eye, reach: float) -> list[str]:
        """The names of the one to three things that hide most of the pane, the greatest first."""
        shares = blockers_of(self.scene.panes, self.scene.bodies, pane, eye, max(reach, self._distances(pane, eye)[0]))
        told: list[str] = []
        for owner, share in sorted(shares.items(), key=lambda entry: (-entry[1], entry[0])):
            if share <= TOLERANCE or len(told) == 3 or (told and share < 0.05):
                break
            if (name := self.names(owner)) not in told:
                told.append(name)
            if share >= 1 - TOLERANCE:
                break
        return told

    def _distances(self, pane: int, eye: Eye) -> tuple[float, float]:
        """Distance from an eye to a pane's farthest corner and to its nearest point, in feet."""
        panes = self.scene.panes
        offset = np.array([eye.x, eye.y]) - panes.origin[pane]
        u = float(offset @ panes.direction[pane])
        h = float(panes.direction[pane][0] * offset[1] - panes.direction[pane][1] * offset[0])
        width, sill, head = float(panes.width[pane]), float(panes.sill[pane]), float(panes.head[pane])
        far = math.hypot(max(abs(u), abs(u - width)), h, max(abs(sill - eye.z), abs(head - eye.z)))
        near = math.hypot(max(0.0, -u, u - width), h, max(0.0, sill - eye.z, eye.z - head))
        return far, near

    def _proof_to_speak_of(self, verdict: PaneVerdict) -> GlassProof | None:
        """The best detector, else the nearest of the pane's room, else the nearest."""
        if verdict.best is not None:
            return self._proof_by_id[verdict.best]
        placed = [proof for proof in self.proofs if proof.eye is not None]
        face = self._face_of_pane(verdict.pane)
        return min(
            placed,
            key=lambda one: (
                (self._face_of(one) != face, self._distances(verdict.pane, one.eye)[1]) if one.eye else (1, 0)
            ),
            default=None,
        )

    @cached_property
    def _proof_by_id(self) -> dict[str, GlassProof]:
        return {proof.device: proof for proof in self.proofs}

    @cached_property
    def _faces(self) -> dict[str, int]:
        points = np.array([device.at for device in self.detectors]).reshape(-1, 2)
        faces = self.scene.faces.holding(points)
        return {device.id: int(face) for device, face in zip(self.detectors, faces, strict=True)}

    def _face_of(self, proof: GlassProof) -> int:
        return self._faces[proof.device]

    def _face_of_pane(self, pane: int) -> int:
        return int(self.scene.rooms_overlooked[pane])

    def _room_of_pane(self, pane: int) -> str | None:
        room = self.scene.room_of_face.get(self._face_of_pane(pane))
        return None if room is None else self.names(room)

    def _length(self, feet: float) -> str:
        return length_text(feet, self.units)

    # The smallest move.

    def mend(self, verdict: PaneVerdict) -> Mend | None:
        """The smallest move of an existing detector, within its room, that would cover a pane that is not covered.

        Panes that the detector alone covers stay covered where any such move exists; else those lost are named.
        """
        found: list[tuple[int, float, Mend]] = []
        for proof in self._neighbours(verdict.pane):
            kept = self._kept_by(proof)
            region = self._region(verdict.pane, proof)
            if region.is_empty:
                continue
            keeping = region
            for pane in kept:
                keeping = shapely.intersection(keeping, self._region(pane, proof))
            lost: tuple[str, ...] = ()
            if keeping.is_empty or keeping.area < _CLEARANCE**2:
                lost = tuple(self.scene.panes.name[pane] for pane in kept)
                keeping = region
            move = self._smallest_move(proof, keeping)
            if move is None or math.hypot(*move) > LONGEST_MOVE:
                continue
            words = f"move {self.names(proof.device)} {self._course(move)}"
            if lost:
                words += f" (and see again to {_listed([self.names(pane) for pane in lost])})"
            found.append((bool(lost), math.hypot(*move), Mend(proof.device, move, words, lost)))
        return min(found, key=lambda entry: entry[:2])[2] if found else None

    def _neighbours(self, pane: int) -> list[GlassProof]:
        """The detectors that a pane could be covered by after a move: those of its room, else those within reach."""
        face = self._face_of_pane(pane)
        placed = [(proof, self._distances(pane, proof.eye)[1]) for proof in self.proofs if proof.eye is not None]
        close = [
            (proof, away) for proof, away in placed if away < proof.reach + LONGEST_MOVE and self._face_of(proof) >= 0
        ]
        close.sort(key=lambda entry: (self._face_of(entry[0]) != face, entry[1]))
        return [proof for proof, _ in close[:3]]

    @cached_property
    def _kept(self) -> dict[str, list[int]]:
        kept: dict[str, list[int]] = {}
        for verdict in self.verdicts:
            if verdict.status != "covered":
                continue
            able = [device for device, view in verdict.views.items() if view.fraction >= self.required - TOLERANCE]
            if len(able) == 1:
                kept.setdefault(able[0], []).append(verdict.pane)
        return kept

    def _kept_by(self, proof: GlassProof) -> list[int]:
        return self._kept.get(proof.device, [])

    @cached_property
    def _regions(self) -> dict[tuple[int, str], BaseGeometry]:
        return {}

    def _region(self, pane: int, proof: GlassProof) -> BaseGeometry:
        assert proof.eye is not None
        if (pane, proof.device) not in self._regions:
            floor = self.scene.faces.floors[self._face_of(proof)]
            region = vantage_region(self.scene, pane, proof.eye.z, proof.reach, floor)
            self._regions[pane, proof.device] = region
        return self._regions[pane, proof.device]

    def _smallest_move(self, proof: GlassProof, region: BaseGeometry) -> tuple[float, float] | None:
        assert proof.eye is not None
        inside = shapely.buffer(region, -_CLEARANCE, quad_segs=2)
        if inside.is_empty:
            inside = region
        here = shapely.Point(proof.eye.x, proof.eye.y)
        _, goal = shapely.ops.nearest_points(here, inside)
        dx, dy = goal.x - here.x, goal.y - here.y
        shapely.prepare(region)
        for step in _MOVE_STEPS:
            if step == 0.0:
                return (dx, dy)
            options = [
                (east, north)
                for east in _rounded(dx, step / 12)
                for north in _rounded(dy, step / 12)
                if shapely.contains_xy(region, here.x + east, here.y + north)
            ]
            if options:
                return min(options, key=lambda move: math.hypot(*move))
        return None

    def _course(self, move: tuple[float, float]) -> str:
        parts = []
        for along, (plus, minus) in zip(move, (("east", "west"), ("north", "south")), strict=True):
            if abs(along) > 1 / 400:
                parts.append(f"{self._length(abs(along))} {plus if along > 0 else minus}")
        return " and ".join(parts) or "by less than 1/16 in"


def _rounded(value: float, step: float) -> set[float]:
    return {math.floor(value / step) * step, math.ceil(value / step) * step}


def _percent(share: float) -> str:
    return f"{min(99.9, share * 100):.0f} %" if share < 0.99 else f"{min(99.9, share * 100):.1f} %"


def _listed(words: Sequence[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
