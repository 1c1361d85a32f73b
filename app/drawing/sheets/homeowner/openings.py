"""Each opening's protection: what it is, what tells that it is opened or broken, and what guards it in stay and away.

The answers are those of the arming states and of the check; here they are set into a table by room.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from app.coverage.arming import OpeningWatch
from app.coverage.listening import listed
from app.drawing.sheets.homeowner.glass import STATUS, status_sign
from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.plan.devices import range_of
from app.plan.model import Opening
from app.review.house import Storey

_HEADS = (
    "Opening",
    "Room",
    "What it is",
    "Size",
    "Contact",
    "Glass",
    "Heard by, farthest",
    "Motion",
    "In stay",
    "In away",
)
_SHARES = (24, 20, 26, 23, 16, 15, 35, 13, 14, 18)
_INSIDE_HEADS = ("Opening", "Between", "What it is", "Size", "Contact", "Glass")
_INSIDE_SHARES = (26, 64, 34, 26, 24, 20)
_GUARD = {"at the opening": "at once", "inside": "once inside", "nothing": "no"}
_WORST = ("uncovered", "partial", "covered")


def outer_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """The openings that lead outdoors, room by room."""
    for storey in order.house:
        watches = sorted(order.openings[storey.level.id], key=lambda watch: _room_order(storey, watch.room))
        if watches:
            yield from setter.heading(order.titled("Each opening's protection", storey))
            rows = [_outer_row(order, storey, watch, setter) for watch in watches]
            yield from setter.table(_HEADS, _SHARES, rows)
    yield from setter.paragraph(
        "At once: whatever way it is opened or broken, a device at the opening or one that hears its glass tells. "
        "Once inside: only a motion detector tells, when somebody is in the room. "
        "Farthest: from the detector to the farthest corner of the glass, and what it may be.",
        quiet=True,
    )


def inner_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """The openings between rooms, which guard nothing from outdoors but may carry a contact or glass."""
    for storey in order.house:
        outer = {watch.opening.id for watch in order.openings[storey.level.id]}
        inner = [opening for opening in storey.level.openings if opening.id not in outer]
        if inner:
            yield from setter.heading(order.titled("Openings inside the house", storey))
            rows = [_inner_row(order, storey, opening, setter) for opening in inner]
            yield from setter.table(_INSIDE_HEADS, _INSIDE_SHARES, rows)


def opening_words(opening: Opening) -> str:
    """What an opening is: its kind, its lites, and whether it is fixed."""
    words = _kind_words(opening)
    if opening.has_glass and opening.panes > 1:
        words += f", {opening.panes} lites"
    return words if opening.kind == "cased" or opening.opens else f"{words}, fixed"


def opening_size(opening: Opening, order: Order) -> str:
    """Width and height of an opening."""
    return f"{order.length(opening.width)} × {order.length(opening.head - opening.sill)}"


def _kind_words(opening: Opening) -> str:
    if opening.kind == "window":
        return "Window" if opening.has_glass else "Window without glass"
    if opening.kind == "cased":
        return "Cased opening"
    leaf = {"slide": "sliding door", "overhead": "overhead door"}.get(opening.leaf, "door")
    return f"Glazed {leaf}" if opening.has_glass else leaf.capitalize()


def _room_order(storey: Storey, room: str | None) -> int:
    rooms = list(storey.room_by_id)
    return rooms.index(room) if room in storey.room_by_id else len(rooms)


def _outer_row(order: Order, storey: Storey, watch: OpeningWatch, setter: Setter) -> Row:
    panes = order.panes_of.get(watch.opening.id, [])
    cells = (
        Cell(watch.opening.id, bold=True),
        Cell(storey.name(watch.room) if watch.room else "—"),
        Cell(opening_words(watch.opening)),
        Cell(opening_size(watch.opening, order)),
        Cell(_contact_words(order, watch.opening)),
        _glass_cell(panes, setter),
        Cell(_heard_words(order, storey, panes)),
        Cell(", ".join(storey.name(motion) for motion in watch.motions) or "—"),
        Cell(_GUARD[watch.state("stay")]),
        Cell(_GUARD[watch.state("away")]),
    )
    gaps = gap_words(storey, watch)
    return Row(cells, (gaps,) if gaps else ())


def gap_words(storey: Storey, watch: OpeningWatch) -> str:
    """What nothing at the opening tells, in words for the homeowner; empty where there is no gap."""
    words = []
    for gap in watch.gaps:
        match gap:
            case "opened":
                words.append("it has no contact: nothing at the opening tells when it is opened")
            case "broken":
                deaf = listed([storey.name(pane) for pane in watch.deaf])
                words.append(f"no one detector hears all of {deaf}: broken there, it may not be told")
            case _:
                words.append("it is a bare hole that anybody can walk in by")
    if not words:
        return ""
    inside = listed([storey.name(motion) for motion in watch.motions]) if watch.motions else ""
    after = f" In away {inside} tells once somebody is inside." if inside else " Nothing inside tells either."
    return f"Gap: {'; '.join(words)}.{after}"


def _inner_row(order: Order, storey: Storey, opening: Opening, setter: Setter) -> Row:
    rooms = [storey.scene.room_of_face.get(face) for face in storey.scene.sides[opening.id]]
    between = [storey.name(room) for room in dict.fromkeys(rooms) if room]
    return Row(
        (
            Cell(opening.id, bold=True),
            Cell(listed(between) if between else "—"),
            Cell(opening_words(opening)),
            Cell(opening_size(opening, order)),
            Cell(_contact_words(order, opening)),
            _glass_cell(order.panes_of.get(opening.id, []), setter),
        )
    )


def _contact_words(order: Order, opening: Opening) -> str:
    contacts = order.house.contacts.get(opening.id, [])
    if opening.kind == "cased" and not contacts:
        return "—"
    if contacts:
        return "yes, " + ", ".join(order.house.name(contact.id) for contact in contacts)
    return "no" if opening.opens else "fixed"


def _glass_cell(panes: Sequence[Answer], setter: Setter) -> Cell:
    """How the worst of an opening's lites stands."""
    if not panes:
        return Cell("no glass")
    worst = min((pane["status"] for pane in panes), key=_WORST.index)
    return Cell(STATUS[worst], status_sign(worst, setter))


def _heard_words(order: Order, storey: Storey, panes: Sequence[Answer]) -> str:
    """Who hears the glass best, each with the farthest corner of what it hears and the range that it may be."""
    farthest: dict[str, float] = {}
    for pane in panes:
        best = pane["best"]
        if best is not None and pane["status"] != "uncovered":
            farthest[best["device"]] = max(best["farthest_ft"], farthest.get(best["device"], 0.0))
    ranges = {device.id: range_of(device, storey.practice) for device in storey.devices("glass_break")}
    if not farthest:
        return "nobody" if panes else "—"
    return "; ".join(
        f"{storey.name(device)}, {order.length(feet)} of {order.length(ranges[device])}"
        for device, feet in farthest.items()
    )
