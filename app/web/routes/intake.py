"""Plans from drawings by others, by HTTP: what a DXF or IFC file holds, and the plan that choices give of it.

The file's bytes are the body, the choices the address; nothing is stored: the plan is kept when the designer takes it.
"""

from __future__ import annotations

from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic import BaseModel

from app.intake.choices import Choices
from app.intake.kinds import LARGEST_DRAWING
from app.intake.refused import DrawingRefused
from app.intake.roles import ROLES
from app.intake.units import NAMES
from app.plan.faults import Fault
from app.web.answers import described, file_body, refusals
from app.web.bodies import body_of
from app.web.drawing_reader import DrawingReader
from app.web.problems import Refusal
from app.web.serving import JSON
from app.web.templates import page

router = APIRouter(tags=["intake"])
pages = APIRouter(include_in_schema=False)

_SMALLER = "save only the floor plan's layers"
_USUAL = Choices()
_FILE = file_body("application/dxf", "application/x-step")
_MOST_LAYERS = 500
Layers = Annotated[list[str], Query(max_length=_MOST_LAYERS, description="layers of that role, each once")]
Feet = Annotated[float, Query(ge=0, le=100, allow_inf_nan=False, description="decimal feet")]


class UnreadLine(BaseModel):
    """What was not read of a layer, and why."""

    layer: str
    kind: str
    count: int
    reason: str


class SurveyAnswer(BaseModel):
    """What a file holds: a DXF's ``layers`` with proposed roles, ``drawings`` and ``units``, an IFC's ``storeys``."""

    kind: str
    layers: list[dict[str, Any]] = []
    storeys: list[dict[str, Any]] = []
    drawings: list[dict[str, Any]] = []
    frame: list[float] = []
    units: dict[str, Any]
    picture: str
    notes: list[str]
    unread: list[UnreadLine]


class DrawnPlanAnswer(BaseModel):
    """The plan (see /api/schema), the account of what was read and what not, and a picture as SVG."""

    plan: dict[str, Any]
    report: dict[str, Any]
    picture: str


@router.post(
    "/api/intake/survey",
    responses=described(200, SurveyAnswer, "what there is to choose from") | refusals(413, 422, 503),
    openapi_extra=_FILE,
)
async def survey(request: Request) -> Response:
    """Look into a DXF or IFC file; nothing is stored."""
    source = await body_of(request, LARGEST_DRAWING, _SMALLER)
    return Response(await _reader(request).survey(source), media_type=JSON)


@router.post(
    "/api/intake/plan",
    responses=described(200, DrawnPlanAnswer, "the plan, not stored") | refusals(413, 422, 503),
    openapi_extra=_FILE,
)
async def drawn_plan(
    request: Request,
    walls: Layers = [],  # noqa: B006 (the framework copies it)
    centrelines: Layers = [],  # noqa: B006
    doors: Layers = [],  # noqa: B006
    windows: Layers = [],  # noqa: B006
    names: Layers = [],  # noqa: B006
    storey: Annotated[list[str], Query(max_length=20, description="an IFC's storeys to read; none: all")] = [],  # noqa: B006
    level: Annotated[
        list[str],
        Query(max_length=20, description="a drawing's number, 1+3 for two, :name after it; the lowest level first"),
    ] = [],  # noqa: B006
    floor_to_floor: Annotated[
        list[float], Query(max_length=20, description="decimal feet from a level's floor to the next one's")
    ] = [],  # noqa: B006
    common: Annotated[
        list[str],
        Query(max_length=20, description="drawing:x,y: a point that the storeys share, in the file's unit"),
    ] = [],  # noqa: B006
    units: Annotated[str, Query(description="in, ft, mm, cm or m; none: as the survey proposes")] = "",
    name: Annotated[str, Query(max_length=120)] = _USUAL.name,
    level_name: Annotated[str, Query(max_length=120)] = _USUAL.level_name,
    ceiling: Feet = _USUAL.ceiling,
    sill: Feet = _USUAL.sill,
    head: Feet = _USUAL.head,
    thickness: Feet = _USUAL.thickness,
) -> Response:
    """The plan that a DXF or IFC file gives; where no layer has a role, each has the one that the survey proposes."""
    by_role = {"walls": walls, "centrelines": centrelines, "doors": doors, "windows": windows, "names": names}
    roles = {layer: role for role, layers in by_role.items() for layer in layers}
    choices: dict[str, Any] = {"roles": roles or None, "units": units or None, "storeys": tuple(storey)}
    choices |= {"name": _plain(name) or _USUAL.name, "level_name": _plain(level_name) or _USUAL.level_name}
    choices |= {"levels": level, "floor_to_floor": floor_to_floor, "common": common}
    choices |= {"ceiling": ceiling, "sill": sill, "head": head, "thickness": thickness}
    try:
        Choices(**choices)
    except DrawingRefused as refused:
        raise Refusal(422, str(refused), [Fault("", str(refused))]) from None
    source = await body_of(request, LARGEST_DRAWING, _SMALLER)
    return Response(await _reader(request).drawn_plan(source, choices), media_type=JSON)


@pages.get("/intake", response_class=HTMLResponse)
def show_intake() -> HTMLResponse:
    """The page that makes a plan from a drawing."""
    return page("intake.html", roles=ROLES, units=NAMES)


def _plain(text: str) -> str:
    return "".join(letter for letter in text if letter.isprintable()).strip()


def _reader(request: Request) -> DrawingReader:
    reader: DrawingReader = request.app.state.drawings
    return reader
