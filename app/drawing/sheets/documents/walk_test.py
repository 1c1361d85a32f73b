"""The walk-test sheet: with the customer present, each device is made to tell, room by room, and the keypad is read."""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.crew.answers import must_answer
from app.drawing.sheets.crew.tests_by_kind import TESTS, hearing_caution
from app.drawing.sheets.documents.sources import RECORDS
from app.drawing.sheets.order import Order
from app.drawing.sheets.setting.blocks import Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import Ruled, blanks, ruled_table
from app.plan.devices import DEVICE_KIND
from app.plan.model import Device
from app.review.house import Storey

_HEADS = ("Room", "Device", "What is done", "Must answer to", "Told", "Keypad said", "Remarks")
_MORE = 3  # bare rows at least; more stand where the sheet has room
_SHARES = (26, 20, 34, 62, 12, 24, 26)

_SIGNED = (
    "Tested by, signature",
    "Customer, signature",
    "Date, receiving centre told at",
    "All told, or tested again on",
)


def walk_test_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """A table for each level, in the order of a walk through its rooms; then bare rows."""
    yield from setter.heading("Walk test and operational test")
    yield from setter.paragraph(
        "In walk test, doors and curtains as they will be. A motion detector must answer within four steps of 24 in at "
        "one step a second (UL 1641-2015 15.3.1); a door before it stands 2 in open (licensing-exam pages), a window "
        "before it stands 6 in open (UL 1641-2015 10.1); glass by the tester that the detector's maker names."
    )
    if order.devices("siren"):
        yield from setter.paragraph(hearing_caution(order.house.practice), bold=True)
    yield from setter.paragraph(f"{RECORDS}. NFPA 731, Chapter 10: verify correct operation.", quiet=True)
    yield from blanks(setter, _SIGNED, 2)
    for storey in order.house:
        if storey.level.devices:
            yield from setter.heading(order.titled("Room by room", storey))
            rows = [_row(order, storey, device) for device in _walk(storey)]
            yield from ruled_table(setter, _HEADS, _SHARES, rows)
    yield from setter.heading("Tested again, or added on site")
    yield from ruled_table(setter, _HEADS, _SHARES, [Ruled(("",) * len(_HEADS))] * _MORE)


def _walk(storey: Storey) -> list[Device]:
    """The level's devices room by room, in the order of its rooms."""
    rooms = list(storey.room_by_id)

    def place(device: Device) -> int:
        room = storey.room_of_device[device.id]
        return rooms.index(room.id) if room else len(rooms)

    return sorted(storey.level.devices, key=place)


def _row(order: Order, storey: Storey, device: Device) -> Ruled:
    others = DEVICE_KIND[device.kind].located_by_others
    judges = device.kind in ("motion", "glass_break")
    answer = must_answer(order, storey, device) if judges else ", ".join(device.serves)
    told, room = "—" if others else "", storey.room_of_device[device.id]
    cells = (
        (room.name or room.id) if room else "—",
        storey.name(device.id),
        TESTS[device.kind].short,
        answer or "—",
        told,
        told,
        "",
    )
    return Ruled(cells, 6.4)
