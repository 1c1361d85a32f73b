"""Every device with what a crew places it by: height, mount, the way it looks, where it goes, its cable, its note."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.crew.device_plans import mount_of
from app.drawing.sheets.crew.facing import compass_word
from app.drawing.sheets.crew.set_out import set_out
from app.drawing.sheets.homeowner.devices import cable_words, device_sign
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.devices import DEVICE_KIND, height_of
from app.plan.model import Device
from app.review.accepted import remark
from app.review.house import Storey

_HEADS = ("Device", "Kind", "Room", "AFF", "Mount", "Looks", "Set out from the faces of walls as drawn", "Cable")
_SHARES = (23, 34, 26, 14, 17, 19, 74, 13)


def placing_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A table of devices for each level that has any."""
    for storey in order.house:
        if storey.level.devices:
            yield from setter.heading(order.titled("Devices to place", storey))
            rows = [_row(order, storey, device, setter) for device in storey.level.devices]
            yield from setter.table(_HEADS, _SHARES, rows)
    yield from setter.paragraph(
        "Heights are above the finished floor; add what the floor will take up. Distances follow the house's main "
        "axes; north is up on the plan. Measure on site: where framing or mains are in the way, ask before moving a "
        "detector, as its coverage moves with it.",
        quiet=True,
    )


def _row(order: Order, storey: Storey, device: Device, setter: Setter) -> Row:
    kind, room = DEVICE_KIND[device.kind], storey.room_of_device[device.id]
    looks = compass_word(device.facing) if device.facing is not None and kind.faces else "—"
    cells = (
        Cell(storey.name(device.id), device_sign(device.kind, setter), bold=True),
        Cell(kind.name),
        Cell(room.name or room.id if room else "—"),
        Cell(order.length(height_of(device, storey.level, storey.practice))),
        Cell(mount_of(device)),
        Cell(looks),
        Cell("placed by others" if kind.located_by_others else set_out(order, storey, device)),
        Cell(cable_words(device, storey)),
    )
    said = remark(device)
    return Row(cells, (said,) if said else ())
