"""The tables of cable: pulls, boxes and totals from the rows of the cable schedule, and the rough-in round."""

from __future__ import annotations

from app.documents.plan_answers import PlanAnswers
from app.documents.tables.measure import BORE, BORE_AREA, CABLE, COUNT, LENGTH
from app.documents.tables.table import Row, Table, columns, rows
from app.wiring.schedule.rows import box_rows, pull_rows, total_rows
from app.wiring.schedule.schedule import box_values


def pulls(answers: PlanAnswers) -> Table:
    """Every home run."""
    schedule = answers.house.wiring.schedule
    return Table(
        "pulls",
        "Pulls",
        "Every home run: measured along its way, and cut with waste and slack at both ends.",
        columns(
            "Label",
            "Cable",
            "Device",
            "Carries",
            "Level",
            "Room",
            "Can",
            ("Measured", CABLE),
            ("Cut", CABLE),
            "Box",
            "Tag at device",
            "Tag at can",
        ),
        rows(pull_rows(schedule), [(pull.device.id, *([pull.can] if pull.can else ())) for pull in schedule.pulls]),
        answers.units,
    )


def boxes(answers: PlanAnswers) -> Table:
    """Every box of cable to buy."""
    schedule = answers.house.wiring.schedule
    device_of = {pull.label: pull.device.id for pull in schedule.pulls}
    return Table(
        "boxes",
        "Boxes of cable",
        "Which pulls come from which box, in pulling order.",
        columns("Box", "Cable", ("Size", CABLE), ("Used", CABLE), ("Left", CABLE), "Pulls in pulling order"),
        rows(box_rows(schedule), [[device_of[label] for label in box["pulls"]] for box in box_values(schedule)]),
        answers.units,
    )


def totals(answers: PlanAnswers) -> Table:
    """What is pulled and bought of each cable."""
    found = total_rows(answers.house.wiring.schedule)
    return Table(
        "totals",
        "Cable totals",
        "What is measured, cut and bought of each cable.",
        columns(
            "Cable",
            ("Pulls", COUNT),
            ("Measured", CABLE),
            ("Cut", CABLE),
            ("Bought", CABLE),
            ("Boxes", COUNT),
            "Fewest feet proven",
        ),
        rows(found, [()] * len(found)),
        answers.units,
    )


def rough_in(answers: PlanAnswers) -> Table:
    """The crew's round, room by room."""
    found = tuple(
        Row(
            (
                room["level"],
                room["room"],
                stop["label"],
                stop["name"],
                stop["cable"],
                stop["height_ft"],
                stop["drilling"],
            ),
            (stop["device"],),
        )
        for room in answers.wiring["rough_in"]["rooms"]
        for stop in room["stops"]
    )
    return Table(
        "rough-in",
        "Rough-in round",
        "Room by room, before the drywall. Verify on site; the adopted local code and the sensor's spec sheet decide.",
        columns("Level", "Room", "Pull", "Device", "Cable", ("Height AFF", LENGTH), "Drilling"),
        found,
        answers.units,
    )


def holes(answers: PlanAnswers) -> Table:
    """The bundles that pass a floor or go down to a can, and the one hole that would hold each."""
    found = tuple(
        Row(
            (
                hole["where"],
                ", ".join(f"{count} × {cable}" for cable, count in hole["cables"].items()),
                hole["area_sqin"],
                hole["hole_in"],
                ", ".join(hole["plates"]),
                ", ".join(hole["unknown"]),
            ),
            (hole["thing"],),
        )
        for hole in answers.wiring["rough_in"]["holes"]
    )
    return Table(
        "holes",
        "Holes for bundles",
        "Were all cables of a bundle to share one bored hole. Ask before cutting: the adopted local code, the "
        "structural engineer and the equipment's listing decide.",
        columns(
            "Where",
            "Cables",
            ("Area of cable", BORE_AREA),
            ("Smallest hole", BORE),
            "Steel plate needed in",
            "Cables of unknown diameter",
        ),
        found,
        answers.units,
    )


def drilling_cautions(answers: PlanAnswers) -> Table:
    """What the crew reads before drilling."""
    found = tuple(Row((caution["words"], caution["source"])) for caution in answers.wiring["rough_in"]["cautions"])
    words = "Read before drilling; the adopted local code and licensed practice decide."
    return Table("cautions", "Cautions", words, columns("Caution", "Source"), found, answers.units)
