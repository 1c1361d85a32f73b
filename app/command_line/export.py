"""Files that other programs read: tables as workbook or CSV, plans as SVG or DXF, or all of it as one page to share.

The name of the file says which: .xlsx, .csv, .zip, .svg, .dxf or .html.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from app.command_line.failing import CannotDo
from app.command_line.out_file import refuse_unwritable, write_whole
from app.command_line.plan_file import add_plan_argument, plan_named
from app.command_line.printing import print_lines
from app.documents.files import CSV, DXF, SHARE, SVG, XLSX, ZIP, file_of
from app.documents.plan_answers import Edition, PlanAnswers
from app.documents.plan_svg import PLANS
from app.documents.share.leaving_out import LEAVABLE, WHY_ASKED, what_it_shows
from app.documents.tables.all_tables import TABLES
from app.drawing.sheets.paper.scales import SCALES

NOT_KEPT = "not kept"
YES = "yes"
_WHAT: Mapping[str, str] = {
    XLSX: "every table, a sheet each",
    ZIP: "every table as CSV",
    CSV: "one table, named by --table",
    SVG: "the plan of each level at true scale, a file a level",
    DXF: "all levels as one drawing at real size, or one by --level",
    SHARE: "plans, proof and tables as one page that a phone shows offline",
}
_GOES_WITH: Mapping[str, tuple[str, ...]] = {
    "table": (CSV,),
    "level": (SVG, DXF),
    "show": (SVG,),
    "scale": (SVG,),
    "leave_out": (SHARE,),
    "confirm": (SHARE,),
}


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    kinds = "; ".join(f".{form}: {words}" for form, words in _WHAT.items())
    add_plan_argument(parser)
    parser.add_argument("-o", "--out", metavar="OUT", type=Path, required=True, help=f"the file to write. {kinds}")
    parser.add_argument("--table", choices=list(TABLES), metavar="TABLE", help=f"for .csv: one of {', '.join(TABLES)}")
    parser.add_argument("--level", metavar="ID", help="for .svg and .dxf: this level alone")
    parser.add_argument("--show", choices=list(PLANS), help="for .svg: what it shows (proof)")
    parser.add_argument("--scale", choices=list(SCALES), metavar="SCALE", help=f"for .svg: {', '.join(SCALES)}")
    parser.add_argument("--leave-out", nargs="+", choices=list(LEAVABLE), help="for .html: what stays out of the page")
    parser.add_argument(
        "--confirm", action="store_true", help="for .html: you know that the page shows where every detector is"
    )
    parser.add_argument("--revision", default=NOT_KEPT, help="which revision the file says that it shows")


def run(chosen: argparse.Namespace) -> int:
    """Write the file, or a file a level."""
    form = chosen.out.suffix.lower().removeprefix(".")
    _refuse_odd(form, chosen)
    plan = plan_named(chosen.plan)
    refuse_unwritable(chosen.out)
    answers, edition = PlanAnswers.of(plan), Edition(chosen.revision, datetime.now(UTC).isoformat(timespec="minutes"))
    if chosen.level is not None and plan.level(chosen.level) is None:
        known = ", ".join(level.id for level in plan.levels)
        raise CannotDo(f"--level {chosen.level}: the plan has no such level; it has {known}")
    if form == SHARE:
        _confirmed(answers, chosen.confirm)
    made = [(out, file_of(answers, edition, form, **choices)) for out, choices in _files(form, chosen, answers)]
    for out, content in made:
        write_whole(out, content)
    print_lines(f"Written: {out}" for out, _ in made)
    return 0


def _refuse_odd(form: str, chosen: argparse.Namespace) -> None:
    """Refuse a name that says no form, and options that the form has no use for."""
    if form not in _WHAT:
        raise CannotDo(f"{chosen.out}: the name says no kind of file; end it with .{', .'.join(_WHAT)}")
    for option, forms in _GOES_WITH.items():
        if getattr(chosen, option) and form not in forms:
            written = option.replace("_", "-")
            raise CannotDo(f"--{written} goes with .{' and .'.join(forms)}, not with .{form}; leave it out")
    if form == CSV and chosen.table is None:
        raise CannotDo(f"--table is missing: a .csv holds one table; name one of {', '.join(TABLES)}, or write a .zip")


def _files(form: str, chosen: argparse.Namespace, answers: PlanAnswers) -> Iterator[tuple[Path, dict[str, Any]]]:
    """The files to write with what is chosen of each: an SVG shows one level, so a house of several takes several."""
    if form != SVG:
        choices = {
            CSV: {"table": chosen.table},
            DXF: {"level": chosen.level},
            SHARE: {"left_out": chosen.leave_out or ()},
        }
        yield chosen.out, choices.get(form, {})
        return
    levels = [level.id for level in answers.plan.levels] if chosen.level is None else [chosen.level]
    for level in levels:
        out = chosen.out if len(levels) == 1 else chosen.out.with_name(f"{chosen.out.stem}-{level}{chosen.out.suffix}")
        yield out, {"level": level, "shows": chosen.show or "proof", "scale": chosen.scale}


def _confirmed(answers: PlanAnswers, said: bool) -> None:
    """Ask before a page is made that tells all; raises ``CannotDo`` where nobody says yes."""
    if said:
        return
    lines = (WHY_ASKED, "It shows:", *(f"  - {line}" for line in what_it_shows(answers)))
    if not (sys.stdin.isatty() and sys.stderr.isatty()):
        raise CannotDo("The page was not written: add --confirm to say that you know what it shows.", *lines)
    print(*lines, sep="\n", file=sys.stderr)
    print(f"Write it? Type {YES}: ", end="", file=sys.stderr, flush=True)
    if sys.stdin.readline().strip().lower() != YES:
        raise CannotDo("Nothing was written.")
