"""Rough-in, room by room: each device's cable and height with a box to tick, and the cautions before any drilling."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from app.drawing.sheets.crew.cable_schedules import tick
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.devices import DEVICE_KIND


def rough_in_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A table for each room, in the order of the house."""
    yield from setter.heading("Rough-in, room by room")
    for room in order.wiring["rough_in"]["rooms"]:
        yield setter.space(1.5)
        name = f"{room['room'] or 'No room'}, {room['level']}"
        # A room's name never stands at the foot of a column without its table.
        yield from (replace(line, keep=True) for line in setter.paragraph(name, bold=True))
        rows = [
            Row(
                (
                    Cell(stop["label"], tick(setter), bold=True),
                    Cell(DEVICE_KIND[order.by_pull[stop["label"]][1].kind].name),
                    Cell(stop["cable"]),
                    Cell(order.length(stop["height_ft"])),
                    Cell("drilling sheet" if stop["drilling"] else "—"),
                )
            )
            for stop in room["stops"]
        ]
        yield from setter.table(("Label", "Device", "Cable", "Height AFF", "Frame"), (20, 34, 14, 20, 22), rows)
