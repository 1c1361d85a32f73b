"""A level's glass-break detectors and one more, on trial: what is known of the others is not asked again.

The fast path of a drag; ``Listening`` made of all of them says the same.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from app.coverage.glass import GlassProof
from app.coverage.listening import Firsts, Listening, away_from
from app.geometry.bodies import BoolArray, IntArray
from app.plan.model import Device


@dataclass(frozen=True, kw_only=True)
class OneMore(Listening):
    """The ``others`` with the detector of proof ``one``, which hangs in ``face``."""

    others: Listening
    one: GlassProof
    face: int

    @classmethod
    def beside(cls, others: Listening, device: Device, proof: GlassProof, face: int) -> OneMore:
        """Some detectors and one more, the last of them, which hangs in a face."""
        return cls(
            others.scene,
            [*others.detectors, device],
            [*others.proofs, proof],
            others.verdicts,
            others.required,
            others.ceiling_reach,
            others.units,
            others.name,
            others=others,
            one=proof,
            face=face,
        )

    def proof_of(self, device: str) -> GlassProof | None:
        """The proof of a detector by its id, or None."""
        return self.one if device == self.one.device else self.others.proof_of(device)

    def is_listened_in(self, face: int) -> bool:
        """Whether a detector that is clear of solids hangs in a face."""
        return (self.one.eye is not None and face == self.face) or self.others.is_listened_in(face)

    @cached_property
    def known(self) -> dict[int, bool]:
        """Panes of which it is known already whether the one more is named before the others."""
        return {}

    def first(self, pane: int) -> GlassProof | None:
        """The detector that ``nearest`` names first for one pane."""
        if pane not in self.known:
            where = np.array([pane])
            self.known[pane] = bool(self.comes_first(where, self.others.firsts(where))[0])
        return self.one if self.known[pane] else self.others.first(pane)

    def comes_first(self, panes: IntArray, firsts: Firsts) -> BoolArray:
        """For each pane (k,) whether the one more is named before ``firsts``, those of the others; a tie is theirs."""
        eye = self.one.eye
        if eye is None:
            return np.zeros(len(panes), dtype=bool)
        away = away_from(self.scene.panes, panes, np.array([(eye.x, eye.y, eye.z)]))[:, 0]
        elsewhere = self.scene.rooms_overlooked[panes] != self.face
        comes: BoolArray = (firsts.elsewhere & ~elsewhere) | ((firsts.elsewhere == elsewhere) & (away < firsts.away))
        return comes
