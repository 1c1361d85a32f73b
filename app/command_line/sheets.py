"""The printed set as a PDF file: plans at true scale, schedules, stay and away, cautions, sign-off."""

from __future__ import annotations

import argparse
from datetime import UTC, datetime
from pathlib import Path

from app.command_line.failing import CannotDo
from app.command_line.out_file import refuse_unwritable, write_whole
from app.command_line.plan_file import add_plan_argument, plan_named
from app.command_line.printing import print_lines
from app.documents.printed_set import printed_set
from app.drawing.sheets.papers import PAPERS
from app.drawing.sheets.sets import HOMEOWNER, SETS
from app.review.check import check_plan

NOT_KEPT = "not kept"


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    add_plan_argument(parser)
    parser.add_argument("-o", "--out", metavar="OUT.pdf", type=Path, required=True, help="the PDF file to write")
    parser.add_argument("--set", dest="readers", choices=list(SETS), default=HOMEOWNER, help="who it is for")
    parser.add_argument("--paper", choices=list(PAPERS), help="letter, or a4 for a metric plan, unless said")
    parser.add_argument("--scale", default="auto", help="such as 1/4, 1/8 or 1:50; the largest that fits unless said")
    parser.add_argument("--revision", default=NOT_KEPT, help="what stands in the title block")


def run(chosen: argparse.Namespace) -> int:
    """Write the set."""
    plan = plan_named(chosen.plan)
    refuse_unwritable(chosen.out)
    paper = chosen.paper or ("a4" if plan.units == "metric" else "letter")
    now = datetime.now(UTC).isoformat(timespec="minutes")
    try:
        pdf = printed_set(
            plan,
            check_plan(plan),
            paper=paper,
            scale=chosen.scale,
            revision=chosen.revision,
            saved_at=now,
            readers=chosen.readers,
        )
    except ValueError as refused:
        raise CannotDo(str(refused)) from None
    write_whole(chosen.out, pdf)
    print_lines([f"Written: {chosen.out} ({PAPERS[paper].name})"])
    return 0
