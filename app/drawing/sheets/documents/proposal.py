"""The system design proposal: what is offered, circuit by circuit, with its extent, its limits and the acceptance.

What the plan knows is printed; grade, notification, monitoring and the like are blanks, as no plan decides them.
"""

from __future__ import annotations

from collections.abc import Iterator

from app.coverage.listening import listed
from app.drawing.sheets.crew.answers import must_answer
from app.drawing.sheets.documents.sources import NO_CLAIM, PROPOSAL
from app.drawing.sheets.documents.survey import premises_words
from app.drawing.sheets.homeowner.arming import away_words, perimeter_of, stay_words
from app.drawing.sheets.homeowner.sign_off import signature_lines
from app.drawing.sheets.order import Answer, Order
from app.drawing.sheets.setting.blocks import Cell, Row, Setter
from app.drawing.sheets.setting.flow import Block
from app.drawing.sheets.setting.ruled import blanks, writing_lines
from app.plan.devices import DEVICE_KIND, range_of, view_angle_of
from app.plan.model import Device
from app.review.house import Storey
from app.review.protection import entries

_CIRCUIT_HEADS = ("Circuit", "Function", "Device", "Where", "Covers", "Entry time")
_CIRCUIT_SHARES = (14, 26, 44, 40, 62, 16)
_LEFT_AND_RIGHT = "Left, right, front and rear are as seen standing outside and facing the front."
_MAY_MOVE = (
    "The final position of a device and the zone that it is given may be changed by the installer in agreement with "
    "the customer; the as-fitted record then says so."
)
_INSURER = "Show this proposal to your insurer before you accept it, and ask whether it meets what the policy asks."


def proposal_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Whose system, of what extent, by what devices."""
    job = order.job
    yield from setter.heading("System design proposal")
    of_plan = {
        "Client": job.client,
        "Site": job.address,
        "Premises": premises_words(order),
        "Designed by": job.designer,
        "Issue": f"revision {job.revision} of {job.saved_at}",
    }
    yield from setter.table(
        ("Of", "As the plan says"),
        (22, 78),
        [Row((Cell(of, bold=True), Cell(said or "—"))) for of, said in of_plan.items()],
    )
    yield setter.space(1.0)
    asked = ("Proposal number", "Standards claimed", "Grade", "Notification", "Environmental class", "Front faces")
    yield from blanks(setter, asked, 2)
    yield setter.space(1.0)
    yield from blanks(setter, ("Survey and risk assessment made on what information; copy attached",))
    yield setter.space(1.2)
    yield from setter.paragraph(f"{_LEFT_AND_RIGHT} The front is not on the plan; write the side of the compass above.")
    yield from setter.heading("Extent and limits of cover *")
    said = {
        "Part set (stay)": stay_words(order.house, order.check["panes"]),
        "Full set (away)": away_words(order.house, order.check["rooms"]),
        "Limits": _limits(order),
    }
    rows = [Row((Cell(state, bold=True), Cell(words))) for state, words in said.items()]
    yield from setter.table(("Set", "What is covered"), (22, 78), rows)
    yield from _setting(order, setter)


def _limits(order: Order) -> str:
    edge = perimeter_of(order.house, order.check["panes"])
    gaps = []
    if edge.bare:
        one = len(edge.bare) == 1
        gaps.append(f"{len(edge.bare)} outer {'opening has' if one else 'openings have'} no contact")
    if edge.missed:
        gaps.append(f"{edge.missed} outer {'pane is' if edge.missed == 1 else 'panes are'} not wholly heard")
    blind = [room for level in order.rooms.values() for room in level if not room.motions]
    if blind:
        gaps.append(f"{len(blind)} {'room is' if len(blind) == 1 else 'rooms are'} not watched for motion")
    words = listed(gaps) if gaps else "no gap is known at outer doors, windows and glass"
    return (
        f"{words[:1].upper()}{words[1:]}. Walls, floors and roofs are not protected. Coverage is worked out from "
        "straight lines on the plan; furniture, curtains and sounds change it."
    )


def _setting(order: Order, setter: Setter) -> Iterator[Block]:
    """How it is set and unset, what warns, what powers it; and what the plan does not say."""
    yield from setter.heading("Setting, warning and power *")
    delay = order.house.practice.number("entry.delay")
    routes = [
        f"{order.house.name(path.walk.opening)} to {order.house.name(path.walk.goal)}" for path in entries(order.house)
    ]
    route = listed(routes) if routes else "none is told by a contact and a keypad"
    yield from setter.paragraph(f"Entry and exit routes: {route}; entry time {delay:g} s.")
    sirens = order.devices("siren")
    rated = f"{order.house.practice.number('siren.rated'):g} dBA at 10 ft"
    where = (
        listed([f"{storey.name(device.id)} in {order.place(storey, device)}" for storey, device in sirens])
        if sirens
        else "none"
    )
    yield from setter.paragraph(f"Warning devices: {where}" + (f", each taken at {rated}." if sirens else "."))
    for supply in order.wiring["supplies"]:
        yield from setter.paragraph(_power(order, supply))
    yield from blanks(
        setter,
        (
            "Users and what each may do",
            "Transmission, by which line",
            "Receiving centre",
            "Response",
            "Maintenance: visits a year",
            "Repair within",
        ),
        2,
    )


def _power(order: Order, supply: Answer) -> str:
    battery = supply["battery"]
    size = f"{battery['size_ah']:g} Ah" if battery["size_ah"] else "no stock size"
    return (
        f"Power at {order.house.name(supply['can'])}: battery {size} for {battery['standby_hours']:g} h and "
        f"{battery['alarm_minutes']:g} min of alarm, {battery['needed_ah']:.2f} Ah and margin ({battery['edition']})."
    )


def circuit_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Every circuit with its function, device, place, coverage and entry time; then what has no circuit of its own."""
    yield from setter.heading("Circuits")
    zones = order.wiring["zones"]
    on_zone = {label for zone in zones for label in zone["pulls"]}
    rows = [_circuit(order, zone, label) for zone in zones for label in zone["pulls"]]
    rows += [_without_circuit(order, storey, device) for storey, device in order.devices() if device.id not in on_zone]
    if rows:
        yield from setter.table(_CIRCUIT_HEADS, _CIRCUIT_SHARES, rows)
    else:
        yield from setter.paragraph("No device is on the plan.")
    yield setter.space(1.2)
    yield from setter.paragraph(f"{_MAY_MOVE} {_INSURER}")
    yield from setter.paragraph("Plans of the homeowner's set are attached and part of this proposal.")


def _circuit(order: Order, zone: Answer, label: str) -> Row:
    storey, device = order.by_pull[label]
    delayed = zone["type"] in ("entry/exit", "interior follower")
    entry = f"{order.house.practice.number('entry.delay'):g} s" if delayed else "none"
    return Row(
        (
            Cell(str(zone["number"]), bold=True),
            Cell("final exit" if zone["type"] == "entry/exit" else f"alarm, {zone['type']}"),
            Cell(f"{storey.name(device.id)}, {DEVICE_KIND[device.kind].name}"),
            Cell(order.place(storey, device)),
            Cell(_covers(order, storey, device)),
            Cell(entry),
        )
    )


def _without_circuit(order: Order, storey: Storey, device: Device) -> Row:
    kind = DEVICE_KIND[device.kind]
    function = {"can": "control and supply", "keypad": "set and unset", "siren": "warning"}.get(
        device.kind, "by others"
    )
    cells = ("—", function, f"{storey.name(device.id)}, {kind.name}", order.place(storey, device), "—", "—")
    return Row(tuple(Cell(words, bold=number == 0) for number, words in enumerate(cells)))


def _covers(order: Order, storey: Storey, device: Device) -> str:
    """What a device watches: openings of a contact, panes of a glass break, reach and rooms of a motion detector."""
    if device.serves:
        return f"opening of {listed(list(device.serves))}"
    if device.kind == "motion":
        reach = f"{order.length(range_of(device, storey.practice))} × {view_angle_of(device, storey.practice):g}°"
        return f"{reach} unobstructed: {must_answer(order, storey, device)}"
    if device.kind == "glass_break":
        return f"glass within {order.length(range_of(device, storey.practice))}: {must_answer(order, storey, device)}"
    return "standing water at its place" if device.kind == "flood" else "—"


def acceptance_blocks(order: Order, setter: Setter) -> Iterator[Block]:
    """Remarks, and the signatures."""
    yield from setter.heading("Acceptance of the proposal *")
    yield from setter.paragraph(
        "What is accepted: this proposal, its circuits on the sheets that follow, and the attached plans of the "
        "homeowner's set. Agreed changes and remarks:"
    )
    yield from writing_lines(setter, 3)
    yield signature_lines(setter, ("Customer", "For the installer"))
    yield from setter.paragraph(f"{PROPOSAL}. {NO_CLAIM}", quiet=True)
