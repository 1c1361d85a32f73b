"""The device plan of a level: every device with its label, and beneath it height, mount and the way it looks."""

from __future__ import annotations

from app.drawing.floor_plan import LevelDrawing
from app.drawing.sheets.crew.facing import compass_letters
from app.drawing.sheets.order import Order, rooms_of_devices
from app.plan.devices import DEVICE_KIND, height_of
from app.plan.model import Device
from app.review.house import Storey


def device_drawings(order: Order) -> list[LevelDrawing]:
    """One drawing a level, without the marks of the proof, which leaves room for the heights."""
    return [
        LevelDrawing(
            storey.scene,
            [],
            [],
            order.of_level("rooms", storey),
            {**storey.names, **{device.id: _label(order, storey, device) for device in storey.level.devices}},
            rooms_of_devices(storey),
            storey.units,
        )
        for storey in order.house
    ]


def mount_of(device: Device) -> str:
    """How a device is mounted, in words."""
    return (device.mount or DEVICE_KIND[device.kind].mount).replace("_", " ")


def _label(order: Order, storey: Storey, device: Device) -> str:
    height = order.length(height_of(device, storey.level, storey.practice))
    words = f"{height} {mount_of(device)}"
    if device.facing is not None and DEVICE_KIND[device.kind].faces:
        words += f" {compass_letters(device.facing)}"
    return f"{storey.name(device.id)}\n{words}"
