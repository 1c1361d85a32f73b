"""The printed set of a plan: plan sheets at true scale and pages of notes, as what ``templates/sheet.html`` shows.

Pure: the revision and the day it was saved come from the caller.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.drawing.maker import as_text
from app.drawing.sheets.frame import Job, framed
from app.drawing.sheets.order import Order
from app.drawing.sheets.papers import PAPERS
from app.drawing.sheets.scales import AUTOMATIC, SCALES
from app.drawing.sheets.sets import HOMEOWNER, SETS
from app.plan.model import Plan
from app.review.house import House


def sheet_context(
    plan: Plan,
    check: Mapping[str, Any],
    *,
    paper: str,
    scale: str,
    revision: int | str,
    saved_at: str,
    readers: str = HOMEOWNER,
) -> dict[str, Any]:
    """What the page of the printed set shows: every sheet as SVG text of exact size, and the choices of the toolbar.

    ``check`` is the plan's ``check_plan``; ``paper`` and ``scale`` are keys of ``PAPERS`` and ``SCALES`` (or "auto"),
    ``readers`` a key of ``SETS``.
    Raises ``ValueError`` with a sentence that says which there are.
    """
    if paper not in PAPERS:
        raise ValueError(f"paper: {paper[:40]!r} is none of {', '.join(PAPERS)}")
    if scale != AUTOMATIC and scale not in SCALES:
        raise ValueError(f"scale: {scale[:40]!r} is none of {', '.join((AUTOMATIC, *SCALES))}")
    if readers not in SETS:
        raise ValueError(f"set: {readers[:40]!r} is none of {', '.join(SETS)}")
    chosen = PAPERS[paper]
    job = Job(
        plan.name,
        _one_line(plan.site.client),
        _one_line(plan.site.address),
        _one_line(plan.site.designer),
        str(revision),
        saved_at[:16].replace("T", " "),
    )
    sheets = SETS[readers].compile(Order(House(plan), check, chosen, SCALES.get(scale), job))
    drawn = [
        {
            "number": sheet.number,
            "title": sheet.title,
            "scale": sheet.scale,
            "svg": as_text(framed(chosen, job, sheet, (place, len(sheets)))),
        }
        for place, sheet in enumerate(sheets, start=1)
    ]
    return {
        "plan_name": plan.name,
        "sheets": drawn,
        "paper": paper,
        "papers": [{"key": each.key, "name": each.name, "sizes": each.sizes} for each in PAPERS.values()],
        "set": readers,
        "sets": [{"key": key, "words": each.words} for key, each in SETS.items()],
        "scale": scale,
        "scales": [{"key": AUTOMATIC, "words": "to fit the paper"}]
        + [{"key": each.key, "words": each.words} for each in SCALES.values()],
    }


def _one_line(text: str) -> str:
    return ", ".join(part.strip() for part in text.splitlines() if part.strip())
