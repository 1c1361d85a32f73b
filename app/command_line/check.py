"""Coverage and findings of a plan, for people or as JSON."""

from __future__ import annotations

import argparse
import shutil

from app.command_line.check_report import check_report
from app.command_line.plan_file import add_plan_argument, plan_named
from app.command_line.printing import print_json, print_lines
from app.review.check import check_plan


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    add_plan_argument(parser)
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(chosen: argparse.Namespace) -> int:
    """Print the check; 1 where something must be mended."""
    plan = plan_named(chosen.plan)
    answer = check_plan(plan)
    if chosen.json:
        print_json(answer)
    else:
        print_lines(check_report(plan, answer, max(70, shutil.get_terminal_size((110, 24)).columns)))
    return 1 if answer["summary"]["must"] else 0
