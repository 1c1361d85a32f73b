"""Every pane of glass with who hears it, how far its farthest corner is, and, where it is missed, why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.coverage.glass import TOLERANCE
from app.drawing.house.proof import MARK, status_mark
from app.drawing.pane_marks import STATUS_WORDS
from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter, Sign
from app.drawing.sheets.setting.flow import Block
from app.plan.devices import range_of
from app.review.house import Storey

STATUS = {"covered": "covered", "partial": "partly", "uncovered": "not"}


def glass_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A table of panes for each level that has glass."""
    for storey in order.house:
        panes = order.of_level("panes", storey)
        if panes:
            yield from setter.heading(order.titled("Glass: who hears each pane", storey))
            yield from _panes(order, storey, panes, setter)


def status_sign(status: str, setter: Setter) -> Sign:
    """The mark of a pane's status before its word."""
    return lambda at: status_mark(status, at, MARK * setter.size)


def _panes(order: Order, storey: Storey, panes: Sequence[Answer], setter: Setter) -> Iterator[Block]:
    required = storey.practice.number("glass.required_fraction") - TOLERANCE
    ranges = {device.id: range_of(device, storey.practice) for device in storey.devices("glass_break")}
    rooms = {room.id: room.name or room.id for room in storey.level.rooms}
    rows = []
    for pane in panes:
        best = pane["best"]
        hears = [device for device, share in pane["fractions"].items() if share >= required]
        if best is not None:
            hears = [best["device"], *(device for device in hears if device != best["device"])]
        cells = (
            Cell(pane["id"], bold=True),
            Cell(rooms.get(pane["room"], "—")),
            Cell(STATUS[pane["status"]], status_sign(pane["status"], setter)),
            Cell(", ".join(storey.name(device) for device in hears) or "nobody"),
            Cell(order.length(best["farthest_ft"]) if best else "—"),
            Cell(order.length(ranges[best["device"]]) if best else "—"),
        )
        rows.append(Row(cells, () if pane["status"] == "covered" else _reasons(pane)))
    heads = ("Pane", "Room", "Covered", "Heard by", "Farthest", "Limit")
    yield from setter.table(heads, (23, 23, 17, 17, 15, 11), rows)
    yield from setter.paragraph(
        "Farthest: from the detector in a straight line to the farthest corner of the pane.", quiet=True
    )


def _reasons(pane: Answer) -> tuple[str, ...]:
    return (f"{STATUS_WORDS[pane['status']].capitalize()}. {pane['why']}",)
