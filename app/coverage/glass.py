"""Glass: what each glass-break detector reaches of each pane, and how each pane stands by it.

A pane is covered when some one detector reaches the required share of it in a straight line within its range.
The fast path is ``app.geometry.pane_views.views_of_eyes``; ``plain_fraction`` beside it is the clear one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from app.geometry.eye import Eye, body_holding, clear_eyes
from app.geometry.pane_views import PaneView, views_of_eyes
from app.geometry.scene import LevelScene
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
    return prove_all_glass(scene, [device], practice)[0]


def prove_all_glass(scene: LevelScene, devices: Sequence[Device], practice: Practice) -> list[GlassProof]:
    """The same for many detectors of a level, in one pass."""
    bodies, ceiling = scene.bodies, scene.level.ceiling
    mounted = [Eye(*device.at, height_of(device, scene.level, practice)) for device in devices]
    reaches = [range_of(device, practice) for device in devices]
    eyes = clear_eyes(bodies, mounted, ceiling)
    clear = [(eye, reach) for eye, reach in zip(eyes, reaches, strict=True) if eye is not None]
    seen = iter(views_of_eyes(scene.panes, bodies, [eye for eye, _ in clear], [reach for _, reach in clear]))
    proofs = []
    for device, spot, reach, eye in zip(devices, mounted, reaches, eyes, strict=True):
        if eye is None:
            proofs.append(GlassProof(device.id, None, reach, {}, body_holding(bodies, spot, ceiling)))
        else:
            proofs.append(GlassProof(device.id, eye, reach, {view.pane: view for view in next(seen)}))
    return proofs


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
