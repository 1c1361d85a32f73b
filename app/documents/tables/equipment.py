"""The tables of what is built in: devices, and openings with what protects them."""

from __future__ import annotations

from app.documents.plan_answers import PlanAnswers
from app.documents.tables.measure import COUNT, DEGREES, LENGTH
from app.documents.tables.table import Row, Table, columns
from app.plan.devices import DEVICE_KIND, cable_of, height_of, range_of, view_angle_of
from app.plan.model import Device
from app.review.house import Storey

_BY_OTHERS = "by others"


def devices(answers: PlanAnswers) -> Table:
    """Every device, where it is and how it is wired."""
    rows = tuple(
        Row(_device(answers, storey, device), (device.id, *device.serves))
        for storey in answers.house
        for device in storey.level.devices
    )
    return Table(
        "devices",
        "Devices",
        "Heights are above the finished floor (AFF). x runs east and y north of the plan's origin.",
        columns(
            "Device",
            "Name",
            "Kind",
            "Level",
            "Room",
            ("Height AFF", LENGTH),
            "Mount",
            "Cable",
            "Serves",
            ("Range", LENGTH),
            ("View angle", DEGREES),
            ("Facing", DEGREES),
            ("x", LENGTH),
            ("y", LENGTH),
            "Note",
        ),
        rows,
        answers.units,
    )


def _device(answers: PlanAnswers, storey: Storey, device: Device) -> tuple[str | float | None, ...]:
    kind, practice, room = DEVICE_KIND[device.kind], storey.practice, storey.room_of_device[device.id]
    reaches = device.kind in ("motion", "glass_break")
    return (
        device.id,
        storey.name(device.id),
        kind.name,
        storey.level.name,
        answers.room_name(room.id if room else None),
        height_of(device, storey.level, practice),
        device.mount or kind.mount,
        cable_of(device, practice) or (_BY_OTHERS if kind.located_by_others else ""),
        ", ".join(map(storey.name, device.serves)),
        range_of(device, practice) if reaches else None,
        view_angle_of(device, practice) if device.kind == "motion" else None,
        device.facing,
        *device.at,
        device.note or "",
    )


def openings(answers: PlanAnswers) -> Table:
    """Every window, door and cased opening, and what watches those that lead outdoors."""
    watches = {watch["id"]: watch for watch in answers.protection["states"]["openings"]}
    rows = []
    for storey in answers.house:
        for opening in storey.level.openings:
            watch = watches.get(opening.id)
            watchers = [*watch["contacts"], *watch["listeners"], *watch["motions"]] if watch else []
            cells = (
                opening.id,
                storey.level.name,
                answers.room_name(storey.scene.room_of_opening(opening.id)),
                opening.kind if opening.kind != "cased" else "cased opening",
                "outdoors" if storey.scene.is_exterior(opening) else "inside",
                opening.width,
                opening.sill,
                opening.head,
                opening.panes if opening.has_glass else 0,
                "yes" if opening.opens else "no",
                ", ".join(map(answers.house.name, watch["contacts"])) if watch else "",
                ", ".join(map(storey.name, watch["listeners"])) if watch else "",
                ", ".join(map(storey.name, watch["motions"])) if watch else "",
                watch["stay"] if watch else "",
                watch["away"] if watch else "",
            )
            rows.append(Row(cells, (opening.id, *watchers)))
    return Table(
        "openings",
        "Openings and what protects them",
        "Stay and away: where somebody who comes in by the opening is told of first.",
        columns(
            "Opening",
            "Level",
            "Room",
            "Kind",
            "Leads",
            ("Width", LENGTH),
            ("Sill", LENGTH),
            ("Head", LENGTH),
            ("Panes", COUNT),
            "Opens",
            "Contacts",
            "Glass heard by",
            "Seen by motion",
            "In stay",
            "In away",
        ),
        tuple(rows),
        answers.units,
    )
