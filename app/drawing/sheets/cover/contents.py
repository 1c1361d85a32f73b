"""The contents of a set, from the sheets that were compiled: parts of one plan and sheets of one title share a line."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from app.drawing.sheets.paper.frame import Sheet

_PART = re.compile(r", part \d+ of \d+$")


@dataclass(frozen=True)
class Line:
    """One line of the contents: ``numbers`` such as ``TY-151 to 154``, and what those sheets show."""

    numbers: str
    title: str


def contents_of(sheets: Sequence[Sheet]) -> list[Line]:
    """A line for each sheet or run of sheets of one title, in their order."""
    runs: list[tuple[str, list[Sheet]]] = []
    for sheet in sheets:
        title = _PART.sub("", sheet.title)
        if runs and runs[-1][0] == title:
            runs[-1][1].append(sheet)
        else:
            runs.append((title, [sheet]))
    return [Line(_numbers(run), title) for title, run in runs]


def _numbers(run: Sequence[Sheet]) -> str:
    first, last = run[0].number, run[-1].number
    return first if len(run) == 1 else f"{first} to {last.rsplit('-', 1)[-1]}"
