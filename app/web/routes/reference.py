"""What the program is, for scripts: the plan's schema, its tables, the description of these routes, a sign of life."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from app.plan.reading import plan_schema
from app.web.answers import of_type
from app.web.reference import calls_of, shapes_of
from app.web.serving import json_answer
from app.web.tables import tables
from app.web.templates import page

router = APIRouter(tags=["reference"])


@router.get("/api/schema", responses=of_type("application/schema+json", "JSON Schema"))
def read_schema() -> Response:
    """The JSON Schema of the plan file."""
    answer = json_answer(plan_schema())
    answer.headers["Content-Type"] = "application/schema+json"
    return answer


@router.get("/api/tables", responses={200: {"model": dict[str, Any], "description": "the tables"}})
def read_tables() -> Response:
    """Every design value and every device kind."""
    return json_answer(tables())


@router.get("/api/rules", responses={200: {"model": list[dict[str, Any]], "description": "the rules"}})
def read_rules() -> Response:
    """Every rule: its name, gravity, what is asked, what mends it, and who says so."""
    # The rules bring graphs and solvers with them; the server is up sooner without.
    from app.review.rulebook import all_rules

    names = ("name", "severity", "words", "mend", "source")
    return json_answer([{name: getattr(rule, name) for name in names} for rule in all_rules()])


@router.get("/api/openapi.json", responses={200: {"model": dict[str, Any], "description": "OpenAPI"}})
def read_description(request: Request) -> Response:
    """The OpenAPI description of these routes."""
    return json_answer(request.app.openapi())


@router.get("/api/reference", response_class=HTMLResponse)
def show_reference(request: Request) -> HTMLResponse:
    """The same as a page."""
    description = request.app.openapi()
    return page("reference.html", subjects=calls_of(description), shapes=shapes_of(description))


@router.get("/healthz", responses={200: {"model": dict[str, str], "description": "serving"}})
def tell_health() -> Response:
    """A sign of life."""
    return json_answer({"status": "serving"})
