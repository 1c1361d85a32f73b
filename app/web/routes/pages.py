"""The pages for people: the list of plans, a plan, its printed sheet."""

from __future__ import annotations

from collections.abc import Iterable

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from app.plan.faults import Fault
from app.storage.samples import SHELLS, sample_names
from app.storage.templates import TemplateStore
from app.web.json_bytes import as_json, in_html
from app.web.problems import Refusal
from app.web.routes.plans import PlanId, plan_json
from app.web.routes.underlays import underlays_of
from app.web.serving import store_of, stored_work
from app.web.tables import tables
from app.web.templates import page

router = APIRouter(include_in_schema=False)


@router.get("/", response_class=HTMLResponse)
def show_home(request: Request) -> HTMLResponse:
    """The list of plans and the samples."""
    store = store_of(request)
    shells, samples = sample_names(SHELLS), sample_names()
    templates = TemplateStore(store.engine).listed()
    return page(
        "home.html", plans=store.listed(), removed=store.removed(), samples=samples, shells=shells, templates=templates
    )


@router.get("/templates", response_class=HTMLResponse)
def show_templates() -> HTMLResponse:
    """The practice templates."""
    return page("templates.html")


@router.get("/plans/{plan_id}", response_class=HTMLResponse)
def show_plan(request: Request, plan_id: PlanId) -> HTMLResponse:
    """The page of a plan, with what it begins from, so that it need not ask for each.

    Its proof it asks for itself: a plan that was not proved yet is not held up by it.
    """
    head = store_of(request).head(plan_id)
    given = b'{"kept":%s,"tables":%s,"underlays":%s}' % (
        plan_json(store_of(request).revision(plan_id, head.revision)),
        as_json(tables()),
        as_json(underlays_of(request, plan_id)),
    )
    return page("plan.html", plan_id=plan_id, plan_name=head.name, given=in_html(given))


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
