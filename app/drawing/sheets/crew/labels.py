"""Labels to cut out: for every pull one for each end, so that a cable is known at the device and at the can."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.drawing.lettering import lettered, shortened
from app.drawing.maker import SVG
from app.drawing.palette import QUIET
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.view import Spot
from app.drawing.weights import FINE

_HEIGHT = 8.1  # mm: a label that wraps round a cable


def label_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Two labels a pull, side by side: the device's end and the can's."""
    yield from setter.heading("Labels to cut: device end, can end")
    for pull in order.wiring["pulls"]:
        tags = order.wiring["tags"][pull["label"]]
        yield _pair(setter, pull["label"], tags["at_device"], tags["at_can"])


def _pair(setter: Setter, label: str, at_device: str, at_can: str) -> Block:
    height, half = _HEIGHT * setter.factor, setter.width / 2

    def draw(at: Spot) -> Iterator[Any]:
        for number, tag in enumerate((at_device, at_can)):
            x = at[0] + number * half
            yield SVG.rect(
                (round(x, 3), round(at[1], 3)),
                (round(half, 3), height),
                fill="none",
                stroke=QUIET,
                stroke_width=FINE,
                stroke_dasharray="1.5 1",
            )
            room = half - 4 * setter.factor
            left, middle = x + 2 * setter.factor, at[1] + height * 0.42
            yield lettered(label, (left, middle), setter.size * 1.2, bold=True)
            yield lettered(shortened(tag, setter.size, room), (left, middle + setter.leading), setter.size)

    return Block(height, draw)
