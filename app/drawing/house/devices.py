"""Devices on the plan: each symbol at its place, or beside it with a line to it where another stands there.

Labels go where there is room about the symbol, with a line to it when they stand off.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

import shapely
from shapely.geometry.base import BaseGeometry

from app.drawing.house.board import Board, Box, about, around, aside, leader_end
from app.drawing.lettering import CAP_HEIGHT, lettered, shortened, text_width
from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.symbols import WEDGE, device_symbol
from app.drawing.view import Spot, View, line_through
from app.drawing.weights import FINE
from app.plan.devices import DEVICE_KIND
from app.plan.model import Device

SYMBOL = 1.9  # mm: half width of a symbol
LONGEST_LABEL = 26.0  # mm
_LEADING = 1.12  # of a label's size, from one of its lines to the next
_CROWDED = 0.35  # of a symbol's box that may lie over others before it is set aside


def place_symbols(
    devices: Sequence[Device],
    signs: Sequence[Spot],
    homes: Mapping[str, BaseGeometry],
    board: Board,
    view: View,
    symbol: float,
) -> dict[str, Spot]:
    """Where each symbol stands on paper, clear of the ``signs`` of fixtures; the space is taken on the board.

    One that is set aside stays in its room: ``homes`` gives the floor of it on paper by device.
    """
    places: dict[str, Spot] = {}
    crowd: list[Device] = []
    # Detectors keep their exact place first: their lines of sight are measured from it.
    for device in sorted(devices, key=lambda device: device.kind not in ("glass_break", "motion")):
        at = view.spot(device.at)
        exact = device.kind in ("glass_break", "motion")
        others = list(places.values()) if exact else [*places.values(), *signs]
        if any(math.dist(at, other) < 2 * symbol * (1 - _CROWDED) for other in others):
            crowd.append(device)
        else:
            places[device.id] = at
            board.take(_symbol_box(device, at, symbol))
    for device in crowd:
        at = view.spot(device.at)
        boxes = around(at, symbol * 1.1, 2 * symbol, 2 * symbol)
        home = homes.get(device.id)
        if home is not None:
            boxes = [box for box in boxes if home.contains(shapely.Point(_middle(box)))] or boxes
        index = board.place(boxes)
        places[device.id] = _middle(boxes[index or 0])
    return places


def _middle(box: Box) -> Spot:
    return ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)


def _symbol_box(device: Device, at: Spot, half: float) -> Box:
    """What a symbol takes, with the wedge that shows where a detector of motion looks."""
    left, top, right, bottom = about(at, 2 * half, 2 * half)
    if device.kind != "motion" or device.facing is None:
        return (left, top, right, bottom)
    ends = [math.radians(device.facing + side) for side in (-45.0, 45.0)]
    xs = [at[0] + WEDGE * half * math.cos(end) for end in ends]
    ys = [at[1] - WEDGE * half * math.sin(end) for end in ends]
    return (min(left, *xs), min(top, *ys), max(right, *xs), max(bottom, *ys))


def draw_devices(
    devices: Sequence[Device],
    names: Mapping[str, str],
    places: Mapping[str, Spot],
    board: Board,
    view: View,
    symbol: float,
    size: float,
) -> Any:
    """Every symbol with its name."""
    group = SVG.g(class_="devices")
    lines = SVG.g(fill="none", stroke=INK, stroke_width=FINE)
    group.add(lines)
    labels: list[Any] = []
    for device in devices:
        at, spot = places[device.id], view.spot(device.at)
        if math.dist(at, spot) > 0.05:
            lines.add(SVG.path(d=line_through((spot, at))))
            lines.add(SVG.circle((round(spot[0], 3), round(spot[1], 3)), 0.35, fill=INK))
        drawn = device_symbol(device.kind, at, symbol, device.facing)
        drawn["data-device"] = device.id
        drawn.set_desc(title=f"{', '.join(names[device.id].splitlines())}: {DEVICE_KIND[device.kind].name}")
        group.add(drawn)
        labels += _label(names[device.id], at, board, lines, symbol, size)
    for label in labels:
        group.add(label)
    return group


def _label(label: str, at: Spot, board: Board, lines: Any, symbol: float, size: float) -> Iterator[Any]:
    """A device's name in bold; further lines of it stand beneath in plain letters."""
    first, *more = label.split("\n")
    words = [(shortened(first, size, LONGEST_LABEL, bold=True), True)]
    words += [(shortened(line, size, LONGEST_LABEL), False) for line in more]
    wide = max(text_width(text, size, bold=bold) for text, bold in words) + 0.6
    high = size * (1.05 + _LEADING * len(more))
    boxes = [*around(at, symbol + 0.7, wide, high), *aside(at, wide, high)]
    box = boxes[board.place(boxes) or 0]
    middle, end = _middle(box), leader_end(at, box)
    if math.dist(at, end) > symbol * 1.9:
        lines.add(SVG.path(d=line_through((at, end)), class_="leader"))
    base = middle[1] + size * (CAP_HEIGHT - _LEADING * len(more)) / 2
    for number, (text, bold) in enumerate(words):
        spot = (middle[0], base + number * size * _LEADING)
        yield lettered(text, spot, size, bold=bold, anchor="middle", halo=True)
