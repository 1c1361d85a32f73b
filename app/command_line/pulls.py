"""The cable schedule of a plan: pulls, boxes and totals, as text, JSON or CSV."""

from __future__ import annotations

import argparse

from app.command_line.plan_file import add_plan_argument, plan_named
from app.command_line.printing import print_json, print_text
from app.wiring.answer import wiring_answer
from app.wiring.schedule.text import schedule_csv, schedule_text
from app.wiring.wiring import Wiring


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    add_plan_argument(parser)
    form = parser.add_mutually_exclusive_group()
    form.add_argument("--json", action="store_true", help="print one JSON object")
    form.add_argument("--csv", action="store_true", help="print the pulls as CSV")


def run(chosen: argparse.Namespace) -> int:
    """Print the schedule."""
    wiring = Wiring(plan_named(chosen.plan))
    if chosen.json:
        print_json(wiring_answer(wiring))
    else:
        schedule = wiring.schedule
        print_text(schedule_csv(schedule) if chosen.csv else schedule_text(schedule))
    return 0
