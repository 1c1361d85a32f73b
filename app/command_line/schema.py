"""Print the JSON Schema of the plan file."""

from __future__ import annotations

import argparse
import json

from app.plan.reading import plan_schema


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes: nothing."""


def run(_chosen: argparse.Namespace) -> int:
    """Print it."""
    print(json.dumps(plan_schema(), indent=2))
    return 0
