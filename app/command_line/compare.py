"""Two plan files compared: for people, as JSON, or as change sheets in a PDF or SVG file."""

from __future__ import annotations

import argparse
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from app.command_line.data_folder import add_data_argument
from app.command_line.failing import CannotDo
from app.command_line.letterhead import add_letterhead_argument, letterhead_named
from app.command_line.out_file import refuse_unwritable, write_whole
from app.command_line.plan_file import plan_named
from app.command_line.printing import print_json, print_lines
from app.documents.change_pdf import change_pdf
from app.drawing.sheets.changes.change_set import change_context, stacked
from app.drawing.sheets.changes.sides import Side
from app.drawing.sheets.paper.habits import HABITS
from app.drawing.sheets.paper.papers import PAPERS
from app.review.comparison.answer import Comparison
from app.review.house import House

_KINDS = (".pdf", ".svg")


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """What the command takes."""
    parser.add_argument("old", metavar="OLD.json", help="the plan as it was; - reads it from standard input")
    parser.add_argument("new", metavar="NEW.json", help="the plan as it is now")
    parser.add_argument("--json", action="store_true", help="print one JSON object")
    parser.add_argument("-o", "--out", metavar="OUT", type=Path, help="write change sheets: OUT.pdf or OUT.svg")
    parser.add_argument("--mark", default="1", help="the letter or number in the triangles; 1 unless said")
    parser.add_argument("--paper", choices=list(PAPERS), help="letter, or a4 for a metric plan, unless said")
    parser.add_argument("--habit", choices=list(HABITS), default="", help="that of the plan's units, unless said")
    parser.add_argument("--scale", default="auto", help="such as 1/4, 1/8 or 1:50; the largest that fits unless said")
    add_letterhead_argument(parser)
    add_data_argument(parser)


def run(chosen: argparse.Namespace) -> int:
    """Compare, and print or write what differs."""
    if chosen.out is not None:
        if chosen.out.suffix.lower() not in _KINDS:
            raise CannotDo(f"{chosen.out}: end its name in .pdf or .svg, which says what to write")
        refuse_unwritable(chosen.out)
    comparison = Comparison(House(plan_named(chosen.old)), House(plan_named(chosen.new)))
    if chosen.out is not None:
        _write(comparison, chosen)
    if chosen.json:
        print_json(comparison.answer)
    else:
        print_lines(_report(comparison.answer))
        if chosen.out is not None:
            print_lines([f"Written: {chosen.out}"])
    return 0


def _write(comparison: Comparison, chosen: argparse.Namespace) -> None:
    mark = " ".join(str(chosen.mark).split())[:8] or "1"
    sides = (Side("0", _named(chosen.old, "the old plan")), Side(mark, _named(chosen.new, "the new plan")))
    now = datetime.now(UTC).isoformat(timespec="minutes")
    try:
        context = change_context(
            comparison,
            *sides,
            paper=chosen.paper or "",
            scale=chosen.scale,
            habit=chosen.habit,
            revision=mark,
            saved_at=now,
            letterhead=letterhead_named(chosen.letterhead, chosen.data) if chosen.letterhead else (),
        )
    except ValueError as refused:
        raise CannotDo(str(refused)) from None
    pdf = chosen.out.suffix.lower() == ".pdf"
    write_whole(chosen.out, change_pdf(context) if pdf else stacked(context).encode())


def _named(file: str, otherwise: str) -> str:
    return otherwise if file == "-" else f"file {Path(file).name[:60]}"


def _report(answer: dict[str, Any]) -> Iterator[str]:
    yield f"{answer['plan']}: {answer['words']}"
    names = {level["id"]: level["name"] for level in answer["levels"]}
    shown: str | None = None
    for change in answer["changes"]:
        level = change["level"] or change["was_level"]
        title = names.get(level, "the whole plan")
        if title != shown:
            shown = title
            yield f"\n{title}"
        yield f"  {change['number']:>3}  {change['name']}: {change['words']}"
    yield from _effects(answer)


def _effects(answer: dict[str, Any]) -> Iterator[str]:
    covered, panes = answer["coverage"]["covered"], answer["coverage"]["panes"]
    yield f"\nPanes covered: {covered['from']} of {panes['from']} before, {covered['to']} of {panes['to']} now"
    for pane in answer["panes"]:
        before, after = (_proof(side) for side in (pane["from"], pane["to"]))
        yield f"  {pane['id']}: {before} → {after}"
    for cable in answer["cable"]:
        cut, bought = cable["cut_ft"], cable["bought_ft"]
        cuts = f"{cut['from']:g} → {cut['to']:g} ft to cut"
        yield f"Cable {cable['cable']}: {cuts}, {bought['from']:g} → {bought['to']:g} ft to buy"
    for box in answer["boxes"]:
        yield f"Boxes of {_box_words(box)}: {box['from']} → {box['to']}"
    for key, words in (("new", "New finding"), ("gone", "No longer found")):
        for finding in answer["findings"][key]:
            yield f"{words} ({finding['severity']}): {finding['message']}"


def _proof(side: dict[str, Any] | None) -> str:
    if side is None:
        return "none"
    by = f" {side['fraction']:.0%} by {side['device']}" if side["device"] else ""
    return f"{side['status']}{by}"


def _box_words(box: dict[str, Any]) -> str:
    return f"{box['cable']}, {box['size_ft']:g} ft"
