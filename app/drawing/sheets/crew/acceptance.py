"""The test sheet: every device with what is done, the resistance and voltage expected of it, and blanks for the result.

Expected values are worked out from the pulls as cut: the loop of the zone with its end-of-line resistor at 20 °C, and
the voltage at the device between 20 and 75 °C on mains.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.crew.tests_by_kind import TESTS
from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import Ruled, blanks, ruled_table
from app.plan.devices import DEVICE_KIND
from app.plan.model import Device
from app.review.house import Storey

_HEADS = ("Device", "Room", "Zone", "What is done", "Expected Ω", "Read", "Expected V", "Read", "Works", "By, date")
_SHARES = (21, 24, 19, 30, 28, 16, 24, 15, 12, 22)


def test_sheet_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A ruled table for each level, with the words that it is read by."""
    practice = order.house.practice
    eol, least = practice.number("zone.eol_ohms"), practice.number("power.least_volts")
    yield from setter.heading("How to read the test sheet")
    yield from setter.paragraph(
        f"Ω: measured at the can, the zone's wires off the panel, everything at rest: {eol:g} Ω at the end of the line "
        "and the wire's own at 20 °C. A short at the device reads the wire alone, an open zone nothing. The resistor's "
        f"tolerance comes on top. V: at the device in alarm, on mains, wire at 75 to 20 °C; at least {least:g} V, and "
        "the device's listing decides. Read again with the mains off. Warn everybody before a siren sounds.",
    )
    yield from blanks(setter, ("Tested by, licence", "Date", "Meter, its number", "Signature"), 2)
    zones = {label: zone for zone in order.wiring["zones"] for label in zone["pulls"]}
    feeds = {feed["label"]: feed for feed in order.wiring["feeds"]}
    for storey in order.house:
        if storey.level.devices:
            yield from setter.heading(order.titled("Test sheet", storey))
            rows = [_row(order, storey, device, zones, feeds) for device in storey.level.devices]
            yield from ruled_table(setter, _HEADS, _SHARES, rows)


def _row(order: Order, storey: Storey, device: Device, zones: dict[str, Answer], feeds: dict[str, Answer]) -> Ruled:
    zone, feed = zones.get(device.id), feeds.get(device.id)
    others = DEVICE_KIND[device.kind].located_by_others
    cells = (
        storey.name(device.id),
        _room(storey, device),
        f"{zone['number']}, {zone['type']}" if zone else "—",
        TESTS[device.kind].short,
        _ohms(zone),
        "" if zone and not others else "—",
        _volts(feed),
        "" if feed and not others else "—",
        "—" if others else "",
        "",
    )
    return Ruled(cells, 6.4, bold=True)


def _room(storey: Storey, device: Device) -> str:
    room = storey.room_of_device[device.id]
    return (room.name or room.id) if room else "—"


def _ohms(zone: Answer | None) -> str:
    """The closed loop and, after a bar, a short at its far end."""
    if zone is None or zone["loop_ohms"] is None or zone["eol_ohms"] is None:
        return "—"
    shared = ", whole zone" if len(zone["pulls"]) > 1 else ""
    return f"{zone['eol_ohms'] + zone['loop_ohms']:.1f}; short {zone['loop_ohms']:.1f}{shared}"


def _volts(feed: Answer | None) -> str:
    if feed is None or feed["cool_volts"] is None:
        return "—"
    return f"{feed['hot_volts']:.2f} to {feed['cool_volts']:.2f}"
