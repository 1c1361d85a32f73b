"""The help page: what each part of the program knows, read from the tables that drive it."""

from __future__ import annotations

from itertools import groupby

from fastapi import APIRouter
from fastapi.responses import HTMLResponse

from app.command_line.entry import COMMANDS
from app.plan.practice import DESIGN_VALUES
from app.web.tables import tables
from app.web.templates import page

router = APIRouter(include_in_schema=False)


@router.get("/help", response_class=HTMLResponse)
def show_help() -> HTMLResponse:
    """How to work with Studbay; every device kind, rule, design value and command."""
    # The rules bring graphs and solvers with them; the server is up sooner without.
    from app.review.rulebook import all_rules

    by_heading = groupby(sorted(DESIGN_VALUES, key=lambda value: value.heading), key=lambda value: value.heading)
    return page(
        "help.html",
        device_kinds=tables()["device_kinds"],
        rules=all_rules(),
        practice={heading.replace("_", " "): list(values) for heading, values in by_heading},
        commands=COMMANDS,
    )
