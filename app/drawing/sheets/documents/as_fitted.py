"""The as-fitted record: what was designed, device by device, with blanks for what was really installed."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.documents.sources import NO_CLAIM
from app.drawing.sheets.homeowner.devices import cable_words
from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import Ruled, blanks, ruled_table
from app.plan.devices import height_of
from app.plan.model import Device
from app.review.as_built import BuiltDevice
from app.review.house import Storey

_HEADS = (
    "Device",
    "Designed: where",
    "AFF",
    "Cable",
    "Cut",
    "Zone",
    "As fitted: where, height",
    "Used",
    "Zone",
    "Serial, date, by",
)
_CHANGES = 3  # rows at least; more stand where the sheet has room
_SHARES = (19, 32, 13, 15, 14, 10, 44, 18, 11, 34)


def as_fitted_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A ruled table for each level, settings, key-holders, changes."""
    pulls = {pull["label"]: pull for pull in order.wiring["pulls"]}
    zones = {label: zone["number"] for zone in order.wiring["zones"] for label in zone["pulls"]}
    yield from setter.heading("As-fitted record")
    yield from setter.paragraph(
        "The proposal brought up to what was really installed. Write what differs; leave blank what does not."
    )
    yield from setter.paragraph(
        f"As-fitted document: items from memory of common forms; no source was at hand. {NO_CLAIM}", quiet=True
    )
    yield from blanks(setter, ("Panel, its number", "Installed by, licence", "Begun", "Completed"), 2)
    for storey in order.house:
        if storey.level.devices:
            yield from setter.heading(order.titled("Devices as fitted", storey))
            rows = [_row(order, storey, device, pulls.get(device.id), zones) for device in storey.level.devices]
            yield from ruled_table(setter, _HEADS, _SHARES, rows)
    yield from _settings(order, setter)
    yield from setter.heading("Changes from the design")
    heads = ("What was changed", "Reason", "Date", "Name")
    yield from ruled_table(setter, heads, (70, 50, 15, 25), [Ruled(("",) * 4)] * _CHANGES)


def _row(order: Order, storey: Storey, device: Device, pull: Answer | None, zones: dict[str, int]) -> Ruled:
    room = storey.room_of_device[device.id]
    cut = "—" if pull is None or pull["cut_ft"] is None else order.run(pull["cut_ft"])
    cells = (
        storey.name(device.id),
        (room.name or room.id) if room else "—",
        order.length(height_of(device, storey.level, storey.practice)),
        cable_words(device, storey),
        cut,
        str(zones.get(device.id, "—")),
        *_fitted(order, order.built[device.id]),
    )
    return Ruled(cells, 6.4, bold=True)


def _fitted(order: Order, one: BuiltDevice) -> tuple[str, str, str, str]:
    """What was recorded as built: where and how high, cable used, zone, and by whom; blanks where nothing was."""
    entry = one.built
    if entry is None:
        return ("", "", "", "")
    told = {difference.field: difference for difference in one.differences}
    where = [told["at"].built] if "at" in told else []
    where += [f"{order.length(entry.height)} AFF"] if entry.height is not None else []
    if not where and entry.as_designed:
        where.append("as designed")
    where += [entry.note] if entry.note else []
    used = "" if entry.cable_ft is None else order.run(entry.cable_ft)
    zone = " / ".join(filter(None, (entry.zone, entry.terminal)))
    signed = ", ".join(filter(None, (f"{entry.on:%Y-%m-%d}" if entry.on else "", entry.by)))
    return ("; ".join(where), used, zone, signed)


def _settings(order: Order, setter: Setter) -> Iterator[Block]:
    """Times and supply as designed, with a blank for each."""
    practice = order.house.practice
    designed = {
        "Entry delay": f"{practice.number('entry.delay'):g} s",
        "Exit time": "not on the plan",
        "End-of-line resistor": f"{practice.number('zone.eol_ohms'):g} Ω",
        "Zone inputs": f"{practice.number('zone.inputs'):g}",
    }
    for supply in order.wiring["supplies"]:
        size = supply["battery"]["size_ah"]
        designed[f"Battery at {order.house.name(supply['can'])}"] = f"{size:g} Ah" if size else "no stock size"
    yield from setter.heading("Settings and supply")
    rows = [Ruled((name, value, "", ""), 6.4) for name, value in designed.items()]
    yield from ruled_table(setter, ("Setting", "Designed", "As fitted", "Date, by"), (40, 30, 40, 40), rows)
    yield from setter.heading("Key-holders and users")
    rows = [Ruled(("", "", "", ""), 6.4) for _ in range(4)]
    yield from ruled_table(setter, ("Name", "How reached", "May do what", "From, until"), (40, 40, 40, 30), rows)
