"""Houses of many levels for benchmarks: the storeys of a sample one over another, each with things of its own."""

import copy
import json
from pathlib import Path

SAMPLE = Path(__file__).parents[2] / "sample_plans" / "cobble-court.json"
FAMILIES = ("walls", "openings", "fixtures", "rooms", "devices")


def tower_plan(levels):
    """A plan of so many levels, by turns the ground floor and the upper floor of a sample."""
    plan = json.loads(SAMPLE.read_text(encoding="utf-8"))
    storeys = plan["levels"]
    plan["levels"] = [_level(storeys[number % len(storeys)], number) for number in range(levels)]
    return plan | {"name": f"A tower of {levels} levels", "risers": []}


def _level(storey, number):
    level = copy.deepcopy(storey) | {"id": f"L{number}", "name": f"Level {number + 1}", "elevation": 10.0 * number}
    for family in FAMILIES:
        for thing in level.get(family, []):
            thing["id"] += f".{number}"
            if "wall" in thing:
                thing["wall"] += f".{number}"
            if "serves" in thing:
                thing["serves"] = [f"{opening}.{number}" for opening in thing["serves"]]
    return level
