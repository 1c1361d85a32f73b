"""Practice templates by HTTP, and the letterhead that a plan has taken from one; both change by edition."""

from __future__ import annotations

import asyncio
from typing import Annotated, Any

from fastapi import APIRouter, Path, Request
from fastapi.responses import Response

from app.plan.faults import PlanRefused
from app.plan.letterhead import Stationery
from app.plan.template import Template, template_from
from app.storage.letterheads import LetterheadStore
from app.storage.templates import KeptTemplate, TemplateStore
from app.web.answers import LetterheadAnswer, TemplateAnswer, described, refusals, said_body
from app.web.bodies import json_of
from app.web.entity_tags import revision_to_match, tag_of
from app.web.history_bodies import said_in
from app.web.problems import Refusal
from app.web.routes.plans import PlanId
from app.web.serving import json_answer, store_of

router = APIRouter(tags=["templates"])
TemplateId = Annotated[str, Path(description="the template's id, as its Location says")]
_KEPT = described(200, TemplateAnswer, "ETag is its edition")


@router.get("/api/templates", responses=described(200, list[TemplateAnswer], "the usual one first, then by name"))
def list_templates(request: Request) -> Response:
    """List the practice templates."""
    return json_answer([_value(each) for each in _templates(request).listed()])


@router.post(
    "/api/templates",
    status_code=201,
    responses=described(201, TemplateAnswer, "kept") | refusals(409, 413, 415, 422, 507),
    openapi_extra=said_body("Template"),
)
async def add_template(request: Request) -> Response:
    """Keep a new template; one that is ``usual`` takes the place of the one that was."""
    template = _judged(await json_of(request))
    return _answer(await asyncio.to_thread(_templates(request).add, template), 201)


@router.get("/api/templates/{template_id}", responses=_KEPT | refusals(404))
def read_template(request: Request, template_id: TemplateId) -> Response:
    """Read a template."""
    return _answer(_templates(request).of(template_id))


@router.put(
    "/api/templates/{template_id}",
    responses=_KEPT | refusals(404, 409, 412, 413, 415, 422, 428, 507),
    openapi_extra=said_body("Template"),
)
async def save_template(request: Request, template_id: TemplateId) -> Response:
    """Keep a changed template; plans that took from it stay as they are."""
    made_from = revision_to_match(request)
    template = _judged(await json_of(request))
    return _answer(await asyncio.to_thread(_templates(request).save, template_id, template, made_from))


@router.delete("/api/templates/{template_id}", status_code=204, responses=refusals(404, 412, 428))
def remove_template(request: Request, template_id: TemplateId) -> Response:
    """Take a template out; plans that took from it stay as they are."""
    _templates(request).remove(template_id, revision_to_match(request))
    return Response(status_code=204)


@router.get(
    "/api/plans/{plan_id}/letterhead",
    responses=described(200, LetterheadAnswer, "ETag is its edition, 0 before the first") | refusals(404),
)
def read_letterhead(request: Request, plan_id: PlanId) -> Response:
    """Read what a plan prints over its title blocks, and how it is printed unless asked otherwise."""
    return _letterhead(*_letterheads(request).of(plan_id))


@router.put(
    "/api/plans/{plan_id}/letterhead",
    responses=described(200, LetterheadAnswer, "kept") | refusals(404, 412, 413, 415, 422, 428, 507),
    openapi_extra=said_body("Stationery"),
)
async def save_letterhead(request: Request, plan_id: PlanId) -> Response:
    """Keep another letterhead and print habit for a plan."""
    made_from = revision_to_match(request)
    stationery = await said_in(request, Stationery)
    edition = await asyncio.to_thread(_letterheads(request).save, plan_id, stationery, made_from)
    return _letterhead(edition, stationery)


def _templates(request: Request) -> TemplateStore:
    return TemplateStore(store_of(request).engine)


def _letterheads(request: Request) -> LetterheadStore:
    return LetterheadStore(store_of(request).engine)


def _judged(value: Any) -> Template:
    try:
        return template_from(value)
    except PlanRefused as refused:
        count = len(refused.faults)
        detail = str(refused.faults[0]) if count == 1 else f"{count} faults"
        raise Refusal(422, f"the template cannot be used: {detail}", refused.faults) from None


def _value(kept: KeptTemplate) -> dict[str, Any]:
    return vars(kept) | {"template": kept.template.model_dump(mode="json")}


def _answer(kept: KeptTemplate, status: int = 200) -> Response:
    answer = json_answer(_value(kept), status)
    answer.headers["ETag"] = tag_of(kept.edition)
    if status == 201:
        answer.headers["Location"] = f"/api/templates/{kept.id}"
    return answer


def _letterhead(edition: int, stationery: Stationery) -> Response:
    answer = json_answer({"edition": edition, "stationery": stationery.model_dump(mode="json")})
    answer.headers["ETag"] = tag_of(edition)
    return answer
