"""Glass: what each glass-break detector reaches of each pane, and how each pane stands by it.

A pane is covered when some one detector reaches the required share of it in a straight line within its range.
The fast paths are ``app.geometry.vicinity`` for one detector after another and ``pane_views.views_of_eyes`` for many at
once; ``plain_fraction`` beside the latter is the clear one.
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
    mounted, reach = _mounted(scene, device, practice), range_of(device, practice)
    seen = scene.vicinities.views(mounted, reach, scene.level.ceiling)
    return _proof_of(scene, device, mounted, reach, seen)


def prove_all_glass(scene: LevelScene, devices: Sequence[Device], practice: Practice) -> list[GlassProof]:
    """The same for many detectors of a level, in one pass."""
    mounted = [_mounted(scene, device, practice) for device in devices]
    reaches = [range_of(device, practice) for device in devices]
    eyes = clear_eyes(scene.bodies, mounted, scene.level.ceiling)
    clear = [(eye, reach) for eye, reach in zip(eyes, reaches, strict=True) if eye is not None]
    seen = iter(views_of_eyes(scene.panes, scene.bodies, [eye for eye, _ in clear], [reach for _, reach in clear]))
    return [
        _proof_of(scene, device, spot, reach, None if eye is None else (eye, next(seen)))
        for device, spot, reach, eye in zip(devices, mounted, reaches, eyes, strict=True)
    ]


def _mounted(scene: LevelScene, device: Device, practice: Practice) -> Eye:
    return Eye(*device.at, height_of(device, scene.level, practice))


def _proof_of(
    scene: LevelScene, device: Device, spot: Eye, reach: float, seen: tuple[Eye, list[PaneView]] | None
) -> GlassProof:
    if seen is None:
        return GlassProof(device.id, None, reach, {}, body_holding(scene.bodies, spot, scene.level.ceiling))
    eye, views = seen
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
