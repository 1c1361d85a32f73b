"""The tables of the proof: panes, rooms, motion detectors and findings."""

from __future__ import annotations

from app.documents.plan_answers import PlanAnswers
from app.documents.tables.measure import AREA, LENGTH, SHARE
from app.documents.tables.table import Row, Table, columns
from app.drawing.pane_marks import STATUS_WORDS


def panes(answers: PlanAnswers) -> Table:
    """Every pane of glass and who hears it."""
    house, limit = answers.house, answers.house.practice.number("glass.range")
    ranges = {device.id: device.range or limit for storey in house for device in storey.devices("glass_break")}
    rows = []
    for pane in answers.check["panes"]:
        best, storey = pane["best"], answers.storey(pane["level"])
        others = [device for device in pane["fractions"] if best is None or device != best["device"]]
        cells = (
            pane["id"],
            storey.level.name,
            answers.room_name(pane["room"]),
            STATUS_WORDS[pane["status"]],
            storey.name(best["device"]) if best else "",
            100 * best["fraction"] if best else 0.0,
            best["farthest_ft"] if best else None,
            ranges[best["device"]] if best else None,
            ", ".join(map(storey.name, others)),
            pane["area_sqft"],
            pane["sill"],
            pane["head"],
            pane["why"],
            pane["mend"]["words"] if pane["mend"] else "",
        )
        rows.append(Row(cells, (pane["id"], pane["opening"], *([best["device"]] if best else ()))))
    return Table(
        "panes",
        "Panes of glass",
        "How each pane is covered by one glass-break detector: the share of it in line of sight and within range, and "
        "the straight distance to its farthest corner.",
        columns(
            "Pane",
            "Level",
            "Room",
            "Covered",
            "Best heard by",
            ("Share", SHARE),
            ("Farthest", LENGTH),
            ("Limit", LENGTH),
            "Also heard by",
            ("Area", AREA),
            ("Sill", LENGTH),
            ("Head", LENGTH),
            "Why",
            "What would mend it",
        ),
        tuple(rows),
        answers.units,
    )


def rooms(answers: PlanAnswers) -> Table:
    """Every room with the floor that motion detectors watch."""
    rows = []
    for room in answers.check["rooms"]:
        storey = answers.storey(room["level"])
        cells = (
            answers.room_name(room["id"]),
            storey.level.name,
            room["use"].replace("_", " "),
            room["area_sqft"],
            100 * room["motion_fraction"],
            ", ".join(map(storey.name, room["motions"])),
        )
        rows.append(Row(cells, (room["id"], *room["motions"])))
    return Table(
        "rooms",
        "Rooms",
        "Floor within the walls, and the share of it that motion detectors see.",
        columns("Room", "Level", "Use", ("Floor", AREA), ("Watched by motion", SHARE), "Motion detectors"),
        tuple(rows),
        answers.units,
    )


def motions(answers: PlanAnswers) -> Table:
    """Every motion detector with the floor that it watches."""
    rows = []
    for motion in answers.check["motions"]:
        storey = answers.storey(motion["level"])
        watched = [room for room in answers.of_level("rooms", motion["level"]) if motion["id"] in room["motions"]]
        home = storey.room_of_device[motion["id"]]
        cells = (
            storey.name(motion["id"]),
            storey.level.name,
            answers.room_name(home.id if home else None),
            motion["area_sqft"],
            ", ".join(answers.room_name(room["id"]) for room in watched),
        )
        rows.append(Row(cells, (motion["id"],)))
    return Table(
        "motions",
        "Motion detectors",
        "The floor that each motion detector sees, and in which rooms.",
        columns("Motion detector", "Level", "Stands in", ("Watches", AREA), "In rooms"),
        tuple(rows),
        answers.units,
    )


def findings(answers: PlanAnswers) -> Table:
    """What is to be mended, the gravest first."""
    rows = tuple(
        Row(
            (
                finding["severity"],
                finding["message"],
                ", ".join(map(answers.house.name, finding["things"])),
                finding["rule"],
                finding["source"],
            ),
            tuple(finding["things"]),
        )
        for finding in answers.check["findings"]
    )
    return Table(
        "findings",
        "Findings",
        "What the rules of the practice found, and who says so. Local codes and the equipment's listing decide.",
        columns("Severity", "Finding", "About", "Rule", "Source"),
        rows,
        answers.units,
    )
