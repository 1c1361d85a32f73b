"""The printed set of a plan: plan sheets at true scale and pages of notes, as what ``templates/sheet.html`` shows.

Pure: the revision and the day it was saved come from the caller.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from app.drawing.sheets.drawn_sheets import Told, drawn_sheets, not_told
from app.drawing.sheets.order import Order
from app.drawing.sheets.paper.frame import Job
from app.drawing.sheets.paper.habits import HABITS, habit_for
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import AUTOMATIC, SCALES
from app.drawing.sheets.sets import HOMEOWNER, SETS
from app.drawing.sheets.underlay.laid import Laid
from app.plan.as_built import NOTHING_BUILT, AsBuilt
from app.plan.model import Plan
from app.review.house import House


def sheet_context(
    plan: Plan,
    check: Mapping[str, Any],
    *,
    paper: str = "",
    scale: str = AUTOMATIC,
    revision: int | str,
    saved_at: str,
    readers: str = HOMEOWNER,
    habit: str = "",
    as_built: AsBuilt = NOTHING_BUILT,
    letterhead: Sequence[str] = (),
    laid: Sequence[Laid] = (),
    told: Told = not_told,
) -> dict[str, Any]:
    """What the page of the printed set shows: every sheet as SVG text of exact size, and the choices of the toolbar.

    ``check`` is the plan's ``check_plan``; ``paper``, ``scale`` and ``habit`` are keys of ``PAPERS``, ``SCALES`` (or
    "auto") and ``HABITS``, ``readers`` one of ``SETS``; no habit is the one for the plan's units, no paper the habit's.
    ``as_built`` fills the as-fitted record, the lines of ``letterhead`` stand in every frame, the pictures that are
    ``laid`` under levels print faded beneath their plans; ``told`` as in ``drawn_sheets``.
    Raises ``ValueError`` with a sentence that says which there are.
    """
    _refuse_unknown("habit", habit, ("", *HABITS))
    by = HABITS[habit] if habit else habit_for(plan.units)
    paper = paper or by.paper
    _refuse_unknown("paper", paper, PAPERS)
    _refuse_unknown("scale", scale, (AUTOMATIC, *SCALES))
    _refuse_unknown("set", readers, SETS)
    chosen = PAPERS[paper].by(by)
    client, address, designer = map(_one_line, (plan.site.client, plan.site.address, plan.site.designer))
    job = Job(plan.name, client, address, designer, str(revision), by.day(saved_at), tuple(letterhead))
    beneath = {each.level: each for each in laid}
    sheets = SETS[readers].compile(Order(House(plan), check, chosen, SCALES.get(scale), job, as_built, beneath))
    return {
        "plan_name": plan.name,
        **drawn_sheets(chosen, job, sheets, told),
        "paper": paper,
        "set": readers,
        "scale": scale,
        "habit": by.key,
        "habits": [{"key": each.key, "words": each.words} for each in HABITS.values()],
        "papers": [{"key": each.key, "name": each.name, "sizes": each.sizes} for each in PAPERS.values()],
        "sets": [{"key": key, "words": each.words} for key, each in SETS.items()],
        "scales": [{"key": AUTOMATIC, "words": "to fit the paper"}]
        + [{"key": each.key, "words": each.words} for each in SCALES.values()],
    }


def _refuse_unknown(name: str, given: str, known: Iterable[str]) -> None:
    if given not in known:
        raise ValueError(f"{name}: {given[:40]!r} is none of {', '.join(filter(None, known))}")


def _one_line(text: str) -> str:
    return ", ".join(part.strip() for part in text.splitlines() if part.strip())
