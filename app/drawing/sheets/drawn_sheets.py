"""Sheets as they are shown and printed: framed, counted, lettered, each as SVG text of exact size."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from app.drawing.maker import as_text
from app.drawing.sheets.masks import with_masks
from app.drawing.sheets.paper.frame import Job, Sheet, framed
from app.drawing.sheets.paper.papers import Paper
from app.drawing.sheets.setting.letters import EXPLAINED, SetSheet, with_letters

Told = Callable[[int, int, str], None]


def not_told(done: int, count: int, words: str) -> None:
    """Nobody wants to know."""


def drawn_sheets(paper: Paper, job: Job, sheets: Sequence[Sheet], told: Told = not_told) -> dict[str, Any]:
    """The sheets as ``sheets``, and as ``lacking`` the texts with letters that no typeface has, and where they stand.

    ``told`` is called before each sheet with how many are done, of how many, and which is next; what it raises stops
    the work.
    """
    drawn: list[dict[str, Any]] = []
    lacking: dict[str, dict[str, Any]] = {}
    for place, sheet in enumerate(sheets, start=1):
        told(place - 1, len(sheets), f"{sheet.number} {sheet.title}")
        done = _drawn(paper, job, sheet, (place, len(sheets)))
        drawn.append({"number": sheet.number, "title": sheet.title, "scale": sheet.scale, "svg": done.svg})
        for text, letters in done.letters.items():
            found = lacking.setdefault(text, {"text": text, "letters": letters, "sheets": []})
            found["sheets"].append(sheet.number)
    return {"sheets": drawn, "lacking": list(lacking.values())}


def lacking_words(lacking: dict[str, Any]) -> str:
    """What people are told of a text with letters that no typeface has."""
    letters = " ".join(lacking["letters"][:12])
    places = lacking["sheets"]
    where = f"sheet {places[0]}" if len(places) == 1 else f"sheets {', '.join(places[:4])}"
    more = f" and {len(places) - 4} more" if len(places) > 4 else ""
    return f"{where}{more}: no typeface here has {letters} of {lacking['text'][:80]!r}; they print as ◊"


def _drawn(paper: Paper, job: Job, sheet: Sheet, place: tuple[int, int]) -> SetSheet:
    done = with_letters(with_masks(as_text(framed(paper, job, sheet, place))))
    if not done.letters:
        return done
    explained = with_letters(with_masks(as_text(framed(paper, job, sheet, place, EXPLAINED))))
    return SetSheet(explained.svg, done.letters)
