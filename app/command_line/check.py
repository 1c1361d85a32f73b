"""Coverage and findings of a plan, for people or as JSON."""

from __future__ import annotations

import argparse
import sys

from app.command_line.plan_file import add_plan_argument, plan_named
from app.review.check import check_plan
from app.web.workshop.bench import as_json


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    add_plan_argument(parser)
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(chosen: argparse.Namespace) -> int:
    """Print the check; 1 where something must be mended."""
    plan = plan_named(chosen.plan)
    answer = check_plan(plan)
    if chosen.json:
        sys.stdout.write(as_json(answer).decode() + "\n")
    return 1 if answer["summary"]["must"] else 0
