"""The printed set of a plan: plan sheets at true scale and pages of notes, as what ``templates/sheet.html`` shows.

Pure: the revision and the day it was saved come from the caller.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from app.drawing.floor_plan import LevelDrawing
from app.drawing.maker import as_text
from app.drawing.sheets.frame import Job, Sheet, framed
from app.drawing.sheets.papers import PAPERS
from app.drawing.sheets.plan_sheets import common_scale, plan_sheets
from app.drawing.sheets.scales import AUTOMATIC, SCALES, Scale
from app.drawing.sheets.schedules import schedule_sheets
from app.plan.model import Plan
from app.review.house import House


def sheet_context(
    plan: Plan, check: Mapping[str, Any], *, paper: str, scale: str, revision: int | str, saved_at: str
) -> dict[str, Any]:
    """What the page of the printed set shows: every sheet as SVG text of exact size, and the choices of the toolbar.

    ``check`` is the plan's ``check_plan``; ``paper`` and ``scale`` are keys of ``PAPERS`` and ``SCALES`` (or "auto").
    Raises ``ValueError`` with a sentence that says which there are.
    """
    if paper not in PAPERS:
        raise ValueError(f"paper: {paper[:40]!r} is none of {', '.join(PAPERS)}")
    if scale != AUTOMATIC and scale not in SCALES:
        raise ValueError(f"scale: {scale[:40]!r} is none of {', '.join((AUTOMATIC, *SCALES))}")
    chosen = PAPERS[paper]
    sheets = compile_set(plan, check, paper=paper, scale=SCALES.get(scale))
    job = Job(
        plan.name,
        _one_line(plan.site.client),
        _one_line(plan.site.address),
        _one_line(plan.site.designer),
        str(revision),
        saved_at[:16].replace("T", " "),
    )
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
        "scale": scale,
        "scales": [{"key": AUTOMATIC, "words": "to fit the paper"}]
        + [{"key": each.key, "words": each.words} for each in SCALES.values()],
    }


def compile_set(plan: Plan, check: Mapping[str, Any], *, paper: str, scale: Scale | None) -> list[Sheet]:
    """The sheets of a plan in their order: each level's plan, then notes and schedules."""
    house, chosen = House(plan), PAPERS[paper]
    drawings = _drawings(house, check)
    in_common = scale or common_scale(drawings, chosen)
    sheets: list[Sheet] = []
    for drawing in drawings:
        sheets += plan_sheets(drawing, chosen, in_common, 101 + len(sheets), len(drawings) > 1)
    return sheets + schedule_sheets(house, check, chosen, 601)


def _drawings(house: House, check: Mapping[str, Any]) -> list[LevelDrawing]:
    drawings = []
    for storey in house:
        of_level = {
            family: [answer for answer in check[family] if answer["level"] == storey.level.id]
            for family in ("panes", "motions", "rooms")
        }
        in_rooms = {device: room.id for device, room in storey.room_of_device.items() if room is not None}
        drawings.append(
            LevelDrawing(
                storey.scene,
                of_level["panes"],
                of_level["motions"],
                of_level["rooms"],
                storey.names,
                in_rooms,
                house.plan.units,
            )
        )
    return drawings


def _one_line(text: str) -> str:
    return ", ".join(part.strip() for part in text.splitlines() if part.strip())
