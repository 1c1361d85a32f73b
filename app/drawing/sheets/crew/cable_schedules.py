"""What is bought and pulled: cable by kind, the pull schedule with boxes to tick, and each box in pulling order.

The numbers are the wiring answer's; here they are only set into tables with boxes to tick.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.view import Spot
from app.drawing.weights import FINE

_NONE = "—"


def pull_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Cable to buy, pulls, boxes."""
    yield from _to_buy(order, setter)
    yield from _pulls(order, setter)
    yield from _boxes(order, setter)


def _to_buy(order: Order, setter: Setter) -> Iterator[Block]:
    wiring = order.wiring
    yield from setter.heading("Cable to buy")
    rows = []
    for cable, total in wiring["totals"].items():
        sizes = [order.run(box["size_ft"]) for box in wiring["boxes"] if box["cable"] == cable]
        bought = ", ".join(f"{sizes.count(size)} × {size}" for size in sorted(set(sizes), reverse=True))
        rows.append(Row(_cells(cable, str(total["pulls"]), order.run(total["cut_ft"]), bought or _NONE)))
    yield from setter.table(("Cable", "Pulls", "Cut", "Boxes"), (16, 12, 18, 54), rows)
    yield from setter.paragraph(
        "Every pull is one piece from its device to the can, cut with waste and slack; no splice in the wall.",
        quiet=True,
    )


def _pulls(order: Order, setter: Setter) -> Iterator[Block]:
    yield from setter.heading("Pulls: label both ends")
    rows = [
        Row(
            (
                Cell(pull["label"], tick(setter), bold=True),
                Cell(pull["cable"]),
                Cell(_where(order, pull)),
                Cell(_NONE if pull["measured_ft"] is None else order.length(pull["measured_ft"])),
                Cell(_NONE if pull["cut_ft"] is None else order.run(pull["cut_ft"])),
                Cell(pull["can"] or _NONE),
            ),
            () if pull["route"] else ("No way to a can: give a can on this level, or a riser that links the levels.",),
        )
        for pull in order.wiring["pulls"]
    ]
    yield from setter.table(("Label", "Cable", "Room", "Measured", "Cut", "To"), (18, 12, 36, 17, 12, 15), rows)


def _where(order: Order, pull: Answer) -> str:
    room = pull["room_name"] or _NONE
    return f"{room}, {pull['level_name']}" if order.several else str(room)


def _boxes(order: Order, setter: Setter) -> Iterator[Block]:
    yield from setter.heading("Boxes, in pulling order")
    rows = [
        Row(
            _cells(box["box"], *(order.run(box[key]) for key in ("size_ft", "used_ft", "left_ft"))),
            (", ".join(box["pulls"]),),
        )
        for box in order.wiring["boxes"]
    ]
    yield from setter.table(("Box", "Holds", "Used", "Left"), (34, 22, 22, 22), rows)


def _cells(first: str, *others: str) -> tuple[Cell, ...]:
    return (Cell(first, bold=True), *map(Cell, others))


def tick(setter: Setter) -> Any:
    """A box to tick, before a label."""
    side = 2.3 * setter.factor

    def draw(at: Spot) -> Any:
        corner = (round(at[0] - side / 2, 3), round(at[1] - side / 2, 3))
        return SVG.rect(corner, (side, side), fill="none", stroke=INK, stroke_width=FINE)

    return draw
