"""The table of the practice: every design value in force, with what it means and who publishes it."""

from __future__ import annotations

from app.documents.plan_answers import PlanAnswers
from app.documents.tables.table import Cell, Row, Table, columns
from app.plan.practice import DESIGN_VALUES, DesignValue, Practice


def practice(answers: PlanAnswers) -> Table:
    """Every design value: a number stands as a number, in the unit beside it, as the practice keeps it."""
    in_force = answers.house.practice
    rows = tuple(
        Row(
            (
                value.key,
                value.words,
                _number(value, in_force),
                _words(value, in_force),
                value.unit,
                "as published" if in_force.is_default(value.key) else "set for this plan",
                value.source,
            )
        )
        for value in DESIGN_VALUES
    )
    return Table(
        "practice",
        "Practice values and their sources",
        "What the proof, the findings and the schedules are worked out from.",
        columns("Key", "Value of", "Number", "Choice or list", "Unit", "Set", "Source"),
        rows,
        answers.units,
    )


def _number(value: DesignValue, in_force: Practice) -> Cell:
    return in_force.number(value.key) if value.kind == "number" else None


def _words(value: DesignValue, in_force: Practice) -> str:
    if value.kind == "numbers":
        return ", ".join(f"{member:g}" for member in in_force.numbers(value.key))
    return "" if value.kind == "number" else in_force.text(value.key)
