"""The first pass over a plan: a proposed set of devices, each with its reason, written as a new plan file."""

from __future__ import annotations

import argparse
import contextlib
import json
import signal
import sys
import textwrap
from collections.abc import Iterator
from pathlib import Path
from types import FrameType

from app.command_line.out_file import refuse_unwritable, write_whole
from app.command_line.plan_file import add_plan_argument, plan_named
from app.command_line.printing import print_json, print_lines
from app.plan.model import Plan
from app.plan.reading import plan_value
from app.proposal.draft import SECONDS, Draft, draft_answer, draft_plan

_WIDTH = 110
_LONGEST = 3600.0  # s


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    add_plan_argument(parser)
    parser.add_argument("-o", "--out", metavar="OUT.json", type=Path, required=True, help="the plan file to write")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument(
        "--seconds",
        type=_seconds,
        default=SECONDS,
        help=f"longest search for the fewest glass breaks ({SECONDS:g}); cut short it tells its gap",
    )


def run(chosen: argparse.Namespace) -> int:
    """Propose, write and tell; 1 where an exterior pane stays uncovered."""
    plan = plan_named(chosen.plan)
    refuse_unwritable(chosen.out)
    with _first_interrupt_stops() as stopped:
        draft = draft_plan(plan, progress=_progress, stop=lambda: bool(stopped), seconds=chosen.seconds)
    text = json.dumps(plan_value(draft.plan), ensure_ascii=False, indent=1) + "\n"
    write_whole(chosen.out, text.encode())
    if chosen.json:
        print_json(draft_answer(draft))
    else:
        print_lines(_report(plan, draft, chosen.out))
    return 0 if draft.covers_all else 1


def _seconds(text: str) -> float:
    try:
        value = float(text)
    except ValueError:
        value = -1.0
    if not 0 < value <= _LONGEST:
        raise argparse.ArgumentTypeError(f"give seconds from a little over 0 to {_LONGEST:g}")
    return value


@contextlib.contextmanager
def _first_interrupt_stops() -> Iterator[list[bool]]:
    """Within it the first Ctrl+C asks the pass to end with what it has; the second ends the program as ever."""
    stopped: list[bool] = []
    before = signal.getsignal(signal.SIGINT)

    def ask(_number: int, _frame: FrameType | None) -> None:
        stopped.append(True)
        print("stopping with what is found; press again to leave at once", file=sys.stderr)
        signal.signal(signal.SIGINT, before)

    try:
        signal.signal(signal.SIGINT, ask)
    except ValueError:  # not in the main thread, where no interrupt comes
        yield stopped
        return
    try:
        yield stopped
    finally:
        signal.signal(signal.SIGINT, before)


def _progress(share: float, words: str) -> None:
    if sys.stderr.isatty():
        line = f"{share:4.0%} {words}"[:78]
        print(f"\r{line:<78}", end="\n" if share >= 1 else "", file=sys.stderr, flush=True)


def _report(plan: Plan, draft: Draft, out: Path) -> Iterator[str]:
    """The lines that tell a draft: proposals level by level, what no ceiling covers, the proof."""
    yield " ".join(plan.name.split())
    for level in plan.levels:
        here = [one for one in draft.proposals if one.level == level.id]
        if here:
            yield from ("", f"{' '.join(level.name.split())} ({level.id}): {len(here)} proposed")
        for one in here:
            x, y = one.device.at
            head = f"  {one.device.id:<8} at {x:g}, {y:g}: "
            yield from _wrapped(head, one.reason)
    for linked in draft.risers:
        x, y = linked.riser.at
        yield from ("", *_wrapped(f"  {linked.riser.id:<8} riser at {x:g}, {y:g}: ", linked.reason))
    if draft.unreachable:
        yield from ("", f"No place on a ceiling covers {len(draft.unreachable)} of the panes")
        for pane in draft.unreachable:
            instead = f" {pane.instead} covers it from a wall." if pane.instead else " It stays uncovered."
            yield from _wrapped(f"  {pane.pane}: ", pane.why + instead)
    if draft.untried:
        yield from ("", f"Stopped before {len(draft.untried)} panes were tried: {', '.join(draft.untried[:20])}")
    yield from ("", f"Proof: {draft.proof.words}", f"Written: {out}")


def _wrapped(head: str, words: str) -> Iterator[str]:
    yield from textwrap.wrap(head + " ".join(words.split()), _WIDTH, subsequent_indent=" " * 11)
