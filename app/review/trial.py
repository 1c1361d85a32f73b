"""The drag call: how a level's panes would stand with one device moved, changed or added; nothing is stored.

The bench keeps the level's scene, proofs and answers; a trial recomputes the one device and the panes it touches.
"""

from __future__ import annotations

from functools import cached_property
from typing import Any

from app.coverage.glass import GlassProof, judge_pane, prove_glass
from app.coverage.motion import MotionProof, prove_motion
from app.geometry.shadows import PaneView
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
            touched |= set(proof.views)
        # A pane that nothing reaches may be spoken of by the moved detector: its sentence is made anew.
        touched |= {
            verdict.pane for verdict in storey.verdicts if verdict.best is None and self._speaks(verdict.pane, proofs)
        }
        detectors = [other for other in storey.devices("glass_break") if other.id != device.id]
        if device.kind == "glass_break":
            detectors.append(device)
        listening = storey.listening_by(detectors, proofs)
        required = storey.practice.number("glass.required_fraction")
        answers = list(self.panes)
        for pane in touched:
            reached = {other: view for other, view in self._views[pane].items() if other != device.id}
            if pane in views:
                reached[device.id] = views[pane]
            answers[pane] = pane_answer(storey, judge_pane(pane, reached, required), listening, None)
        return answers

    def _speaks(self, pane: int, proofs: list[GlassProof]) -> bool:
        """Whether a pane out of every reach is near enough to the moved detector for its sentence to change."""
        eye = proofs[-1].eye if proofs else None
        if eye is None:
            return not proofs
        x, y = self.storey.scene.panes.ends[pane].mean(axis=0)
        return bool(abs(x - eye.x) < 2 * proofs[-1].reach and abs(y - eye.y) < 2 * proofs[-1].reach)

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
