"""Openings of a model's wall: the voids cut in it, and what the doors and windows that fill them tell of their leaves.

The standard's terms of operation are taken as IFC names them: ``SINGLE_SWING_LEFT`` has its hinges at the left of one
who looks along the door's own y axis, which is where its placement begins.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from app.intake.ifc.library import Building
from app.intake.ifc.walls import ModelWall
from app.intake.tracing.runs import Opened, Run

_LEAST_WIDTH, _LEAST_HEIGHT, _LEAST_LEFT = 0.4, 0.5, 0.2  # ft: less is a duct or a niche
_OUT, _LEAST_WITHIN = 0.4, 0.9  # ft out of the wall's faces, and the share of its width in the wall
_PANELS = {"DOUBLE": 2, "TRIPLE": 3}


def openings_of(wall: ModelWall, floor: float, building: Building, used: set[int]) -> list[Opened]:
    """The openings of a wall in order, none over another; ``used`` gets the ids of the doors and windows read."""
    made: list[Opened] = []
    for relation in getattr(wall.element, "HasOpenings", ()) or ():
        void = relation.RelatedOpeningElement
        fillings = [one.RelatedBuildingElement for one in getattr(void, "HasFillings", ()) or ()]
        for filling in fillings or (None,):
            opened = _opened(wall.run, void, filling, floor, building)
            if opened is None:
                continue
            made.append(opened)
            if filling is not None:
                used.add(filling.id())
    made.sort(key=lambda one: one.start)
    kept: list[Opened] = []
    for one in made:
        for other in kept:
            if _share_height(one, other):  # a transom over a door shares none, and both stay whole
                one.start = max(one.start, other.end)
        if one.end - one.start >= _LEAST_LEFT:
            kept.append(one)
    return kept


def set_in_wall(filling: Any, walls: Sequence[ModelWall], floor: float, building: Building) -> bool:
    """Set a door or window that no void is told for into the wall that its body lies in; whether there is one."""
    points = building.points(filling)
    if points is None:
        return False
    best: tuple[float, Run] | None = None
    for wall in walls:
        uv = np.array([wall.run.direction.uv((float(x), float(y))) for x, y in points[:, :2]])
        (low, aside), (high, beyond) = uv.min(axis=0), uv.max(axis=0)
        off = abs((aside + beyond) / 2 - wall.run.v)
        inside = min(high, wall.run.end) - max(low, wall.run.start)
        fits = off <= wall.run.thickness / 2 + _OUT and inside >= _LEAST_WITHIN * (high - low)
        if fits and high - low > beyond - aside and (best is None or off < best[0]):
            best = (off, wall.run)
    opened = _opened(best[1], filling, filling, floor, building) if best is not None else None
    if best is None or opened is None:
        return False
    taken = best[1].openings
    if any(_share_height(opened, one) and min(opened.end, one.end) - max(opened.start, one.start) > 0 for one in taken):
        return False
    best[1].openings = sorted([*taken, opened], key=lambda one: one.start)
    return True


def _share_height(one: Opened, other: Opened) -> bool:
    (low, high), (sill, head) = (one.sill or 0.0, one.head or 0.0), (other.sill or 0.0, other.head or 0.0)
    return min(high, head) - max(low, sill) > 0.001


def _opened(run: Run, void: Any, filling: Any, floor: float, building: Building) -> Opened | None:
    points = building.points(void)
    if points is None and filling is not None:
        points = building.points(filling)
    if points is None:
        return None
    along = [run.direction.uv((float(x), float(y)))[0] for x, y in points[:, :2]]
    start, end = max(min(along), run.start), min(max(along), run.end)
    sill, head = float(points[:, 2].min()) - floor, float(points[:, 2].max()) - floor
    if end - start < _LEAST_WIDTH or head - max(sill, 0.0) < _LEAST_HEIGHT:
        return None
    sill = 0.0 if sill < 0.05 else sill
    kind = "cased" if filling is None else "door" if filling.is_a("IfcDoor") else "window"
    if filling is None and sill > 1.0:
        return None  # a pass-through or a duct: neither door nor cased opening begins so high
    opened = Opened(start, end, kind, sill=sill, head=head)
    if kind == "door":
        _leaf(opened, run, filling, building, points)
    elif kind == "window":
        opened.panes = _panels(filling)
    return opened


def _leaf(opened: Opened, run: Run, door: Any, building: Building, points: NDArray[np.float64]) -> None:
    operation = _operation(door)
    if "SLIDING" in operation or "FOLDING" in operation:
        opened.leaf = "slide"
    elif "ROLLINGUP" in operation or "OVERHEAD" in operation:
        opened.leaf = "overhead"
    elif "FIXED" in operation:
        opened.leaf = "fixed"
    elif "SINGLE_SWING" in operation:
        opened.hinge = _hinge(opened, run, door, building, "LEFT" in operation)
    if _glass_share(door) > 0.0:
        opened.glazed = True


def _hinge(opened: Opened, run: Run, door: Any, building: Building, at_left: bool) -> float:
    """Where along the run the hinges are: at the door's own origin, or its width along its own x axis."""
    placed = building.placement(door)
    width = float(door.OverallWidth or 0.0) * building.feet or opened.end - opened.start
    spot = placed[:2, 3] + (0.0 if at_left else width) * placed[:2, 0]
    here = run.direction.uv((float(spot[0]), float(spot[1])))[0]
    return opened.start if abs(here - opened.start) <= abs(here - opened.end) else opened.end


def _operation(door: Any) -> str:
    from ifcopenshell.util.element import get_type

    for holder in (door, get_type(door)):
        told = getattr(holder, "OperationType", None) if holder is not None else None
        if told and told not in ("NOTDEFINED", "USERDEFINED"):
            return str(told)
    return ""


def _panels(window: Any) -> int:
    from ifcopenshell.util.element import get_type

    for holder in (window, get_type(window)):
        for name in ("PartitioningType", "OperationType"):
            told = str(getattr(holder, name, None) or "") if holder is not None else ""
            for word, count in _PANELS.items():
                if told.startswith(word) and told.endswith("VERTICAL"):
                    return count
    return 1


def _glass_share(door: Any) -> float:
    from ifcopenshell.util.element import get_pset

    told = get_pset(door, "Pset_DoorCommon", "GlazingAreaFraction")
    return float(told) if isinstance(told, (int, float)) else 0.0
