"""The pull schedule as one table of plain values, which the text, the CSV and the workbook all write."""

from __future__ import annotations

from app.wiring.schedule.schedule import Schedule, box_values
from app.wiring.schedule.tags import tag_at_can, tag_at_device

Cell = str | float | int | None

PULL_HEADINGS = (
    "Label",
    "Cable",
    "Device",
    "Carries",
    "Level",
    "Room",
    "Can",
    "Measured ft",
    "Cut ft",
    "Box",
    "Tag at device",
    "Tag at can",
)
BOX_HEADINGS = ("Box", "Cable", "Size ft", "Used ft", "Left ft", "Pulls in pulling order")
TOTAL_HEADINGS = ("Cable", "Pulls", "Measured ft", "Cut ft", "Bought ft", "Boxes", "Fewest feet proven")


def pull_rows(schedule: Schedule) -> list[tuple[Cell, ...]]:
    """A row for each pull under ``PULL_HEADINGS``."""
    box_of = {label: box["box"] for box in box_values(schedule) for label in box["pulls"]}
    return [
        (
            pull.label,
            pull.cable,
            pull.name,
            pull.carries,
            pull.level.name,
            pull.room_name,
            pull.can,
            None if pull.measured_ft is None else round(pull.measured_ft, 2),
            pull.cut_ft,
            box_of.get(pull.label),
            tag_at_device(pull),
            tag_at_can(pull),
        )
        for pull in schedule.pulls
    ]


def box_rows(schedule: Schedule) -> list[tuple[Cell, ...]]:
    """A row for each box under ``BOX_HEADINGS``."""
    return [
        (box["box"], box["cable"], box["size_ft"], box["used_ft"], box["left_ft"], ", ".join(box["pulls"]))
        for box in box_values(schedule)
    ]


def total_rows(schedule: Schedule) -> list[tuple[Cell, ...]]:
    """A row for each cable under ``TOTAL_HEADINGS``."""
    counts = schedule.counts
    return [
        (
            cable,
            counts[cable],
            round(sum(pull.measured_ft or 0.0 for pull in schedule.routed[cable]), 2),
            sum(pull.cut_ft or 0 for pull in schedule.routed[cable]),
            packing.bought_ft,
            len(packing.boxes),
            "yes" if packing.proven else f"no: at least {packing.bound_ft:g} ft",
        )
        for cable, packing in schedule.packings.items()
    ]
