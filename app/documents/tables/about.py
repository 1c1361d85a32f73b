"""The first sheet of a workbook: whose plan it shows, in which state, and what each other sheet tells."""

from __future__ import annotations

from collections.abc import Sequence

from app.documents.plan_answers import CONFIDENTIAL, Edition, PlanAnswers
from app.documents.tables.measure import COUNT
from app.documents.tables.table import Row, Table, columns

_CAUTION = "Verify on site. Local codes govern; smoke and CO alarms are located by others."


def about(answers: PlanAnswers, edition: Edition, tables: Sequence[Table]) -> Table:
    """A line for the plan, its state and the cautions, then one for each table."""
    site = answers.plan.site
    head = (
        ("Plan", answers.plan.name),
        ("State", edition.words),
        ("Client", site.client),
        ("Address", site.address),
        ("Designer", site.designer),
        ("Caution", f"{CONFIDENTIAL}. {_CAUTION}"),
    )
    rows = [Row((word, None, said)) for word, said in head if said.strip()]
    rows += [Row((table.title, len(table.rows), table.words)) for table in tables]
    return Table(
        "about",
        "About this workbook",
        "Whose plan this is, in which state, and what each sheet tells.",
        columns("Sheet", ("Rows", COUNT), "What it tells"),
        tuple(rows),
        answers.units,
    )
