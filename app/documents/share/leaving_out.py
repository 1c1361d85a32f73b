"""What can be left out of a share page, and what such a page shows: said before the file leaves the machine."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from app.documents.plan_answers import PlanAnswers
from app.documents.tables.all_tables import TABLES
from app.documents.tables.table import Row, Table

NAMES, FINDINGS, NOTES = "names", "findings", "notes"
LEAVABLE: Mapping[str, str] = {
    NAMES: "the plan's name, the client, the address and the designer",
    FINDINGS: "the findings, and what would mend them (the plan still shows which glass is covered)",
    NOTES: "the notes of the job and of devices",
}
WHY_ASKED = (
    "This file shows where every detector is, what each one covers and what is not covered. Whoever gets it can read "
    "it without asking you, and it cannot be called back. Give it only to people who work on this house."
)
_COLUMNS_LEFT_OUT: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    FINDINGS: {"panes": ("What would mend it", "Why")},
    NOTES: {"devices": ("Note",)},
}


def what_it_shows(answers: PlanAnswers) -> list[str]:
    """The contents of a share page, each with its number, for the question that is asked before it is made."""
    levels = answers.plan.levels
    devices = sum(len(level.devices) for level in levels)
    panes, pulls, findings = (
        len(part) for part in (answers.check["panes"], answers.wiring["pulls"], answers.check["findings"])
    )
    counted = (
        (
            len(levels),
            "level as a plan, with its proof and cable",
            "levels as plans, with their proof and cable",
        ),
        (devices, "device with its place, height and cable", "devices with place, height and cable"),
        (panes, "pane of glass and whether it is covered", "panes of glass and whether each is covered"),
        (pulls, "home run with zones and power", "home runs with zones and power"),
        (findings, "finding: what is weak", "findings: what is weak"),
    )
    return [f"{count} {one if count == 1 else many}" for count, one, many in counted if count]


def share_contents(answers: PlanAnswers) -> dict[str, Any]:
    """The same as a JSON value, with the reason for asking and what can be left out."""
    return {"why": WHY_ASKED, "shows": what_it_shows(answers), "leavable": dict(LEAVABLE)}


def tables_without(answers: PlanAnswers, left_out: Iterable[str]) -> list[Table]:
    """Every table less what is left out."""
    gone = set(left_out)
    tables = [table(answers) for key, table in TABLES.items() if not (key == FINDINGS and FINDINGS in gone)]
    for choice in gone & _COLUMNS_LEFT_OUT.keys():
        headings = _COLUMNS_LEFT_OUT[choice]
        tables = [without_columns(table, headings.get(table.key, ())) for table in tables]
    return tables


def without_columns(table: Table, headings: Iterable[str]) -> Table:
    """A table less some columns."""
    gone = set(headings)
    kept = [place for place, column in enumerate(table.columns) if column.heading not in gone]
    return replace(
        table,
        columns=tuple(table.columns[place] for place in kept),
        rows=tuple(Row(tuple(row.cells[place] for place in kept), row.things) for row in table.rows),
    )
