"""Reading a compiled set back: its sheets as SVG, their words in one string, and the rows that stand in one line."""

from __future__ import annotations

from typing import Any
from xml.etree import ElementTree

from app.drawing.sheet import sheet_context
from app.plan.model import Plan
from app.review.check import check_plan
from tests.drawing.svg_reading import by_class, words

_LINE = 0.6  # mm: words nearer than this in height stand in one line

Sheets = dict[str, ElementTree.Element]


def sheets_of(plan: Plan, readers: str, paper: str = "tabloid", **choices: Any) -> Sheets:
    """The sheets of a set by their titles with numbers, in order."""
    context = sheet_context(
        plan, check_plan(plan), paper=paper, revision=7, saved_at="2026-03-05T10:20:30Z", readers=readers, **choices
    )
    return {f"{sheet['number']} {sheet['title']}": ElementTree.fromstring(sheet["svg"]) for sheet in context["sheets"]}


def text_of(sheets: Sheets | ElementTree.Element) -> str:
    """Every word of some sheets, in the order in which they are drawn."""
    found = sheets.values() if isinstance(sheets, dict) else [sheets]
    return " ".join(word.text for sheet in found for word in words(sheet))


def lines_of(sheets: Sheets) -> list[str]:
    """The words of the tables that stand in one line of a sheet, left to right, line by line."""
    lines: list[str] = []
    for sheet in sheets.values():
        rows: dict[int, list[Any]] = {}
        aside = {word.box for group in by_class(sheet, "cautions") for word in words(group)}
        tables = [word for group in by_class(sheet, "schedule-sheet") for word in words(group)]
        for word in (word for word in tables if word.box not in aside):
            rows.setdefault(round(word.box[3] / _LINE), []).append(word)
        lines += [
            " ".join(word.text for word in sorted(row, key=lambda one: one.box[0])) for _, row in sorted(rows.items())
        ]
    return lines


def line_with(sheets: Sheets, start: str) -> str:
    """The one line that begins with some words."""
    found = [line for line in lines_of(sheets) if line.startswith(f"{start} ")]
    assert len(found) == 1, (start, found)
    return found[0]


def only(sheets: Sheets, title: str) -> Sheets:
    """The sheets whose titles hold some words."""
    return {name: sheet for name, sheet in sheets.items() if title in name}
