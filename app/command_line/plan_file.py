"""The plan file that a command names: read, or refused with a line a fault."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from app.command_line.failing import CannotDo
from app.plan.faults import PlanRefused
from app.plan.model import Plan
from app.plan.reading import LARGEST_FILE, read_plan, read_plan_file


def add_plan_argument(parser: argparse.ArgumentParser) -> None:
    """Let the command take a plan file."""
    parser.add_argument("plan", metavar="PLAN.json", help="a plan file; - reads it from standard input")


def plan_named(name: str) -> Plan:
    """The plan in a file; raises ``CannotDo``."""
    try:
        if name == "-":
            return read_plan(sys.stdin.buffer.read(LARGEST_FILE + 1))
        return read_plan_file(Path(name))
    except PlanRefused as refused:
        raise CannotDo.over(refused.faults) from None
    except ValueError as error:  # a name that no file can have
        raise CannotDo(f"{name!r}: the file cannot be read ({error}); check its name and place") from None
