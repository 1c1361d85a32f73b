"""The printed set as a PDF file: plans at true scale, schedules, stay and away, cautions, sign-off."""

from __future__ import annotations

import argparse
import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from app.command_line.data_folder import add_data_argument
from app.command_line.failing import CannotDo
from app.command_line.letterhead import add_letterhead_argument, letterhead_named
from app.command_line.out_file import refuse_unwritable, write_whole
from app.command_line.plan_file import plan_named
from app.command_line.printing import print_lines
from app.documents.printed_set import set_as_pdf
from app.drawing.sheet import sheet_context
from app.drawing.sheets.drawn_sheets import lacking_words, not_told
from app.drawing.sheets.paper.habits import HABITS
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import AUTOMATIC, SCALES
from app.drawing.sheets.sets import HOMEOWNER, SETS
from app.plan.faults import PlanRefused
from app.plan.model import Plan
from app.review.check import check_plan

NOT_KEPT = "not kept"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("plan", metavar="PLAN.json", nargs="?", help="a plan file; - reads it from standard input")
    parser.add_argument("--kept", metavar="PLAN", default="", help="instead of a file: a kept plan's id or name")
    parser.add_argument("-o", "--out", metavar="OUT.pdf", type=Path, required=True, help="the PDF file to write")
    parser.add_argument("--set", dest="readers", choices=list(SETS), help=f"who it is for ({HOMEOWNER})")
    parser.add_argument("--paper", choices=list(PAPERS), default="", help="the habit's letter or a4 unless said")
    parser.add_argument("--scale", default="", help="such as 1/4, 1/8 or 1:50; the largest that fits unless said")
    parser.add_argument(
        "--habit",
        choices=list(HABITS),
        default="",
        help="how sheets are numbered, dated and framed: us, or iso for a metric plan, unless said",
    )
    parser.add_argument("--revision", help="what stands in the title block")
    add_letterhead_argument(parser)
    parser.add_argument(
        "--underlays", action="store_true", help="print a kept plan's pictures under levels, faded, beneath the walls"
    )
    add_data_argument(parser)
    parser.add_argument("--progress", action="store_true", help="tell each sheet on stderr, also where no one watches")


def run(chosen: argparse.Namespace) -> int:
    """Write the set; stopped on the way it leaves no file."""
    refuse_unwritable(chosen.out)
    plan, choices = _asked(chosen)
    told = _Teller(sys.stderr.isatty()).told if chosen.progress or sys.stderr.isatty() else not_told
    try:
        context = sheet_context(plan, check_plan(plan), habit=chosen.habit, told=told, **choices)
    except PlanRefused as refused:
        raise CannotDo.over(refused.faults) from None
    except ValueError as refused:
        raise CannotDo(str(refused)) from None
    pdf = set_as_pdf(context, told)
    write_whole(chosen.out, pdf)
    for lacking in context["lacking"]:
        print(lacking_words(lacking), file=sys.stderr)
    count = len(context["sheets"])
    sheets = "1 sheet" if count == 1 else f"{count} sheets"
    print_lines([f"Written: {chosen.out} ({sheets}, {PAPERS[context['paper']].name})"])
    return 0


def _asked(chosen: argparse.Namespace) -> tuple[Plan, dict[str, Any]]:
    """The plan of a file or of the data folder, and what of its set is not as usual."""
    if bool(chosen.plan) == bool(chosen.kept):
        raise CannotDo("name one plan: a plan file, or a kept plan by --kept")
    if chosen.underlays and not chosen.kept:
        raise CannotDo("--underlays: a plan file holds no pictures; name the kept plan by --kept instead of the file")
    given = {"readers": chosen.readers, "paper": chosen.paper, "scale": chosen.scale, "revision": chosen.revision}
    if chosen.letterhead:
        given["letterhead"] = letterhead_named(chosen.letterhead, chosen.data)
    if chosen.kept:
        plan, usual = _kept(chosen)
    else:
        plan, usual = plan_named(chosen.plan), {"saved_at": datetime.now(UTC).isoformat(timespec="minutes")}
    usual = {"readers": HOMEOWNER, "scale": AUTOMATIC, "revision": NOT_KEPT} | usual
    return plan, usual | {key: value for key, value in given.items() if value}


def _kept(chosen: argparse.Namespace) -> tuple[Plan, dict[str, Any]]:
    """A kept plan, and its set as its page prints it."""
    from app.command_line.kept_plan import kept_for_print  # as in data_folder

    kept = kept_for_print(chosen.kept, chosen.data, pictures=chosen.underlays)
    if chosen.underlays and not kept.laid:
        raise CannotDo("--underlays: no picture is shown under a level of this plan; print without")
    habit = kept.stationery.habit
    own = {
        "readers": habit.set if habit.set in SETS else "",
        "paper": habit.paper if habit.paper in PAPERS else "",
        "scale": habit.scale if habit.scale in SCALES else "",
    }
    return kept.plan, {key: value for key, value in own.items() if value} | {
        "revision": kept.revision,
        "saved_at": kept.saved_at,
        "letterhead": tuple(kept.stationery.letterhead.lines()),
        "as_built": kept.as_built,
        "laid": kept.laid,
    }


class _Teller:
    """Tells each sheet on stderr: in one line that is written over where a person watches, else a line each."""

    def __init__(self, watched: bool) -> None:
        self._watched = watched

    def told(self, done: int, count: int, words: str) -> None:
        """Say which sheet is drawn next."""
        line = f"sheet {min(done + 1, count)} of {count}: {words}" if done < count else words
        if self._watched:
            end = "\n" if done == count else ""
            print(f"\r{line[:100]:<100}", end=end, file=sys.stderr, flush=True)
        else:
            print(line, file=sys.stderr, flush=True)
