"""The plan of each level with the proof of its glass and of its motion marked on it."""

from __future__ import annotations

from app.drawing.floor_plan import LevelDrawing
from app.drawing.sheets.order import Order, rooms_of_devices


def proof_drawings(order: Order) -> list[LevelDrawing]:
    """One drawing a level."""
    return [
        LevelDrawing(
            storey.scene,
            order.of_level("panes", storey),
            order.of_level("motions", storey),
            order.of_level("rooms", storey),
            storey.names,
            rooms_of_devices(storey),
            storey.units,
        )
        for storey in order.house
    ]
