"""The pages for people: the list of plans, a plan, its printed sheet."""

from __future__ import annotations

import asyncio
from collections.abc import Iterable
from typing import Annotated, Any, Literal

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic_core import from_json

from app.drawing.sheets.papers import PAPERS
from app.drawing.sheets.scales import AUTOMATIC, SCALES
from app.drawing.sheets.sets import HOMEOWNER, SETS
from app.plan.faults import Fault
from app.storage.history import History
from app.storage.samples import sample_names
from app.web.problems import Refusal
from app.web.revision_words import printed_revision
from app.web.routes.plans import PlanId
from app.web.serving import store_of, stored_work, work_on
from app.web.templates import page

router = APIRouter(include_in_schema=False)
Readers = Annotated[str, Query(alias="set")]


@router.get("/", response_class=HTMLResponse)
def show_home(request: Request) -> HTMLResponse:
    """The list of plans and the samples."""
    store = store_of(request)
    return page("home.html", plans=store.listed(), removed=store.removed(), samples=sample_names())


@router.get("/plans/{plan_id}", response_class=HTMLResponse)
def show_plan(request: Request, plan_id: PlanId) -> HTMLResponse:
    """The page of a plan."""
    return page("plan.html", plan_id=plan_id, plan_name=store_of(request).head(plan_id).name)


@router.get("/plans/{plan_id}/sheet", response_class=HTMLResponse)
async def show_sheets(
    request: Request,
    plan_id: PlanId,
    readers: Readers = HOMEOWNER,
    paper: str = "",
    scale: str = AUTOMATIC,
) -> HTMLResponse:
    """A printed set of a plan at true scale, for the homeowner or for the crew."""
    answer = await _sheets(request, plan_id, "sheets", readers, paper, scale)
    return page("sheet.html", plan_id=plan_id, **from_json(answer))


@router.get("/plans/{plan_id}/sheets.pdf")
async def send_pdf(
    request: Request,
    plan_id: PlanId,
    readers: Readers = HOMEOWNER,
    paper: str = "",
    scale: str = AUTOMATIC,
) -> Response:
    """The same set as a PDF file."""
    answer = await _sheets(request, plan_id, "pdf", readers, paper, scale)
    named = f'attachment; filename="{plan_id}-{readers}.pdf"'
    return Response(answer, media_type="application/pdf", headers={"Content-Disposition": named})


async def _sheets(
    request: Request, plan_id: str, work: Literal["sheets", "pdf"], readers: str, paper: str, scale: str
) -> bytes:
    refuse_unknown("set", readers, SETS)
    refuse_unknown("paper", paper, ("", *PAPERS))
    refuse_unknown("scale", scale, (AUTOMATIC, *SCALES))
    head = await asyncio.to_thread(store_of(request).head, plan_id)
    arguments: dict[str, Any] = {"readers": readers, "paper": paper, "scale": scale}
    history = await asyncio.to_thread(History(store_of(request).engine).of, plan_id)
    arguments |= {"revision": printed_revision(head, history), "saved_at": head.saved.isoformat()}
    return await work_on(request, head, work, arguments)


@router.get("/plans/{plan_id}/picture.svg")
async def draw_picture(request: Request, plan_id: PlanId) -> Response:
    """A small picture of a plan's levels."""
    _, picture = await stored_work(request, plan_id, "picture")
    return Response(picture, media_type="image/svg+xml")


def refuse_unknown(name: str, given: str, known: Iterable[str]) -> None:
    """Refuse with 422 a choice that is none of those known."""
    if given not in known:
        words = f"{given[:40]!r} is not known; give {', '.join(filter(None, known))}"
        raise Refusal(422, f"{name}: {words}", [Fault(name, words)])
