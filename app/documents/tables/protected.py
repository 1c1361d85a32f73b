"""The tables of how the house is protected as a whole: entry paths, ways in, and the sound at beds and in rooms."""

from __future__ import annotations

from app.documents.plan_answers import Answer, PlanAnswers
from app.documents.tables.measure import DECIBELS, LENGTH, SECONDS
from app.documents.tables.table import Cell, Row, Table, columns


def entries(answers: PlanAnswers) -> Table:
    """From each entry door to its keypad."""
    rows = tuple(
        Row(
            (
                entry["door"],
                answers.house.name(entry["keypad"]),
                entry["feet"],
                entry["seconds"],
                entry["delay"],
                "yes" if entry["in_time"] else "no",
                ", ".join(map(answers.house.name, entry["followers"])),
            ),
            (entry["door"], entry["keypad"], *entry["followers"]),
        )
        for entry in answers.protection["states"]["entries"]
    )
    return Table(
        "entry-paths",
        "Entry paths",
        "The walk from each entry door to the nearest keypad against the entry delay; motion detectors that see it "
        "must follow the delay.",
        columns(
            "Door", "Keypad", ("Walk", LENGTH), ("Takes", SECONDS), ("Entry delay", SECONDS), "In time", "Followers"
        ),
        rows,
        answers.units,
    )


def ways_in(answers: PlanAnswers) -> Table:
    """The walks from every way in to a bedroom and to the heart of the home."""
    house = answers.house

    def state(walk: Answer) -> tuple[Cell, ...]:
        first = walk["first"]
        told = f"{house.name(first['device'])}, {first['how']}" if first else "nobody"
        return (told, first["feet"] if first else None, walk["unseen_ft"])

    rows = tuple(
        Row(
            (way["opening"], answers.room_name(way["goal"]), way["feet"], *state(way["stay"]), *state(way["away"])),
            (way["opening"],),
        )
        for way in answers.protection["ways_in"]
    )
    return Table(
        "ways-in",
        "Ways in",
        "The shortest walk from each opening that somebody can come in by, who tells of it first, and how far it goes "
        "on unseen.",
        columns(
            "Opening",
            "To",
            ("Walk", LENGTH),
            "Stay: first told by",
            ("Stay: after", LENGTH),
            ("Stay: unseen", LENGTH),
            "Away: first told by",
            ("Away: after", LENGTH),
            ("Away: unseen", LENGTH),
        ),
        rows,
        answers.units,
    )


def sound(answers: PlanAnswers) -> Table:
    """The level at every bed and in every closed room."""
    sound, house = answers.protection["sound"], answers.house
    rows = []
    for place, heard in [("bed", one) for one in sound["beds"]] + [("room", one) for one in sound["rooms"]]:
        loudest = heard["from"][0] if heard["from"] else None
        cells = (
            house.name(heard["thing"]),
            place,
            answers.storey(heard["level"]).level.name,
            heard["dba"],
            heard["band"],
            house.name(loudest["device"]) if loudest else "",
            loudest["feet"] if loudest else None,
            ", ".join(map(house.name, loudest["through"])) if loudest else "",
        )
        rows.append(Row(cells, (heard["thing"], *([loudest["device"]] if loudest else ()))))
    return Table(
        "sound",
        "Sound at beds and in rooms",
        sound["words"],
        columns(
            "Place", "Is a", "Level", ("Sound", DECIBELS), "Band", "Loudest source", ("Its distance", LENGTH), "Through"
        ),
        tuple(rows),
        answers.units,
    )
