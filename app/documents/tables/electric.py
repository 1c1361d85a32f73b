"""The tables of zones and power: zones, what arrives at each device, and the supply and battery of each can."""

from __future__ import annotations

from app.documents.plan_answers import PlanAnswers
from app.documents.tables.measure import (
    AMPERE_HOURS,
    CABLE,
    COUNT,
    HOURS,
    MILLIAMPERES,
    MINUTES,
    OHMS,
    VOLTS,
    plain,
)
from app.documents.tables.table import Row, Table, columns


def zones(answers: PlanAnswers) -> Table:
    """Every zone of every can."""
    types = answers.wiring["zone_types"]
    device_of = {pull["label"]: pull["device"] for pull in answers.wiring["pulls"]}
    rows = tuple(
        Row(
            (
                zone["can"],
                zone["number"],
                zone["type"],
                zone["words"],
                ", ".join(zone["pulls"]),
                zone["eol_ohms"],
                zone["resistor_at"],
                zone["loop_ohms"],
                zone["hot_loop_ohms"],
                types.get(zone["type"], ""),
            ),
            tuple(device_of[label] for label in zone["pulls"]),
        )
        for zone in answers.wiring["zones"]
    )
    return Table(
        "zones",
        "Zones",
        "Loops are made at the can, never at an opening. Resistance of the loop's wire at 68 °F (20 °C), and warm.",
        columns(
            "Can",
            ("Zone", COUNT),
            "Type",
            "Watches",
            "Pulls",
            ("End-of-line", OHMS),
            "Resistor at",
            ("Loop", plain(3, "Ω")),
            ("Loop, warm", plain(3, "Ω")),
            "What the type does",
        ),
        rows,
        answers.units,
    )


def feeds(answers: PlanAnswers) -> Table:
    """How power arrives at each device."""
    rows = tuple(
        Row(
            (
                feed["label"],
                answers.house.name(feed["device"]),
                feed["milliamperes"],
                feed["one_way_ft"],
                feed["cool_volts"],
                feed["hot_volts"],
                feed["battery_volts"],
                feed["longest_ft"],
                "" if feed["gauge_that_holds"] is None else f"{feed['gauge_that_holds']} AWG",
            ),
            (feed["device"],),
        )
        for feed in answers.wiring["feeds"]
    )
    return Table(
        "feeds",
        "Power at each device",
        "Voltage at the end of each powered run by its cut length; the equipment's data sheets decide.",
        columns(
            "Pull",
            "Device",
            ("Draws", MILLIAMPERES),
            ("One way", CABLE),
            ("Arrives", VOLTS),
            ("Arrives, warm wire", VOLTS),
            ("Arrives, battery run down", VOLTS),
            ("Longest run that holds", CABLE),
            "Gauge that holds",
        ),
        rows,
        answers.units,
    )


def supplies(answers: PlanAnswers) -> Table:
    """What hangs on each can, and its battery."""
    rows = []
    for supply in answers.wiring["supplies"]:
        battery = supply["battery"]
        cells = (
            supply["can"],
            supply["auxiliary_standby_ma"],
            supply["auxiliary_alarm_ma"],
            supply["auxiliary_limit_ma"],
            supply["siren_alarm_ma"],
            supply["siren_limit_ma"],
            supply["zones"],
            supply["inputs"],
            battery["standby_hours"],
            battery["alarm_minutes"],
            battery["needed_ah"],
            battery["with_margin_ah"],
            battery["size_ah"],
            battery["source"],
            battery["edition"],
        )
        rows.append(Row(cells, (supply["can"],)))
    return Table(
        "supplies",
        "Supplies and batteries",
        "Loads of each can against the limits of the practice, and the battery for the standby basis that is named.",
        columns(
            "Can",
            ("Auxiliary, standby", MILLIAMPERES),
            ("Auxiliary, alarm", MILLIAMPERES),
            ("Auxiliary limit", MILLIAMPERES),
            ("Sirens, alarm", MILLIAMPERES),
            ("Siren limit", MILLIAMPERES),
            ("Zones", COUNT),
            ("Zone inputs", COUNT),
            ("Standby", HOURS),
            ("Alarm", MINUTES),
            ("Battery needed", AMPERE_HOURS),
            ("With margin", AMPERE_HOURS),
            ("Battery to fit", AMPERE_HOURS),
            "Standby basis",
            "Margin",
        ),
        tuple(rows),
        answers.units,
    )
