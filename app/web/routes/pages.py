"""The pages for people: the list of plans, a plan, its printed sheet."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from app.storage.samples import sample_names
from app.web.pictures import picture_of
from app.web.routes.plans import PlanId
from app.web.serving import store_of
from app.web.templates import page

router = APIRouter(include_in_schema=False)


@router.get("/", response_class=HTMLResponse)
def show_home(request: Request) -> HTMLResponse:
    """The list of plans and the samples."""
    store = store_of(request)
    return page("home.html", plans=store.listed(), removed=store.removed(), samples=sample_names())


@router.get("/plans/{plan_id}", response_class=HTMLResponse)
def show_plan(request: Request, plan_id: PlanId) -> HTMLResponse:
    """The page of a plan."""
    plan = store_of(request).newest(plan_id).plan()
    return page("plan.html", plan_id=plan_id, plan_name=plan.name)


@router.get("/plans/{plan_id}/picture.svg")
def draw_picture(request: Request, plan_id: PlanId) -> Response:
    """A small picture of a plan's levels."""
    return Response(picture_of(store_of(request).newest(plan_id).plan()), media_type="image/svg+xml")
