"""The printed set as a PDF file: plans at true scale, schedules, stay and away, cautions, sign-off."""

from __future__ import annotations

import argparse
import sys
from datetime import UTC, datetime
from pathlib import Path

from app.command_line.failing import CannotDo
from app.command_line.out_file import refuse_unwritable, write_whole
from app.command_line.plan_file import add_plan_argument, plan_named
from app.command_line.printing import print_lines
from app.documents.printed_set import set_as_pdf
from app.drawing.sheet import sheet_context
from app.drawing.sheets.drawn_sheets import lacking_words, not_told
from app.drawing.sheets.habits import HABITS
from app.drawing.sheets.papers import PAPERS
from app.drawing.sheets.sets import HOMEOWNER, SETS
from app.review.check import check_plan

NOT_KEPT = "not kept"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    add_plan_argument(parser)
    parser.add_argument("-o", "--out", metavar="OUT.pdf", type=Path, required=True, help="the PDF file to write")
    parser.add_argument("--set", dest="readers", choices=list(SETS), default=HOMEOWNER, help="who it is for")
    parser.add_argument("--paper", choices=list(PAPERS), default="", help="the habit's letter or a4 unless said")
    parser.add_argument("--scale", default="auto", help="such as 1/4, 1/8 or 1:50; the largest that fits unless said")
    parser.add_argument(
        "--habit",
        choices=list(HABITS),
        default="",
        help="how sheets are numbered, dated and framed: us, or iso for a metric plan, unless said",
    )
    parser.add_argument("--revision", default=NOT_KEPT, help="what stands in the title block")
    parser.add_argument("--progress", action="store_true", help="tell each sheet on stderr, also where no one watches")


def run(chosen: argparse.Namespace) -> int:
    """Write the set; stopped on the way it leaves no file."""
    plan = plan_named(chosen.plan)
    refuse_unwritable(chosen.out)
    told = _Teller(sys.stderr.isatty()).told if chosen.progress or sys.stderr.isatty() else not_told
    try:
        context = sheet_context(
            plan,
            check_plan(plan),
            paper=chosen.paper,
            scale=chosen.scale,
            habit=chosen.habit,
            revision=chosen.revision,
            saved_at=datetime.now(UTC).isoformat(timespec="minutes"),
            readers=chosen.readers,
            told=told,
        )
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
