"""A check as a designer reads it in a terminal: panes level by level, watched floor, findings by gravity, the sum."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from app.plan.measures import area_text, length_text
from app.plan.model import Level, Plan

_STATE = {"covered": "covered", "partial": "PARTIAL", "uncovered": "UNCOVERED"}
_GRAVITY = {
    "must": "MUST be mended before the walls are closed",
    "should": "SHOULD be looked at",
    "note": "NOTES",
}
_NARROWEST_WHY = 30

Answer = Mapping[str, Any]


def check_report(plan: Plan, answer: Answer, width: int) -> Iterator[str]:
    """The lines of the report, at most ``width`` wide where words allow."""
    yield one_line(plan.name)
    yield summary_line(answer["summary"])
    for level in plan.levels:
        yield from _level(plan, level, answer, width)
    for severity, heading in _GRAVITY.items():
        found = [finding for finding in answer["findings"] if finding["severity"] == severity]
        if found:
            yield from ("", f"{heading} ({len(found)})")
            for finding in found:
                yield from _finding(finding, width)


def summary_line(summary: Mapping[str, int]) -> str:
    """The state of the proof in one line."""
    panes = (
        f"{summary['covered']} of {summary['panes']} panes covered, {summary['partial']} partial, "
        f"{summary['uncovered']} uncovered"
    )
    return f"{panes}; findings: {summary['must']} must, {summary['should']} should, {summary['note']} note"


def table(heads: Sequence[str], rows: Sequence[Sequence[str]], width: int) -> Iterator[str]:
    """Rows in columns; the last column is wrapped to the width."""
    columns = list(zip(heads, *rows, strict=True))[:-1]
    widths = [max(map(len, column)) for column in columns]
    left = sum(widths) + 2 * len(widths) + 2
    for row in (heads, *rows):
        cells = "".join(f"{cell:<{wide}}  " for cell, wide in zip(row, widths, strict=False))
        first, *more = textwrap.wrap(row[-1], max(width - left, _NARROWEST_WHY)) or [""]
        yield f"  {cells}{first}".rstrip()
        yield from (" " * left + line for line in more)


def one_line(text: str) -> str:
    """A text of the plan without its line breaks."""
    return " ".join(text.split())


def _level(plan: Plan, level: Level, answer: Answer, width: int) -> Iterator[str]:
    panes = [pane for pane in answer["panes"] if pane["level"] == level.id]
    rooms = [room for room in answer["rooms"] if room["level"] == level.id]
    names = {room["id"]: one_line(room["name"]) or room["id"] for room in rooms}
    yield from ("", f"{one_line(level.name)} ({level.id})")
    if panes:
        rows = [_pane(pane, names, plan.units) for pane in panes]
        yield from table(("pane", "room", "state", "by", "farthest", "share", "why"), rows, width)
    else:
        yield "  no glass on this level"
    if rooms:
        yield ""
        rows = [_room(room, names, plan.units) for room in rooms]
        yield from table(("room", "floor", "watched", "by motion detectors"), rows, width)


def _pane(pane: Answer, names: Mapping[str, str], units: str) -> tuple[str, ...]:
    best = pane["best"]
    by = ("–", "–", "–")
    if best:
        by = (best["device"], length_text(best["farthest_ft"], units), share_text(best["fraction"]))
    return (pane["id"], names.get(pane["room"], "–"), _STATE[pane["status"]], *by, one_line(pane["why"]))


def _room(room: Answer, names: Mapping[str, str], units: str) -> tuple[str, ...]:
    by = ", ".join(sorted(room["motions"])) or "–"
    return (names[room["id"]], area_text(room["area_sqft"], units), share_text(room["motion_fraction"]), by)


def share_text(share: float) -> str:
    """A share in per cent; never 100 % while some is left, nor 0 % while there is some."""
    per_cent = round(share * 100)
    if per_cent == 100 and share < 0.9995:
        return ">99%"
    return "<1%" if per_cent == 0 and share > 0 else f"{per_cent}%"


def _finding(finding: Answer, width: int) -> Iterator[str]:
    things = f" [{', '.join(finding['things'])}]" if finding["things"] else ""
    words = f"{one_line(finding['message'])}{things}"
    yield from textwrap.wrap(words, width, initial_indent="  - ", subsequent_indent="    ")
    source = f"{finding['rule']}: {one_line(finding['source'])}"
    yield from textwrap.wrap(source, width, initial_indent="    ", subsequent_indent="    ")
