"""The detectors of a level as they stand, for what is said of panes: who is near, how far, in which room.

``why`` says how a pane stands by them, ``mend`` which of them to move.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

import numpy as np

from app.coverage.glass import GlassProof, PaneVerdict
from app.geometry.bodies import BoolArray, FloatArray, IntArray
from app.geometry.eye import Eye
from app.geometry.panes import Panes
from app.geometry.scene import LevelScene
from app.plan.measures import length_text
from app.plan.model import Device


@dataclass(frozen=True)
class Listening:
    """The glass-break detectors of a level, their proofs and the panes' verdicts; ``name`` gives a thing's words."""

    scene: LevelScene
    detectors: Sequence[Device]
    proofs: Sequence[GlassProof]
    verdicts: Sequence[PaneVerdict]
    required: float
    ceiling_reach: float
    units: str
    name: Callable[[str], str]
    hung: Mapping[str, int] = field(default_factory=dict)  # faces of detectors that are known already, by id

    @cached_property
    def told(self) -> dict[int, str]:
        """What was said of panes already: a pane's answer and its finding say the same."""
        return {}

    @cached_property
    def spoken_of(self) -> dict[int, GlassProof | None]:
        """The detector that a pane's sentence speaks of, where it was looked for already."""
        return {}

    @cached_property
    def blocked(self) -> dict[int, dict[str, float]]:
        """What hides panes from the detector that is spoken of, found for many at once: shares by thing."""
        return {}

    @cached_property
    def _proof_by_id(self) -> dict[str, GlassProof]:
        return {proof.device: proof for proof in self.proofs}

    def proof_of(self, device: str) -> GlassProof | None:
        """The proof of a detector by its id, or None."""
        return self._proof_by_id.get(device)

    @cached_property
    def faces(self) -> dict[str, int]:
        """The face in which each detector hangs, by its id; −1 where it hangs in none."""
        unknown = [device for device in self.detectors if device.id not in self.hung]
        found = self.scene.faces.holding(np.array([device.at for device in unknown]).reshape(-1, 2))
        return {**self.hung, **dict(zip((device.id for device in unknown), found.tolist(), strict=True))}

    def face_of(self, proof: GlassProof) -> int:
        """The face in which a detector hangs, −1 where it hangs in none."""
        return self.faces[proof.device]

    def face_of_pane(self, pane: int) -> int:
        """The face that a pane opens to."""
        return int(self.scene.rooms_overlooked[pane])

    def room_of_pane(self, pane: int) -> str | None:
        """The name of the room that a pane opens to, or None."""
        room = self.scene.room_of_face.get(self.face_of_pane(pane))
        return None if room is None else self.name(room)

    @cached_property
    def _placed(self) -> tuple[list[GlassProof], FloatArray, IntArray]:
        """The proofs whose detectors are clear of solids, their eyes and reaches (n, 4), their faces (n,)."""
        placed = [(proof, proof.eye) for proof in self.proofs if proof.eye is not None]
        eyes = np.array([(eye.x, eye.y, eye.z, proof.reach) for proof, eye in placed]).reshape(-1, 4)
        faces = np.array([self.face_of(proof) for proof, _ in placed], dtype=np.int64)
        return [proof for proof, _ in placed], eyes, faces

    def nearest(self, pane: int, beyond: float = math.inf) -> list[GlassProof]:
        """The detectors out of whose range a pane is by less than ``beyond`` feet: its own room's first, nearest first.

        All detectors are weighed at once: a level may have thousands, and thousands of panes that ask.
        """
        proofs, eyes, faces = self._placed
        away = away_from(self.scene.panes, np.array([pane]), eyes)[0]
        close = np.flatnonzero(away < eyes[:, 3] + beyond)
        elsewhere = faces[close] != self.face_of_pane(pane)
        return [proofs[index] for index in close[np.lexsort((away[close], elsewhere))]]

    def firsts(self, panes: IntArray) -> Firsts:
        """For each pane (k,) the detector that ``nearest`` names first."""
        _, eyes, faces = self._placed
        if not len(eyes):
            return Firsts.nobody(len(panes))
        away = away_from(self.scene.panes, panes, eyes)
        elsewhere = faces != self.scene.rooms_overlooked[panes][:, None]
        alone = elsewhere.all(axis=1)
        which = np.where(elsewhere & ~alone[:, None], np.inf, away).argmin(axis=1)
        return Firsts(which, away[np.arange(len(panes)), which], alone)

    def first(self, pane: int) -> GlassProof | None:
        """The detector that ``nearest`` names first for one pane, or None where no detector is clear of solids."""
        index = int(self.firsts(np.array([pane])).which[0])
        return None if index < 0 else self._placed[0][index]

    @cached_property
    def _listened(self) -> frozenset[int]:
        return frozenset(self._placed[2].tolist())

    def is_listened_in(self, face: int) -> bool:
        """Whether a detector that is clear of solids hangs in a face."""
        return face in self._listened

    def distances(self, pane: int, eye: Eye) -> tuple[float, float]:
        """Distance from an eye to a pane's farthest corner and to its nearest point, in feet."""
        panes = self.scene.panes
        offset = np.array([eye.x, eye.y]) - panes.origin[pane]
        u = float(offset @ panes.direction[pane])
        h = float(panes.direction[pane][0] * offset[1] - panes.direction[pane][1] * offset[0])
        width, sill, head = float(panes.width[pane]), float(panes.sill[pane]), float(panes.head[pane])
        far = math.hypot(max(abs(u), abs(u - width)), h, max(abs(sill - eye.z), abs(head - eye.z)))
        near = math.hypot(max(0.0, -u, u - width), h, max(0.0, sill - eye.z, eye.z - head))
        return far, near

    def length(self, feet: float) -> str:
        """A length as the plan's units write it."""
        return length_text(feet, self.units)


class Firsts(NamedTuple):
    """For each of some panes (k,) the detector named first: ``which`` among those clear of solids, −1 where there
    is none, the feet ``away`` of the pane's nearest point, and whether it hangs ``elsewhere`` than in the pane's room.
    """

    which: IntArray
    away: FloatArray
    elsewhere: BoolArray

    @staticmethod
    def nobody(count: int) -> Firsts:
        """What ``count`` panes have where there is no detector."""
        return Firsts(np.full(count, -1), np.full(count, np.inf), np.ones(count, dtype=bool))


def away_from(panes: Panes, which: IntArray, eyes: FloatArray) -> FloatArray:
    """Feet (k, n) from eyes (n, 3 or more) of x, y and z to the nearest points of some panes (k,)."""
    offset = eyes[:, :2] - panes.origin[which][:, None]
    dx, dy = panes.direction[which].T[:, :, None]
    u, h = dx * offset[..., 0] + dy * offset[..., 1], dx * offset[..., 1] - dy * offset[..., 0]
    sill, head, width = (values[which][:, None] for values in (panes.sill, panes.head, panes.width))
    off_u = np.maximum(0.0, np.maximum(-u, u - width))
    off_z = np.maximum(0.0, np.maximum(sill - eyes[:, 2], eyes[:, 2] - head))
    away: FloatArray = np.sqrt(off_u**2 + off_z**2 + h**2)
    return away


def listed(words: Sequence[str]) -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
