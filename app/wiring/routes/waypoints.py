"""Way-points: places that a designer makes a home run pass, kept in the device's own note so that they travel with it.

A line of the note reads ``cable via (12.5, 6) (20, 6)``: decimal feet on the plan, from the device towards the can. The
run passes them in that order at run height, along the main axes, and takes the shortest way from the last one.
"""

from __future__ import annotations

import math
import re

from app.plan.model import FARTHEST, Device, Level
from app.plan.practice import Practice
from app.wiring.routes.axes import Axes
from app.wiring.routes.run_heights import cable_end, run_height
from app.wiring.routes.way import Spot, Way, way_through

MOST = 20
_LINE = re.compile(r"^[ \t]*cable[ \t]+via[ \t:]*(?P<points>\(.*)$", re.IGNORECASE | re.MULTILINE)
_NUMBER = r"[-+]?(?:\d+(?:\.\d*)?|\.\d+)"
_POINT = re.compile(rf"\(\s*({_NUMBER})\s*,\s*({_NUMBER})\s*\)[\s;,]*")

HOW_TO_WRITE = "write a line such as: cable via (12.5, 6) (20, 6)"


def has_waypoints(device: Device) -> bool:
    """Whether a device's note has a line on way-points, readable or not."""
    return device.note is not None and _LINE.search(device.note) is not None


def waypoints_of(device: Device) -> tuple[tuple[float, float], ...]:
    """The way-points of a device's run; none where its note gives none or they cannot be read."""
    found = None if device.note is None else _LINE.search(device.note)
    if found is None:
        return ()
    text, at, points = found["points"].strip(), 0, []
    while (point := _POINT.match(text, at)) is not None:
        points.append((float(point[1]), float(point[2])))
        at = point.end()
    readable = at == len(text) and len(points) <= MOST
    within = all(math.isfinite(value) and abs(value) <= FARTHEST for point in points for value in point)
    return tuple(points) if readable and within else ()


def way_by_waypoints(level: Level, device: Device, onward: Way, axes: Axes, practice: Practice) -> Way:
    """The way of a device up to run height, past its way-points, then ``onward`` from the last of them to the can."""
    run, here = run_height(level, practice), device.at
    spots: list[Spot] = [(*here, cable_end(device, level, practice)), (*here, run)]
    for point in waypoints_of(device):
        spots += [(*axes.corner(here, point), run), (*point, run)]
        here = point
    return way_through(onward.can, [*spots, *onward.corners])
