"""The drag call: how a level's panes would stand with one device moved, changed or added; nothing is stored.

The bench keeps the level's scene, proofs and answers; a trial recomputes the one device and the panes it touches.
"""

from __future__ import annotations

from functools import cached_property
from typing import Any

import numpy as np

from app.coverage.glass import judge_pane, prove_glass
from app.coverage.listening import Listening
from app.coverage.motion import MotionProof, prove_motion
from app.geometry.bodies import FloatArray, IntArray
from app.geometry.pane_views import PaneView
from app.plan.model import Device, Plan
from app.review.check import Answer, motion_answer, pane_answer, room_answers
from app.review.house import House, Storey


class TrialBench:
    """A plan made ready for many trials."""

    def __init__(self, plan: Plan) -> None:
        self.house = House(plan)
        self._levels: dict[str, LevelBench] = {}

    def level(self, level_id: str) -> LevelBench:
        """The bench of one level; raises ``KeyError`` where there is no such level."""
        if level_id not in self._levels:
            self._levels[level_id] = LevelBench(self.house.storeys[level_id])
        return self._levels[level_id]

    def answer(self, level_id: str, device: Device) -> dict[str, Any]:
        """The level's ``panes``, ``motions`` and ``rooms`` as they would be with the device in place."""
        return self.level(level_id).answer(device)

    def touched(self, level_id: str, device: Device) -> dict[str, Any]:
        """Of the same answer what differs from the plan as it stands."""
        return self.level(level_id).touched(device)


class LevelBench:
    """One level made ready: its stored answers, and the views of every pane."""

    def __init__(self, storey: Storey) -> None:
        self.storey = storey
        self._views: list[dict[str, PaneView]] = [verdict.views for verdict in storey.verdicts]

    @cached_property
    def panes(self) -> list[Answer]:
        """The panes as they stand in the plan."""
        return [pane_answer(self.storey, verdict, self.storey.listening, None) for verdict in self.storey.verdicts]

    @cached_property
    def motions(self) -> list[Answer]:
        """The motion detectors as they stand in the plan."""
        return [motion_answer(self.storey, proof) for proof in self.storey.motions]

    @cached_property
    def rooms(self) -> list[Answer]:
        """The rooms as they stand in the plan."""
        return room_answers(self.storey, self.storey.motions)

    def answer(self, device: Device) -> dict[str, Any]:
        """The level's panes, motions and rooms with one device moved, changed or added."""
        panes, motions, rooms = self.panes, self.motions, self.rooms
        was = next((other.kind for other in self.storey.level.devices if other.id == device.id), None)
        if "glass_break" in (was, device.kind):
            panes = self._panes_with(device)
        if "motion" in (was, device.kind):
            proofs = self._motions_with(device)
            motions = [self._motion_answer(proof) for proof in proofs]
            rooms = room_answers(self.storey, proofs)
        return {"panes": panes, "motions": motions, "rooms": rooms}

    def touched(self, device: Device) -> dict[str, Any]:
        """Of the same answer the panes, motions and rooms that differ from those of the plan as it stands."""
        standing = {"panes": self.panes, "motions": self.motions, "rooms": self.rooms}
        return {kind: _differing(standing[kind], answers) for kind, answers in self.answer(device).items()}

    def _panes_with(self, device: Device) -> list[Answer]:
        storey = self.storey
        proofs = [proof for proof in storey.glass if proof.device != device.id]
        touched = {
            pane
            for proof in storey.glass
            if proof.device == device.id
            for pane, view in proof.views.items()
            if view.fraction
        }
        views: dict[int, PaneView] = {}
        if device.kind == "glass_break":
            proof = prove_glass(storey.scene, device, storey.practice)
            proofs.append(proof)
            views = {pane: view for pane, view in proof.views.items() if view.fraction > 0}
            touched |= set(views)
        detectors = [other for other in storey.devices("glass_break") if other.id != device.id]
        if device.kind == "glass_break":
            detectors.append(device)
        hung = {other: face for other, face in storey.listening.faces.items() if other != device.id}
        listening = storey.listening_by(detectors, proofs, hung)
        touched |= self._told_of(device.id, listening)
        required = storey.practice.number("glass.required_fraction")
        answers = list(self.panes)
        for pane in touched:
            reached = {other: view for other, view in self._views[pane].items() if other != device.id}
            if pane in views:
                reached[device.id] = views[pane]
            answers[pane] = pane_answer(storey, judge_pane(pane, reached, required), listening, None)
        return answers

    def _told_of(self, device: str, listening: Listening) -> set[int]:
        """Uncovered panes whose sentence speaks, before or after, of the moved detector, or may (slivers are rare).

        Panes farther off than twice its range keep their sentence until the next check.
        """
        before, after = self.storey.listening, listening
        told: set[int] = set()
        for there in (before, after):
            proof = there.proof_by_id.get(device)
            if proof is None or proof.eye is None:
                continue
            away = np.abs(self._unreached_middles - (proof.eye.x, proof.eye.y)).max(axis=1)
            for pane in self._unreached[away < 2 * proof.reach].tolist():
                if self.storey.verdicts[pane].best is not None or there.nearest(pane)[0].device == device:
                    told.add(pane)
        return told

    @cached_property
    def _unreached(self) -> IntArray:
        """The panes of which no detector reaches more than a sliver."""
        verdicts = self.storey.verdicts
        return np.array([verdict.pane for verdict in verdicts if verdict.status == "uncovered"], dtype=np.int64)

    @cached_property
    def _unreached_middles(self) -> FloatArray:
        middles: FloatArray = self.storey.scene.panes.ends[self._unreached].mean(axis=1)
        return middles

    def _motions_with(self, device: Device) -> list[MotionProof]:
        storey = self.storey
        fresh = prove_motion(storey.scene, storey.ground, device, storey.practice) if device.kind == "motion" else None
        proofs = [fresh if proof.device == device.id else proof for proof in storey.motions]
        if fresh is not None and all(proof is not fresh for proof in proofs):
            proofs.append(fresh)
        return [proof for proof in proofs if proof is not None]

    def _motion_answer(self, proof: MotionProof) -> Answer:
        """A detector's answer, made anew only where its proof is not the stored one."""
        for answer, stored in zip(self.motions, self.storey.motions, strict=True):
            if proof is stored:
                return answer
        return motion_answer(self.storey, proof)


def _differing(standing: list[Answer], answers: list[Answer]) -> list[Answer]:
    """The answers that are not among those that stand."""
    if answers is standing:
        return []
    known = {answer["id"]: answer for answer in standing}
    # What a trial leaves alone is the very same object, which is told at once.
    return [answer for answer in answers if (was := known.get(answer["id"])) is not answer and was != answer]
