"""Glass: what each glass-break detector reaches of each pane, and how each pane stands by it.

A pane is covered when some one detector reaches the required share of it in a straight line within its range.
The fast path is ``app.geometry.shadows.pane_views``; ``plain_fraction`` beside it is the clear one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from app.geometry.eye import Eye, body_holding, clear_eye
from app.geometry.scene import LevelScene
from app.geometry.shadows import PaneView, pane_views
from app.plan.devices import height_of, range_of
from app.plan.model import Device
from app.plan.practice import Practice

TOLERANCE = 0.0005  # share of a pane: contract §3

PaneStatus = Literal["covered", "partial", "uncovered"]


@dataclass(frozen=True)
class GlassProof:
    """What one detector reaches: ``views`` by index of pane; ``eye`` is None inside the body ``inside``."""

    device: str
    eye: Eye | None
    reach: float
    views: dict[int, PaneView]
    inside: str | None = None


def prove_glass(scene: LevelScene, device: Device, practice: Practice) -> GlassProof:
    """What a glass-break detector of the level reaches; one that lies inside a solid body reaches nothing."""
    reach = range_of(device, practice)
    mounted = Eye(device.at[0], device.at[1], height_of(device, scene.level, practice))
    eye = clear_eye(scene.bodies, mounted, scene.level.ceiling)
    if eye is None:
        return GlassProof(device.id, None, reach, {}, body_holding(scene.bodies, mounted, scene.level.ceiling))
    views = pane_views(scene.panes, scene.bodies, eye, reach)
    return GlassProof(device.id, eye, reach, {view.pane: view for view in views})


@dataclass(frozen=True)
class PaneVerdict:
    """How a pane stands: ``views`` of every detector that reaches some of it, by device id, and the best of them."""

    pane: int
    status: PaneStatus
    views: dict[str, PaneView]
    best: str | None


def judge_panes(scene: LevelScene, proofs: Sequence[GlassProof], required: float) -> list[PaneVerdict]:
    """The verdict on every pane of a level; ``required`` is the share that one detector must reach."""
    views: list[dict[str, PaneView]] = [{} for _ in range(len(scene.panes))]
    for proof in proofs:
        for pane, view in proof.views.items():
            if view.fraction > 0:
                views[pane][proof.device] = view
    return [judge_pane(pane, seen, required) for pane, seen in enumerate(views)]


def judge_pane(pane: int, views: dict[str, PaneView], required: float) -> PaneVerdict:
    """The verdict on one pane from the views of the detectors that reach some of it."""
    if not views:
        return PaneVerdict(pane, "uncovered", views, None)
    best = min(views, key=lambda device: (-round(views[device].fraction, 9), views[device].farthest))
    fraction = views[best].fraction
    if fraction >= required - TOLERANCE:
        return PaneVerdict(pane, "covered", views, best)
    return PaneVerdict(pane, "partial" if fraction > TOLERANCE else "uncovered", views, best)
