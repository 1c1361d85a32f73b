"""The pages of notes and tables: stay and away, findings, devices, panes, sign-off; cautions in the column."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from app.drawing.house.proof import MARK, status_mark
from app.drawing.lengths import drawn_length
from app.drawing.lettering import lettered
from app.drawing.maker import SVG
from app.drawing.palette import INK
from app.drawing.pane_marks import STATUS_WORDS
from app.drawing.sheets.columns import column_sheets
from app.drawing.sheets.flow import Block
from app.drawing.sheets.frame import Sheet
from app.drawing.sheets.homeowner.arming import away_words, stay_words
from app.drawing.sheets.homeowner.basis import basis_blocks
from app.drawing.sheets.papers import Paper
from app.drawing.sheets.setting import Cell, Row, Setter
from app.drawing.symbols import device_symbol
from app.drawing.view import Spot
from app.drawing.weights import FINE, THIN
from app.plan.devices import DEVICE_KIND, cable_of, height_of, range_of
from app.review.house import House, Storey

_STATUS = {"covered": "covered", "partial": "partly", "uncovered": "not"}
_SEVERITY = {"must": "MUST", "should": "SHOULD", "note": "NOTE"}

Answer = Mapping[str, Any]


def schedule_sheets(house: House, check: Answer, paper: Paper, first: int) -> list[Sheet]:
    """The sheets of notes and tables; ``first`` is the number in the series of the first of them."""
    return column_sheets(lambda setter: _contents(house, check, setter), paper, first, "Security notes and schedules")


def _contents(house: House, check: Answer, setter: Setter) -> Iterator[Block]:
    """Everything that flows, in the order of reading."""
    yield from setter.heading("What this plan guards")
    yield from setter.paragraph(_proof_words(check["summary"]))
    yield from setter.paragraph(stay_words(house, check["panes"]), tag="STAY")
    yield from setter.paragraph(away_words(house, check["rooms"]), tag="AWAY")
    yield from _findings(check["findings"], setter)
    several = len(house.storeys) > 1
    for storey in house:
        if storey.level.devices:
            yield from setter.heading(_of("Devices", storey, several))
            yield from _devices(storey, setter)
    for storey in house:
        panes = [pane for pane in check["panes"] if pane["level"] == storey.level.id]
        if panes:
            yield from setter.heading(_of("Glass: who hears each pane", storey, several))
            yield from _panes(storey, panes, setter)
    yield from basis_blocks(house, setter)
    yield from setter.heading("Agreed")
    yield _sign_off(setter)


def _of(title: str, storey: Storey, several: bool) -> str:
    return f"{title}, {storey.level.name}" if several else title


def _proof_words(summary: Answer) -> str:
    if not summary["panes"]:
        return "This plan has no glass to prove."
    if summary["covered"] == summary["panes"]:
        return f"Every pane of glass, {summary['panes']} in all, is covered by one glass-break detector."
    parts = [f"{summary['covered']} of {summary['panes']} panes of glass are covered by one glass-break detector each"]
    if summary["partial"]:
        parts.append(f"{summary['partial']} only in part")
    if summary["uncovered"]:
        parts.append(f"{summary['uncovered']} not at all")
    return ", ".join(parts) + "."


def _findings(findings: Sequence[Answer], setter: Setter) -> Iterator[Block]:
    yield from setter.heading("Findings to mend")
    if not findings:
        yield from setter.paragraph("None: every rule that was checked is met.")
    for finding in findings:
        yield from setter.paragraph(finding["message"], tag=_SEVERITY[finding["severity"]])


def _devices(storey: Storey, setter: Setter) -> Iterator[Block]:
    def sign(kind: str) -> Any:
        return lambda at: device_symbol(kind, at, 1.25 * setter.factor, weight=THIN)

    rows = []
    for device in storey.level.devices:
        kind, room = DEVICE_KIND[device.kind], storey.room_of_device[device.id]
        height = drawn_length(height_of(device, storey.level, storey.practice), storey.units)
        cable = cable_of(device, storey.practice) or "by others" if kind.located_by_others else ""
        cells = (
            Cell(storey.name(device.id), sign(device.kind), bold=True),
            Cell(kind.name),
            Cell(room.name or room.id if room else "—"),
            Cell(height),
            Cell(cable or cable_of(device, storey.practice) or "—"),
        )
        rows.append(Row(cells, (device.note,) if device.note else ()))
    yield from setter.table(("Device", "Kind", "Room", "Height AFF", "Cable"), (20, 28, 22, 17, 13), rows)


def _panes(storey: Storey, panes: Sequence[Answer], setter: Setter) -> Iterator[Block]:
    required = storey.practice.number("glass.required_fraction") - 0.0005
    ranges = {device.id: range_of(device, storey.practice) for device in storey.devices("glass_break")}
    rooms = {room.id: room.name or room.id for room in storey.level.rooms}

    def sign(status: str) -> Any:
        return lambda at: status_mark(status, at, MARK * setter.size)

    rows = []
    for pane in panes:
        best = pane["best"]
        hears = [device for device, share in pane["fractions"].items() if share >= required]
        if best is not None:
            hears = [best["device"], *(device for device in hears if device != best["device"])]
        cells = (
            Cell(pane["id"], bold=True),
            Cell(rooms.get(pane["room"], "—")),
            Cell(_STATUS[pane["status"]], sign(pane["status"])),
            Cell(", ".join(storey.name(device) for device in hears) or "nobody"),
            Cell(drawn_length(best["farthest_ft"], storey.units) if best else "—"),
            Cell(drawn_length(ranges[best["device"]], storey.units) if best else "—"),
        )
        rows.append(Row(cells, () if pane["status"] == "covered" else _reasons(pane)))
    heads = ("Pane", "Room", "Covered", "Heard by", "Farthest", "Limit")
    yield from setter.table(heads, (23, 23, 17, 17, 15, 11), rows)
    yield from setter.paragraph(
        "Farthest: from the detector in a straight line to the farthest corner of the pane.", quiet=True
    )


def _reasons(pane: Answer) -> tuple[str, ...]:
    return (f"{STATUS_WORDS[pane['status']].capitalize()}. {pane['why']}",)


def _sign_off(setter: Setter) -> Block:
    """Lines to sign on."""
    step = 11.0 * setter.factor
    rows = ("Homeowner", "Designer")

    def draw(at: Spot) -> Iterator[Any]:
        for number, name in enumerate(rows):
            y = at[1] + step * (number + 0.75)
            split = at[0] + setter.width * 0.68
            for start, end, word in ((at[0], split - 4, name), (split, at[0] + setter.width, "Date")):
                yield SVG.line((start, y), (end, y), stroke=INK, stroke_width=FINE)
                yield lettered(word, (start, y + 3.2 * setter.factor), setter.size * 0.92)

    return Block(step * len(rows) + 3.0 * setter.factor, draw)
