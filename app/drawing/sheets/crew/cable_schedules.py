"""What the crew reads of the cable: pulls, boxes, labels, rough-in room by room, zones, power; as blocks that flow.

The numbers are the wiring answer's; here they are only set into tables with boxes to tick.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from app.drawing.lengths import drawn_length
from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.sheets.flow import Block
from app.drawing.sheets.setting import Cell, Row, Setter
from app.drawing.view import Spot
from app.drawing.weights import FINE

Answer = Mapping[str, Any]
_NONE = "—"


def cable_contents(wiring: Answer, setter: Setter, units: str) -> Iterator[Block]:
    """Everything that the crew's sheets say of the cable, in the order of the work."""
    yield from _to_buy(wiring, setter)
    yield from _pulls(wiring["pulls"], setter, units)
    yield from _boxes(wiring["boxes"], setter)
    yield from _rough_in(wiring["rough_in"], setter, units)
    yield from _zones(wiring["zones"], setter)
    yield from _power(wiring, setter)


def _to_buy(wiring: Answer, setter: Setter) -> Iterator[Block]:
    yield from setter.heading("Cable to buy")
    rows = []
    for cable, total in wiring["totals"].items():
        sizes = [f"{box['size_ft']:g} ft" for box in wiring["boxes"] if box["cable"] == cable]
        bought = ", ".join(f"{sizes.count(size)} × {size}" for size in sorted(set(sizes), reverse=True))
        rows.append(Row(_cells(cable, str(total["pulls"]), f"{total['cut_ft']:g} ft", bought or _NONE)))
    yield from setter.table(("Cable", "Pulls", "Cut", "Boxes"), (16, 12, 18, 54), rows)
    yield from setter.paragraph(
        "Every pull is one piece from its device to the can, cut with waste and slack; no splice in the wall.",
        quiet=True,
    )


def _pulls(pulls: Sequence[Answer], setter: Setter, units: str) -> Iterator[Block]:
    yield from setter.heading("Pulls: label both ends")
    rows = [
        Row(
            (
                Cell(pull["label"], _tick(setter), bold=True),
                Cell(pull["cable"]),
                Cell(f"{pull['room_name'] or _NONE}, {pull['level_name']}"),
                Cell(_NONE if pull["measured_ft"] is None else drawn_length(pull["measured_ft"], units)),
                Cell(_NONE if pull["cut_ft"] is None else f"{pull['cut_ft']} ft"),
                Cell(pull["can"] or _NONE),
            ),
            () if pull["route"] else ("No way to a can: give a can on this level, or a riser that links the levels.",),
        )
        for pull in pulls
    ]
    yield from setter.table(("Label", "Cable", "Room", "Measured", "Cut", "To"), (18, 12, 36, 17, 12, 15), rows)


def _boxes(boxes: Sequence[Answer], setter: Setter) -> Iterator[Block]:
    yield from setter.heading("Boxes, in pulling order")
    rows = [
        Row(
            _cells(box["box"], f"{box['size_ft']:g} ft", f"{box['used_ft']:g} ft", f"{box['left_ft']:g} ft"),
            (", ".join(box["pulls"]),),
        )
        for box in boxes
    ]
    yield from setter.table(("Box", "Holds", "Used", "Left"), (34, 22, 22, 22), rows)


def _rough_in(rough_in: Answer, setter: Setter, units: str) -> Iterator[Block]:
    yield from setter.heading("Rough-in, room by room")
    for room in rough_in["rooms"]:
        yield setter.space(1.5)
        yield from setter.paragraph(f"{room['room'] or 'No room'}, {room['level']}", bold=True)
        rows = [
            Row(
                (
                    Cell(stop["label"], _tick(setter), bold=True),
                    Cell(stop["cable"]),
                    Cell(drawn_length(stop["height_ft"], units)),
                    Cell("Hole ______ × ______" if stop["drilling"] else ""),
                ),
                (stop["drilling"],) if stop["drilling"] else (),
            )
            for stop in room["stops"]
        ]
        yield from setter.table(("Label", "Cable", "Height AFF", "From the spec sheet"), (24, 18, 22, 36), rows)
    if rough_in["holes"]:
        yield setter.space(1.5)
        yield from setter.paragraph("Holes that cables share", bold=True)
        yield from setter.table(("Where", "Cables", "Least hole"), (44, 36, 20), map(_hole, rough_in["holes"]))
    yield from setter.heading("Before drilling")
    for caution in rough_in["cautions"]:
        yield from setter.paragraph(f"{caution['words']} ({caution['source']})")


def _hole(hole: Answer) -> Row:
    cables = ", ".join(f"{count} × {cable}" for cable, count in hole["cables"].items())
    notes = tuple(f"Nail plate on a {stud} stud." for stud in hole["plates"])
    return Row(_cells(hole["where"], cables, f"{hole['hole_in']:.2f} in"), notes)


def _zones(zones: Sequence[Answer], setter: Setter) -> Iterator[Block]:
    yield from setter.heading("Zones, grouped at the can only")
    rows = [
        Row(
            (
                Cell(str(zone["number"]), bold=True),
                Cell(zone["type"]),
                Cell(", ".join(zone["pulls"])),
                Cell(_NONE if zone["eol_ohms"] is None else f"{zone['eol_ohms']:g} Ω at {zone['resistor_at']}"),
                Cell(_NONE if zone["loop_ohms"] is None else f"{zone['loop_ohms']:.1f} Ω"),
            )
        )
        for zone in zones
    ]
    yield from setter.table(("Zone", "Type", "Pulls", "End of line", "Loop"), (9, 20, 34, 25, 12), rows)


def _power(wiring: Answer, setter: Setter) -> Iterator[Block]:
    yield from setter.heading("Power and battery")
    rows = [
        Row(
            (
                Cell(feed["label"], bold=True),
                Cell(f"{feed['milliamperes']:g} mA"),
                *(Cell(_volts(feed[key])) for key in ("cool_volts", "hot_volts", "battery_volts")),
            )
        )
        for feed in wiring["feeds"]
    ]
    heads = ("Device", "Draws", "Volts, 20 °C", "Volts, 75 °C", "On battery")
    yield from setter.table(heads, (22, 18, 20, 20, 20), rows)
    yield setter.space(1.5)
    for supply in wiring["supplies"]:
        battery = supply["battery"]
        hours, minutes = f"{battery['standby_hours']:g} h standby", f"{battery['alarm_minutes']:g} min alarm"
        draws = f"{supply['auxiliary_alarm_ma']:g} mA of {supply['auxiliary_limit_ma']:g} mA auxiliary in alarm"
        yield from setter.paragraph(
            f"{supply['can']}: {draws}, sirens {supply['siren_alarm_ma']:g} mA of {supply['siren_limit_ma']:g} mA, "
            f"{supply['zones']} zones of {supply['inputs']} inputs. Battery {battery['size_ah'] or _NONE} Ah: "
            f"{battery['needed_ah']:.2f} Ah for {hours} and {minutes}, with margin "
            f"{battery['with_margin_ah']:.2f} Ah ({battery['edition']}; {battery['source']})."
        )
    yield from setter.paragraph(
        "Worked out from the currents of the practice; the equipment's listing and the adopted edition decide.",
        quiet=True,
    )


def _volts(volts: float | None) -> str:
    return _NONE if volts is None else f"{volts:.2f} V"


def _cells(first: str, *others: str) -> tuple[Cell, ...]:
    return (Cell(first, bold=True), *map(Cell, others))


def _tick(setter: Setter) -> Any:
    """A box to tick, before a label."""
    side = 2.3 * setter.factor

    def draw(at: Spot) -> Any:
        corner = (round(at[0] - side / 2, 3), round(at[1] - side / 2, 3))
        return SVG.rect(corner, (side, side), fill="none", stroke=INK, stroke_width=FINE)

    return draw
