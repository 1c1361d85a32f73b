"""Sight by casting rays: the solids' triangle meshes (trimesh), segments tested for a hit (embreex).

Embree works in single precision, so every scene is moved to have the eye at its origin before it is built.
"""

from __future__ import annotations

import numpy as np
import shapely
from embreex.mesh_construction import TriangleMesh
from embreex.rtcore_scene import EmbreeScene

from tests.houses import Value
from tests.outside.solids import RANGE, TARGET, Glass, Solid, blockers, floor_of, panes_of, solids_of


class Caster:
    """Casts segments from one eye (3,) against some solids."""

    def __init__(self, solids: list[Solid], eye: np.ndarray) -> None:
        self.eye = eye
        self.scene = EmbreeScene()
        if solids:
            corners = np.concatenate([solid.mesh.triangles for solid in solids]) - eye
            self.mesh = TriangleMesh(self.scene, corners.astype(np.float32))

    def sees(self, points: np.ndarray) -> np.ndarray:
        """Which points (n, 3) a straight segment from the eye reaches without a hit."""
        way = (points - self.eye).astype(np.float32)
        clear = np.full(len(way), 1.0 - 1e-6, dtype=np.float32)
        hit = self.scene.run(np.zeros_like(way), way, dists=clear, query="OCCLUDED")
        return np.asarray(hit) < 0


def glass_break_eyes(level: Value) -> dict[str, tuple[np.ndarray, float]]:
    """Every glass break of a level as (x, y, z) and its range."""
    ceiling = level.get("ceiling", 9.0)
    return {
        device["id"]: (np.array([*device["at"], device.get("height", ceiling)]), device.get("range", RANGE))
        for device in level["devices"]
        if device["kind"] == "glass_break"
    }


class PaneSampler:
    """Every pane of a level sampled on a grid of ``count`` by ``count`` rays from any eye."""

    def __init__(self, plan: Value, level: Value, count: int) -> None:
        self.solids, self.count = solids_of(plan, level), count
        self.panes = panes_of(level)

    def seen(self, pane: Glass, eye: np.ndarray, reach: float) -> np.ndarray:
        """Which cells (count, count) of the pane the eye covers, row by row from the sill."""
        points = pane.grid(self.count)
        within = np.linalg.norm(points - eye, axis=1) <= reach
        if not within.any() or any(solid.holds(eye) for solid in self.solids):
            return np.zeros((self.count, self.count), dtype=bool)
        return (Caster(self.near(pane, eye, reach), eye).sees(points) & within).reshape(self.count, self.count)

    def near(self, pane: Glass, eye: np.ndarray, reach: float) -> list[Solid]:
        """The pane's blockers that come within reach of the eye."""
        return [solid for solid in blockers(self.solids, pane) if _comes_near(solid, eye, reach)]


def _comes_near(solid: Solid, eye: np.ndarray, reach: float) -> bool:
    low, high = solid.ring.min(axis=0), solid.ring.max(axis=0)
    return bool((low <= eye[:2] + reach).all() and (high >= eye[:2] - reach).all())


def grid_error(seen: np.ndarray) -> float:
    """How far the share of seen cells may be from the truth.

    Between two neighbours that differ, the edge of sight lies anywhere from one middle to the other: half a cell either
    way. The thousandth on top is for corners of shadows between four middles, and for single precision.
    """
    changes = (seen[:, 1:] != seen[:, :-1]).sum() + (seen[1:] != seen[:-1]).sum()
    return float(changes) / 2 / seen.size + 1e-3


def watched_area(plan: Value, level: Value, device: Value, step: float) -> tuple[float, float]:
    """Floor in square feet that a motion watches, by rays to a grid of ``step`` feet, and how far off that may be."""
    solids, floor = solids_of(plan, level), floor_of(level)
    standing = [s for s in solids if s.line is None and s.base < TARGET <= s.top]
    floor = shapely.difference(floor, shapely.union_all([s.plan for s in standing]))
    eye = np.array([*device["at"], device.get("height", 7.0)])
    if any(solid.holds(eye) for solid in solids):
        return 0.0, 0.0
    x0, y0, x1, y1 = floor.bounds
    y, x = np.meshgrid(np.arange(y0 + step / 2, y1, step), np.arange(x0 + step / 2, x1, step), indexing="ij")
    offset = np.stack([x - eye[0], y - eye[1]], axis=-1)
    turn = np.degrees(np.arctan2(offset[..., 1], offset[..., 0])) - device.get("facing", 0.0)
    looked_at = np.abs((turn + 180) % 360 - 180) <= device.get("view_angle", 90.0) / 2
    looked_at &= np.hypot(offset[..., 0], offset[..., 1]) <= device.get("range", 40.0)
    looked_at &= shapely.contains_xy(floor, x, y)
    seen = np.zeros(x.shape, dtype=bool)
    points = np.column_stack([x[looked_at], y[looked_at], np.full(looked_at.sum(), TARGET)])
    seen[looked_at] = Caster(solids, eye).sees(points)
    changes = (seen[:, 1:] != seen[:, :-1]).sum() + (seen[1:] != seen[:-1]).sum()
    return float(seen.sum()) * step**2, float(changes) / 2 * step**2
