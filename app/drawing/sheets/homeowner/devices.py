"""Every device of the plan with its kind, room, height and cable, and what its note says to people."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter, Sign
from app.drawing.sheets.setting.flow import Block
from app.drawing.symbols import device_symbol
from app.drawing.weights import THIN
from app.plan.devices import DEVICE_KIND, cable_of, height_of
from app.plan.model import Device
from app.review.accepted import remark
from app.review.house import Storey


def device_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A table of devices for each level that has any."""
    for storey in order.house:
        if storey.level.devices:
            yield from setter.heading(order.titled("Devices", storey))
            rows = (_row(order, storey, device, setter) for device in storey.level.devices)
            yield from setter.table(("Device", "Kind", "Room", "Height AFF", "Cable"), (20, 28, 22, 17, 13), rows)


def device_sign(kind: str, setter: Setter) -> Sign:
    """A kind's symbol before its label."""
    return lambda at: device_symbol(kind, at, 1.25 * setter.factor, weight=THIN)


def cable_words(device: Device, storey: Storey) -> str:
    """The cable of a device, "by others", or a dash for none."""
    others = "by others" if DEVICE_KIND[device.kind].located_by_others else "—"
    return cable_of(device, storey.practice) or others


def _row(order: Order, storey: Storey, device: Device, setter: Setter) -> Row:
    room, said = storey.room_of_device[device.id], remark(device)
    cells = (
        Cell(storey.name(device.id), device_sign(device.kind, setter), bold=True),
        Cell(DEVICE_KIND[device.kind].name),
        Cell(room.name or room.id if room else "—"),
        Cell(order.length(height_of(device, storey.level, storey.practice))),
        Cell(cable_words(device, storey)),
    )
    return Row(cells, (said,) if said else ())
