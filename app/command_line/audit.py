"""Check every plan of a folder, a line each; the plans are shared out among the machine's processors."""

from __future__ import annotations

import argparse
import multiprocessing
import os
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from app.command_line.check_report import one_line, summary_line, table
from app.command_line.failing import CannotDo
from app.command_line.printing import print_json, print_lines
from app.plan.faults import PlanRefused
from app.plan.reading import read_plan_file
from app.review.check import check_plan

_FEW = 4  # plans that are checked sooner than processes start
_COUNTS = ("panes", "covered", "partial", "uncovered", "must", "should", "note")


@dataclass(frozen=True)
class Audited:
    """How one file came out: its plan's name and sum, or why it cannot be used."""

    file: str
    plan: str
    summary: dict[str, int]
    faults: tuple[str, ...] = ()


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("folder", metavar="FOLDER", type=Path, help="a folder of plan files (*.json)")
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(chosen: argparse.Namespace) -> int:
    """Print the table; 1 where a plan has something that must be mended, 2 where a file cannot be used."""
    if not chosen.folder.is_dir():
        raise CannotDo(f"{chosen.folder}: there is no such folder; name one that holds plan files")
    files = sorted(chosen.folder.glob("*.json"))
    if not files:
        raise CannotDo(f"{chosen.folder}: no plan files (*.json) in this folder")
    audited = _audited(files)
    if chosen.json:
        print_json({"plans": audited, "totals": _totals(audited)})
    else:
        print_lines(_report(audited))
    if any(one.faults for one in audited):
        return 2
    return 1 if any(one.summary["must"] for one in audited) else 0


def audit_file(path: Path) -> Audited:
    """Check one file."""
    try:
        plan = read_plan_file(path)
    except PlanRefused as refused:
        return Audited(path.name, "", dict.fromkeys(_COUNTS, 0), tuple(map(str, refused.faults)))
    return Audited(path.name, one_line(plan.name), check_plan(plan)["summary"])


def _audited(files: list[Path]) -> list[Audited]:
    if len(files) <= _FEW:
        return [audit_file(path) for path in files]
    workers = min(len(files), os.cpu_count() or 1)
    with ProcessPoolExecutor(workers, mp_context=multiprocessing.get_context("spawn")) as pool:
        return list(pool.map(audit_file, files))


def _totals(audited: list[Audited]) -> dict[str, int]:
    totals: Counter[str] = Counter(dict.fromkeys(_COUNTS, 0))
    for one in audited:
        totals.update({count: one.summary[count] for count in _COUNTS})
    return dict(totals)


def _report(audited: list[Audited]) -> list[str]:
    rows = []
    for one in audited:
        counts = ["–"] * len(_COUNTS) if one.faults else [str(one.summary[count]) for count in _COUNTS]
        more = f" (and {len(one.faults) - 1} more)" if len(one.faults) > 1 else ""
        rows.append((one.file, *counts, f"cannot be used: {one.faults[0]}{more}" if one.faults else one.plan))
    unusable = sum(bool(one.faults) for one in audited)
    ending = f"; {unusable} cannot be used" if unusable else ""
    return [
        *table(("file", *_COUNTS, "plan"), rows, width=140),
        "",
        f"{len(audited)} plans: {summary_line(_totals(audited))}{ending}",
    ]
