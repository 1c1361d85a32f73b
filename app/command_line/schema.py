"""Print the JSON Schema of the plan file."""

from __future__ import annotations

import argparse

from app.command_line.printing import print_json
from app.plan.reading import plan_schema


def add_arguments(_parser: argparse.ArgumentParser) -> None:
    """What the command takes: nothing."""


def run(_chosen: argparse.Namespace) -> int:
    """Print it."""
    print_json(plan_schema())
    return 0
