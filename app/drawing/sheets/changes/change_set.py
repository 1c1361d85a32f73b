"""The change sheets of two revisions: each level that shows a change, then the tables; framed, for a page or PDF."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

from app.drawing.maker import SVG, as_text
from app.drawing.sheets.changes.change_drawing import ChangeDrawing
from app.drawing.sheets.changes.change_tables import cable_blocks, change_blocks, coverage_blocks
from app.drawing.sheets.changes.sides import Side
from app.drawing.sheets.drawn_sheets import drawn_sheets
from app.drawing.sheets.order import Order, rooms_of_devices
from app.drawing.sheets.paper.frame import Job, Sheet
from app.drawing.sheets.paper.habits import HABITS, habit_for
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import AUTOMATIC, SCALES
from app.drawing.sheets.setting.columns import Section, section_sheets
from app.plan.model import Plan
from app.review.comparison.answer import Comparison
from app.review.comparison.changes import Change
from app.review.house import Storey

_MILLIMETRES = re.compile(r"(?<=\d)mm(?=\")")
PLANS, TABLES = 191, 691  # numbers in the series of sheets


def change_sheets(order: Order, comparison: Comparison, old: Side, new: Side) -> list[Sheet]:
    """The sheets; ``order`` is for the new house."""
    drawings = list(_drawings(order, comparison, new))
    plans = list(order.plans([*drawings], PLANS, f"Changes, {new.name}")) if drawings else []
    tables = section_sheets(
        [
            Section("Changes", lambda setter: change_blocks(comparison, old, new, setter)),
            Section("Coverage", lambda setter: coverage_blocks(comparison, setter)),
            Section("Cable", lambda setter: cable_blocks(order, comparison, setter)),
        ],
        order.paper,
        TABLES,
    )
    return plans + tables


def change_context(
    comparison: Comparison,
    old: Side,
    new: Side,
    *,
    paper: str = "",
    scale: str = AUTOMATIC,
    habit: str = "",
    revision: str,
    saved_at: str,
    letterhead: Sequence[str] = (),
) -> dict[str, Any]:
    """What the page of the change sheet shows: every sheet as SVG text of exact size, and the toolbar's choices.

    ``paper``, ``scale`` and ``habit`` as in ``sheet_context``; ``revision`` and ``saved_at`` stand in the title block,
    the lines of ``letterhead`` in every frame.
    Raises ``ValueError`` with a sentence that says which there are.
    """
    _refuse_unknown("habit", habit, ("", *HABITS))
    plan = comparison.new.plan
    by = HABITS[habit] if habit else habit_for(plan.units)
    paper = paper or by.paper
    _refuse_unknown("paper", paper, PAPERS)
    _refuse_unknown("scale", scale, (AUTOMATIC, *SCALES))
    chosen = PAPERS[paper].by(by)
    client, address, designer = map(_one_line, (plan.site.client, plan.site.address, plan.site.designer))
    job = Job(plan.name, client, address, designer, revision, by.day(saved_at), tuple(letterhead))
    order = Order(comparison.new, comparison.checks[1], chosen, SCALES.get(scale), job)
    return {
        "plan_name": plan.name,
        "old": old.name,
        "new": new.name,
        "words": comparison.answer["words"],
        **drawn_sheets(chosen, job, change_sheets(order, comparison, old, new)),
        "paper": paper,
        "papers": [{"key": each.key, "name": each.name, "sizes": each.sizes} for each in PAPERS.values()],
        "scale": scale,
        "scales": [{"key": AUTOMATIC, "words": "to fit the paper"}]
        + [{"key": each.key, "words": each.words} for each in SCALES.values()],
        "habit": by.key,
        "habits": [{"key": each.key, "words": each.words} for each in HABITS.values()],
    }


def _refuse_unknown(name: str, given: str, known: Iterable[str]) -> None:
    if given not in known:
        raise ValueError(f"{name}: {given[:40]!r} is none of {', '.join(filter(None, known))}")


def stacked(context: dict[str, Any]) -> str:
    """All sheets of a context one under another, as one SVG of their true size."""
    paper = PAPERS[context["paper"]]
    gap, count = 5.0, len(context["sheets"])
    high = count * paper.height + (count - 1) * gap
    svg = SVG.svg(size=(f"{paper.width:g}mm", f"{high:g}mm"), viewBox=f"0 0 {paper.width:g} {high:g}")
    svg["xmlns"] = "http://www.w3.org/2000/svg"
    head = as_text(svg).removesuffix("/>").removesuffix("</svg>").rstrip(">")
    parts = [
        f'<g transform="translate(0 {place * (paper.height + gap):g})">{_without_unit(sheet["svg"])}</g>'
        for place, sheet in enumerate(context["sheets"])
    ]
    return f"{head}>{''.join(parts)}</svg>"


def _without_unit(sheet: str) -> str:
    """A sheet inside another picture is measured in that one's units."""
    head, rest = sheet.split(">", 1)
    return f"{_MILLIMETRES.sub('', head)}>{rest}"


def _drawings(order: Order, comparison: Comparison, new: Side) -> Iterator[ChangeDrawing]:
    """A drawing of each level of the new house that shows a change; only panes whose proof changed are marked."""
    other = {pane["id"] for pane in comparison.answer["panes"]}
    old_things = _things_of(comparison.old.plan)
    for storey in order.house:
        changes = [change for change in comparison.changes if change.shown_on == storey.level.id and change.place]
        if changes:
            yield _drawing(order, storey, changes, other, old_things, new)


def _drawing(
    order: Order, storey: Storey, changes: list[Change], other: set[str], old: dict[tuple[str, str], Any], new: Side
) -> ChangeDrawing:
    return ChangeDrawing(
        storey.scene,
        [pane for pane in order.of_level("panes", storey) if pane["id"] in other],
        [],
        order.of_level("rooms", storey),
        storey.names,
        rooms_of_devices(storey),
        storey.units,
        changes,
        {change.number: old[change.family, change.was_id] for change in changes if change.was_id is not None},
        new.mark,
    )


def _things_of(plan: Plan) -> dict[tuple[str, str], Any]:
    families = ("walls", "openings", "fixtures", "rooms", "devices")
    things = {(family, one.id): one for level in plan.levels for family in families for one in getattr(level, family)}
    return things | {("risers", riser.id): riser for riser in plan.risers}


def _one_line(text: str) -> str:
    return ", ".join(part.strip() for part in text.splitlines() if part.strip())
