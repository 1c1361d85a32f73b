"""What the crew takes on, in a few figures: devices, pulls, cable to buy, boxes, zones, battery."""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.listening import listed
from app.drawing.sheets.cover.figures import Figure
from app.drawing.sheets.order import Order
from app.plan.devices import DEVICE_KINDS

READING = (
    "Place by the device plans and the schedule of devices; heights are above the finished floor.",
    "Drill by the drilling sheet only, when its blanks are filled in from the spec sheets.",
    "Pull by boxes, in their order; label both ends; photograph every wall before it is closed.",
    "Connect by zones; test every device on the test sheet, and hand the filled sheet back.",
    "Where site and plan differ, stop and ask: a detector that moves no longer covers what the plan proves.",
)


def key_figures(order: Order) -> Iterator[Figure]:
    """The figures, in the order of the work."""
    kinds = [device.kind for _, device in order.devices()]
    counts = [_count(kinds.count(kind.kind), kind.name) for kind in DEVICE_KINDS if kind.kind in kinds]
    if counts:
        yield Figure(str(len(kinds)), f"devices: {listed(counts)}")
    wiring = order.wiring
    yield Figure(str(len(wiring["pulls"])), f"pulls to {_count(kinds.count('can'), 'can')}")
    for cable, total in wiring["totals"].items():
        yield Figure(order.run(total["cut_ft"]), f"of {cable} cut; {order.run(total['bought_ft'])} bought")
    yield Figure(str(len(wiring["zones"])), "zones")


def _count(number: int, name: str) -> str:
    """``3 keypads``; words in brackets stay behind the plural."""
    word, bracket, rest = name.partition(" (")
    return f"{number} {word[:1].lower()}{word[1:]}{'' if number == 1 else 's'}{bracket}{rest}"
