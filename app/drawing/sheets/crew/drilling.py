"""The drilling sheet: every hole that the plan asks for, what limits it, and blanks for what a spec sheet must tell.

No size of a sensor's hole is given here: it comes from the spec sheet of the sensor at hand. Limits for framing are
those of NEC 300.4 and IRC R602.6, worked out for common studs; the adopted code and the engineer decide.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.drawing.sheets.crew.device_plans import mount_of
from app.drawing.sheets.crew.inches import at_least, at_most
from app.drawing.sheets.crew.set_out import set_out
from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import Ruled, ruled_table
from app.plan.devices import cable_of, height_of
from app.plan.model import Device, Opening
from app.plan.room_uses import SLEEPING, use_of
from app.review.house import CONTACT_KINDS, Storey
from app.wiring.rough_in import CAUTIONS, EDGE_DISTANCE, STUD_DEPTHS, hole_for

_CONTACT_HEADS = (
    "Contact",
    "Where",
    "AFF",
    "Mount",
    "Track hole within",
    "Way out",
    "Hole × depth",
    "Word of",
    "Sealed",
)
_CONTACT_SHARES = (17, 62, 14, 16, 30, 14, 24, 20, 12)
_CEILING = ("ceiling",)
_STOP = (
    "Before drilling: read the sensor's own spec sheet and write hole size and depth here; look for mains, pipes and "
    "reinforcement; know which parts are structure; and have the permit and the licence that the place asks for."
)
_RULES = (
    "Windows: only with the window manufacturer's written word, whose name and day are kept under “word of”; a hole in "
    "the frame may void the warranty and let in water, so seal it (claims-journal article; trade column on liability). "
    "In a track, {clear} or more from its top and its base (common practice, no source).",
    "Doors: clear of hinges, lock and weather strip; a fire-rated frame or door only with its maker's word. Overhead "
    "doors: clear of track, springs and cables.",
    "Way out: a bedroom's window that opens may be the way out in a fire. Nothing may narrow its clear opening or "
    "need a tool to open it (IRC R310.2); the adopted code decides.",
)
_EDGE, _NOTCH_BEARING, _NOTCH_OTHER = 0.625, 0.25, 0.40  # in; shares of the depth, IRC R602.6
_BEARING, _OTHER = 0.40, 0.60  # shares of the depth that a hole may take, IRC R602.6


def drilling_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Contacts in openings, holes through plates and ceilings, and what framing allows."""
    yield from setter.heading("Holes in doors and windows")
    yield from setter.paragraph(_STOP, bold=True)
    clear = at_least(order.house.practice.number("contact.track_clearance") * 12, order.house.plan.units)
    for words in _RULES:
        yield from setter.paragraph(words.format(clear=clear))
    contacts = [
        Ruled(_contact_cells(order, storey, device), bold=True) for storey, device in order.devices(*CONTACT_KINDS)
    ]
    if contacts:
        yield setter.space(1.0)
        yield from ruled_table(setter, _CONTACT_HEADS, _CONTACT_SHARES, contacts)
    else:
        yield from setter.paragraph("No contact is on the plan, so no door or window is drilled.")
    yield from _framing_holes(order, setter)
    yield from _limits(order, setter)
    yield from setter.heading("Cautions when drilling")
    for caution in CAUTIONS:
        yield from setter.paragraph(f"{caution.words} ({caution.source})")


def _contact_cells(order: Order, storey: Storey, device: Device) -> tuple[str, ...]:
    height = order.length(height_of(device, storey.level, storey.practice))
    served = [
        (where, where.opening_by_id[one])
        for where in order.house
        for one in device.serves
        if one in where.opening_by_id
    ]
    track = "—"
    if device.kind == "window_contact":
        track = "; ".join(dict.fromkeys(_track(order, opening) for _, opening in served)) or "—"
    out = any(_may_be_way_out(where, opening) for where, opening in served)
    word = "" if device.kind == "window_contact" else "—"
    name, where = storey.name(device.id), set_out(order, storey, device)
    return (name, where, height, mount_of(device), track, "yes" if out else "—", "", word, "")


def _track(order: Order, opening: Opening) -> str:
    """The heights between which a hole may go in a window's track."""
    clear = order.house.practice.number("contact.track_clearance")
    low, high = opening.sill + clear, opening.head - clear
    return f"{order.length(low)} to {order.length(high)}" if low <= high else "none, too low"


def _may_be_way_out(storey: Storey, opening: Opening) -> bool:
    room = storey.room_by_id.get(storey.scene.room_of_opening(opening.id) or "")
    return room is not None and use_of(room) in SLEEPING and opening.opens and storey.scene.is_exterior(opening)


def _framing_holes(order: Order, setter: Setter) -> Iterator[Block]:
    """Plates, headers and ceilings: a hole for each wall device's own cable, and those that bundles share."""
    units, practice = order.house.plan.units, order.house.practice
    shared = order.wiring["rough_in"]["holes"]
    own: dict[tuple[str, str], list[str]] = {}
    for storey, device in order.devices():
        cable = cable_of(device, practice)
        if cable and device.kind != "can":
            through = "ceiling board" if mount_of(device) in _CEILING else _through(device)
            own.setdefault((through, cable), []).append(storey.name(device.id))
    if not own and not shared:
        return
    yield from setter.heading("Holes in plates, headers and ceilings")
    rows = [
        Row(
            (
                Cell(through.capitalize(), bold=True),
                Cell(cable),
                Cell(", ".join(labels)),
                Cell(_least(hole_for([(cable, 1)], practice).hole_in, units)),
            )
        )
        for (through, cable), labels in own.items()
    ]
    rows += [_shared_row(hole, units) for hole in shared]
    yield from setter.table(("Through", "Cable", "For", "Least hole"), (38, 30, 104, 26), rows)
    share = practice.number("cable.hole_fill")
    yield from setter.paragraph(
        f"Least hole: cable may fill {share:.0%} of it, a yardstick borrowed from NEC Chapter 9 Table 1. Several "
        "cables may pass one hole where framing allows; every hole through a plate is sealed (NEC 300.21, IRC "
        "R302.11).",
        quiet=True,
    )


def _through(device: Device) -> str:
    return "header or jamb, then top plate" if device.kind in CONTACT_KINDS else "top plate, then wall board"


def _shared_row(hole: Answer, units: str) -> Row:
    cables = ", ".join(f"{count} × {cable}" for cable, count in hole["cables"].items())
    plates = " and ".join(hole["plates"])
    notes = (f"All in one hole, a {plates} stud or plate needs a steel nail plate; or bore several.",) if plates else ()
    return Row(
        (Cell(hole["where"], bold=True), Cell(cables), Cell("all of its bundle"), Cell(_least(hole["hole_in"], units))),
        notes,
    )


def _least(inches: float, units: str) -> str:
    return at_least(inches, units) if inches > 0 else "measure the cable"


def _limits(order: Order, setter: Setter) -> Iterator[Block]:
    """What common studs allow, each number worked out from the published rule."""
    units = order.house.plan.units
    yield from setter.heading("What studs and plates allow")
    rows = []
    for name, depth in STUD_DEPTHS:
        limits = (
            depth - 2 * EDGE_DISTANCE,
            _BEARING * depth,
            _OTHER * depth,
            _NOTCH_BEARING * depth,
            _NOTCH_OTHER * depth,
        )
        rows.append(Row((Cell(name, bold=True), *(Cell(at_most(limit, units)) for limit in limits))))
    heads = (
        "Stud",
        "Centred hole without a steel plate",
        "Hole, bearing or exterior wall",
        "Hole, other wall",
        "Notch, bearing",
        "Notch, other",
    )
    yield from setter.table(heads, (18, 42, 40, 30, 30, 30), rows)
    edge, face = at_least(_EDGE, units), at_least(EDGE_DISTANCE, units)
    yield from setter.paragraph(
        f"Without a plate: the hole's edge {face} or more from the stud's face (NEC 300.4(A)(1)). Holes up to 40 % of "
        f"the depth in bearing and exterior walls, 60 % in others, edge {edge} or more, not in line with a notch; "
        "notches up to 25 and 40 % (IRC R602.6). Sawn stud depths of 3 1/2 and 5 1/2 in. The smaller limit governs.",
        quiet=True,
    )
