"""Symbols of devices, from the shapes of ``app.plan.devices``: our own drawings, named in the legend of every sheet.

Published sets for such plans are SIA AG-01 and ASTM F967; ours are generic shapes with the trade's abbreviations.
"""

from __future__ import annotations

import math
from typing import Any

from app.drawing.maker import SVG
from app.drawing.palette import INK, PAPER
from app.drawing.view import Spot, line_through, written
from app.drawing.weights import MEDIUM
from app.plan.devices import DEVICE_KIND, Shape

WEDGE = 1.75  # half widths from a motion detector's middle to the end of its wedge


def device_symbol(kind: str, at: Spot, size: float, facing: float | None = None, *, weight: float = MEDIUM) -> Any:
    """A device's symbol of half width ``size`` about a place of the picture.

    ``facing`` in degrees counter-clockwise from east: a kind that faces is turned to it, and a detector of motion
    shows it by a wedge.
    """
    device = DEVICE_KIND[kind]
    turn = facing if device.faces and facing is not None else None
    group = SVG.g(class_=f"device {kind}", fill=PAPER, stroke=INK, stroke_width=weight, stroke_linejoin="round")
    if kind == "motion" and turn is not None:
        group.add(_wedge(at, size, turn))
        turn = None
    for shape in device.symbol:
        group.add(_drawn(shape, at, size, math.radians(turn or 0.0)))
    return group


def _wedge(at: Spot, size: float, facing: float) -> Any:
    """Two short rays a quarter turn apart that open the way the detector looks."""
    rays = []
    for side in (-45.0, 45.0):
        angle = math.radians(facing + side)
        dx, dy = math.cos(angle), -math.sin(angle)
        rays.append(line_through((at[0] + dx * size * s, at[1] + dy * size * s) for s in (0.7, WEDGE)))
    return SVG.path(d="".join(rays), fill="none")


def _drawn(shape: Shape, at: Spot, size: float, turn: float) -> Any:
    name, numbers = str(shape[0]), [float(number) for number in shape[1:]]
    filled = {"fill": INK} if name.endswith("!") else {}

    def spot(x: float, y: float) -> Spot:
        return (
            at[0] + size * (x * math.cos(turn) - y * math.sin(turn)),
            at[1] - size * (x * math.sin(turn) + y * math.cos(turn)),
        )

    match name.rstrip("!"):
        case "circle":
            x, y = spot(numbers[0], numbers[1])
            return SVG.circle((round(x, 3), round(y, 3)), round(numbers[2] * size, 3), **filled)
        case "arc":
            x, y, radius, start, end = numbers
            first, last = (
                spot(x + radius * math.cos(math.radians(angle)), y + radius * math.sin(math.radians(angle)))
                for angle in (start, end)
            )
            large = int((end - start) % 360 > 180)
            arc = f"M{written(*first)}A{radius * size:.3f} {radius * size:.3f} 0 {large} 0 {written(*last)}"
            return SVG.path(d=arc, fill="none")
        case _:
            path = line_through(spot(*pair) for pair in zip(numbers[::2], numbers[1::2], strict=True))
            return SVG.path(d=path + ("Z" if name.startswith("polygon") else ""), **filled)
