"""What each detector must answer to when it is tested: the panes that it hears, farthest first, the floor it sees."""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.arming import LEAST_SHARE
from app.coverage.glass import TOLERANCE
from app.drawing.sheets.homeowner.devices import device_sign
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.model import Device
from app.review.house import Storey


def answer_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A table of the detectors that judge for themselves."""
    detectors = order.devices("glass_break", "motion")
    if not detectors:
        return
    yield from setter.heading("What each detector must answer to")
    rows = []
    for storey, device in detectors:
        name = Cell(storey.name(device.id), device_sign(device.kind, setter), bold=True)
        rows.append(Row((name, Cell(must_answer(order, storey, device)))))
    yield from setter.table(("Detector", "Test it at"), (20, 80), rows)


def must_answer(order: Order, storey: Storey, device: Device) -> str:
    """For a glass break its panes with their farthest corners, for a motion detector its rooms and how much of each."""
    if device.kind == "motion":
        return _rooms_seen(order, storey, device)
    required = storey.practice.number("glass.required_fraction") - TOLERANCE
    heard = [
        (pane["distances"][device.id], pane["id"])
        for pane in order.of_level("panes", storey)
        if pane["fractions"].get(device.id, 0.0) >= required
    ]
    return (
        ", ".join(f"{pane} {order.length(feet)}" for feet, pane in sorted(heard, reverse=True))
        or "no pane: nothing is proven for it"
    )


def _rooms_seen(order: Order, storey: Storey, device: Device) -> str:
    seen = [
        (room["motions"][device.id] / room["area_sqft"], room["name"] or room["id"])
        for room in order.of_level("rooms", storey)
        if room["area_sqft"] and room["motions"].get(device.id, 0.0) >= LEAST_SHARE * room["area_sqft"]
    ]
    floor = [f"{name} {share:.0%} of the floor" for share, name in sorted(seen, reverse=True)]
    return ", ".join(floor) or "no floor is proven for it"
