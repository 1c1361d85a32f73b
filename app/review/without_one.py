"""How a level's panes stand without one of its glass-break detectors: what a drag of that detector falls back on.

Whatever the detector does elsewhere, these answers stay, so they are worked out once a drag and not once a position.
"""

from __future__ import annotations

from functools import cached_property

import numpy as np

from app.coverage.glass import TOLERANCE, PaneVerdict, judge_pane
from app.coverage.listening import Firsts, Listening
from app.geometry.bodies import FloatArray, IntArray
from app.review.check import Answer, judged_anew
from app.review.house import Storey


class WithoutOne:
    """One level less the detector ``device``, or as it stands where it has no detector of that id."""

    def __init__(self, storey: Storey, standing: list[Answer], device: str) -> None:
        self.storey = storey
        self.device = device
        self._standing = standing
        self._answers: dict[int, Answer] = {}
        self._verdicts: dict[int, PaneVerdict] = {}
        self._firsts: dict[int, tuple[int, float, bool]] = {}
        self._last_face = -1

    @cached_property
    def listening(self) -> Listening:
        """The other detectors."""
        storey, device = self.storey, self.device
        return storey.listening_by(
            [other for other in storey.devices("glass_break") if other.id != device],
            [proof for proof in storey.glass if proof.device != device],
            {other: face for other, face in storey.listening.faces.items() if other != device},
        )

    def face_at(self, x: float, y: float) -> int:
        """The face that holds a place, −1 where none does: mostly the one that held the last place."""
        faces = self.storey.scene.faces
        if self._last_face < 0 or not faces.is_clear_within(self._last_face, x, y):
            self._last_face = faces.face_at(x, y)
        return self._last_face

    @cached_property
    def touched(self) -> frozenset[int]:
        """The panes whose answer says something of the detector where the plan has it."""
        proof = self.storey.listening.proof_of(self.device)
        if proof is None:
            return frozenset()
        touched = {pane for pane, view in proof.views.items() if view.fraction}
        touched |= {pane for pane, spoken in self.storey.listening.spoken_of.items() if spoken is proof}
        if proof.eye is not None:
            near = self.unreached_about(proof.eye.x, proof.eye.y, 2 * proof.reach).tolist()
            touched |= {pane for pane in near if self.storey.verdicts[pane].best is not None}
        return frozenset(touched)

    def unreached_about(self, x: float, y: float, within: float) -> IntArray:
        """The panes, in a square about a place, of which no detector of the plan reaches more than a sliver."""
        near: IntArray = self._unreached[np.abs(self._unreached_middles - (x, y)).max(axis=1) < within]
        return near

    def unreached_in(self, face: int) -> IntArray:
        """The panes that open to a face, of which no detector of the plan reaches more than a sliver."""
        within: IntArray = self._unreached[self._unreached_faces == face]
        return within

    def verdict(self, pane: int) -> PaneVerdict:
        """How a pane stands by the others."""
        if pane not in self._verdicts:
            views = {other: view for other, view in self.storey.verdicts[pane].views.items() if other != self.device}
            required = self.storey.practice.number("glass.required_fraction")
            self._verdicts[pane] = judge_pane(pane, views, required)
        return self._verdicts[pane]

    def answer(self, pane: int) -> Answer:
        """The answer for a pane that the others alone are spoken of."""
        if pane not in self._answers:
            self._answers[pane] = judged_anew(self._standing[pane], self.storey, self.verdict(pane), self.listening)
        return self._answers[pane]

    def is_sliver(self, pane: int) -> bool:
        """Whether the others reach no more than a sliver of a pane: then one more in its room changes what is said."""
        best = self.verdict(pane).best
        return best is not None and self.verdict(pane).views[best].fraction <= TOLERANCE

    def firsts(self, panes: IntArray) -> Firsts:
        """As ``Listening.firsts`` of the others, each pane asked about once."""
        unknown = np.array([pane for pane in panes.tolist() if pane not in self._firsts], dtype=np.int64)
        if len(unknown):
            columns = (column.tolist() for column in self.listening.firsts(unknown))
            self._firsts.update(zip(unknown.tolist(), zip(*columns, strict=True), strict=True))
        known = [self._firsts[pane] for pane in panes.tolist()]
        return Firsts(*(np.array(column) for column in zip(*known, strict=True))) if known else Firsts.nobody(0)

    @cached_property
    def _unreached(self) -> IntArray:
        verdicts = self.storey.verdicts
        return np.array([verdict.pane for verdict in verdicts if verdict.status == "uncovered"], dtype=np.int64)

    @cached_property
    def _unreached_faces(self) -> IntArray:
        faces: IntArray = self.storey.scene.rooms_overlooked[self._unreached]
        return faces

    @cached_property
    def _unreached_middles(self) -> FloatArray:
        middles: FloatArray = self.storey.scene.panes.ends[self._unreached].mean(axis=1)
        return middles
