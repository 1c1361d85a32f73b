"""The drag call: how a level's panes would stand with one device moved, changed or added; nothing is stored.

The bench keeps the level's scene, proofs and answers; a trial recomputes the one device and the panes it touches.
"""

from __future__ import annotations

from functools import cached_property
from itertools import zip_longest
from typing import Any

import numpy as np

from app.coverage.glass import PaneVerdict, judge_pane, prove_glass
from app.coverage.motion import MotionProof, prove_motion
from app.coverage.one_more import OneMore
from app.coverage.why import find_what_hides
from app.plan.model import Device, Plan
from app.review.check import Answer, judged_anew, motion_answer, pane_answer, room_answers
from app.review.house import House, Storey
from app.review.without_one import WithoutOne

_MOST_KEPT = 16


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
    """One level made ready: its stored answers, and what drags of its detectors fall back on."""

    def __init__(self, storey: Storey) -> None:
        self.storey = storey
        self._less: dict[str, WithoutOne] = {}

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
        """The level's panes with the device; those that it changes nothing for are the very same objects."""
        kept, storey = self._without(device.id), self.storey
        answers = list(self.panes)
        for pane in kept.touched:
            answers[pane] = kept.answer(pane)
        if device.kind != "glass_break":
            return answers
        proof = prove_glass(storey.scene, device, storey.practice)
        listening = OneMore.beside(kept.listening, device, proof, kept.face_at(*device.at))
        required = storey.practice.number("glass.required_fraction")
        verdicts: list[PaneVerdict] = []
        for pane in self._spoken_of(kept, listening):
            verdict = kept.verdict(pane)
            view = proof.views.get(pane)
            if view is not None and view.fraction > 0:
                verdict = judge_pane(pane, {**verdict.views, device.id: view}, required)
            verdicts.append(verdict)
        find_what_hides(listening, verdicts)
        for verdict in verdicts:
            answers[verdict.pane] = judged_anew(self.panes[verdict.pane], storey, verdict, listening)
        return answers

    def _spoken_of(self, kept: WithoutOne, listening: OneMore) -> set[int]:
        """The panes whose answer says something of a detector on trial, or may.

        Panes of other rooms, farther off than twice its range, keep a sentence that speaks of another until the next
        check.
        """
        proof = listening.one
        seen = {pane for pane, view in proof.views.items() if view.fraction > 0}
        if not kept.listening.proofs and proof.eye is None:
            return seen | kept.touched
        near: set[int] = set(kept.touched)
        if proof.eye is not None:
            about = kept.unreached_about(proof.eye.x, proof.eye.y, 2 * proof.reach).tolist()
            seen |= {pane for pane in about if self.storey.verdicts[pane].best is not None}
            near |= {*about, *kept.unreached_in(listening.face).tolist()}
        others = np.array(sorted(near - seen), dtype=np.int64)
        first = listening.comes_first(others, kept.firsts(others)).tolist()
        listening.known.update(zip(others.tolist(), first, strict=True))
        return seen | {
            pane
            for pane, comes in listening.known.items()
            if (comes and kept.verdict(pane).best is None) or kept.is_sliver(pane)
        }

    def _without(self, device: str) -> WithoutOne:
        """The level without a detector, kept for the drags of the last few."""
        kept = self._less.pop(device, None) or WithoutOne(self.storey, self.panes, device)
        self._less[device] = kept
        while len(self._less) > _MOST_KEPT:
            self._less.pop(next(iter(self._less)))
        return kept

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
    # What a trial leaves alone is the very same object, mostly at the very same place, which is told at once.
    anew = [answer for answer, was in zip_longest(answers, standing[: len(answers)]) if answer is not was]
    known = {answer["id"]: answer for answer in standing} if anew else {}
    return [answer for answer in anew if known.get(answer["id"]) != answer]
