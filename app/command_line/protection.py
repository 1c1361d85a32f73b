"""How a house is protected as a whole: stay and away, entry paths, ways in and sound, for people or as JSON."""

from __future__ import annotations

import argparse
import shutil
import textwrap
from collections.abc import Iterator
from typing import Any

from app.command_line.check_report import one_line, table
from app.command_line.plan_file import add_plan_argument, plan_named
from app.command_line.printing import print_json, print_lines
from app.review.house import House
from app.review.protection import protection

_TELLS = {"at the opening": "told there", "inside": "told inside", "nothing": "NOTHING TELLS"}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    add_plan_argument(parser)
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(chosen: argparse.Namespace) -> int:
    """Print how the house is protected; what must be mended is the check's to say."""
    house = House(plan_named(chosen.plan))
    answer = protection(house)
    if chosen.json:
        print_json(answer)
    else:
        print_lines(protection_report(house, answer, max(70, shutil.get_terminal_size((110, 24)).columns)))
    return 0


def protection_report(house: House, answer: dict[str, Any], width: int) -> Iterator[str]:
    """The lines of the report, at most ``width`` wide where words allow."""
    states = answer["states"]
    yield one_line(house.plan.name)
    yield from ("", "OPENINGS, in stay and in away")
    rows = [
        (house.name(one["id"]), _TELLS[one["stay"]], _TELLS[one["away"]], _watchers(house, one))
        for one in states["openings"]
    ]
    yield from table(("opening", "stay", "away", "by"), rows, width)
    yield f"  {states['stay_loses']['words']}"
    yield from ("", "ENTRY PATHS")
    for entry in states["entries"]:
        followers = ", ".join(house.name(one) for one in entry["followers"])
        yield f"  {entry['words']}" + (f" Followers: {followers}." if followers else "")
    yield from ("", "WAYS IN")
    for walk in answer["unseen"]:
        yield f"  {walk['words']}"
    for opening in answer["no_way"]:
        yield f"  {opening['words']}"
    if not answer["unseen"]:
        yield f"  Nobody walks more than {house.length_text(house.practice.number('walk.unseen'))} unseen."
    yield from ("", "SOUND")
    rows = [(house.name(one["thing"]), _dba(one), one["band"], _loudest(house, one)) for one in _ears(answer)]
    yield from table(("where", "dBA", "band", "mostly from"), rows, width)
    yield from textwrap.wrap(answer["sound"]["words"], width, initial_indent="  ", subsequent_indent="  ")


def _ears(answer: dict[str, Any]) -> list[dict[str, Any]]:
    return [*answer["sound"]["beds"], *answer["sound"]["rooms"]]


def _watchers(house: House, opening: dict[str, Any]) -> str:
    named = [house.name(one) for one in (*opening["contacts"], *opening["listeners"], *opening["motions"])]
    gaps = {"opened": "may be opened unnoticed", "broken": "may be broken unnoticed", "open": "stands open"}
    return "; ".join([", ".join(named) or "nothing", *(gaps[gap] for gap in opening["gaps"])])


def _dba(heard: dict[str, Any]) -> str:
    return "silence" if heard["dba"] is None else f"{heard['dba']:.0f}"


def _loudest(house: House, heard: dict[str, Any]) -> str:
    if not heard["from"]:
        return "nothing"
    ray = heard["from"][0]
    through = ", ".join(house.name(one) for one in ray["through"])
    return f"{house.name(ray['device'])}, {house.length_text(ray['feet'])}" + (
        f", through {through}" if through else ""
    )
