"""Plans by HTTP: made, listed, read, saved and removed; every change names the revision it was made from."""

from __future__ import annotations

import asyncio
from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import Response

from app.plan.reading import plan_from
from app.storage.copying import begin_plan, copy_plan
from app.storage.plans import KeptPlan
from app.web.answers import PlanAnswer, PlanLine, described, of_type, plan_body, refusals
from app.web.bodies import json_of
from app.web.entity_tags import is_known, revision_to_match, tag_of
from app.web.serving import json_answer, store_of

router = APIRouter(tags=["plans"])
PlanId = Annotated[str, Path(description="the plan's id, as its Location says")]


@router.get("/api/plans", responses=described(200, list[PlanLine], "the plans in use, the last saved first"))
def list_plans(request: Request) -> Response:
    """List the plans in use."""
    lines = [
        {"id": entry.id, "name": entry.name, "revision": entry.revision, "updated": entry.when}
        for entry in store_of(request).listed()
    ]
    return json_answer(lines)


@router.post(
    "/api/plans",
    status_code=201,
    responses=described(201, PlanAnswer, "kept; Location and ETag say where and which")
    | refusals(404, 413, 415, 422, 507),
    openapi_extra=plan_body(),
)
async def add_plan(
    request: Request,
    pictures_of: Annotated[
        str, Query(max_length=40, description="a kept plan whose pictures come along, level by level")
    ] = "",
) -> Response:
    """Keep a new plan, with the pictures under the levels of another where one is named."""
    plan = await asyncio.to_thread(plan_from, await json_of(request))
    if pictures_of:
        return plan_answer(await asyncio.to_thread(begin_plan, store_of(request).engine, plan, pictures_of), 201)
    return plan_answer(await asyncio.to_thread(store_of(request).add, plan), 201)


@router.get("/api/plans/{plan_id}", responses=described(200, PlanAnswer, "the plan as last saved") | refusals(404))
def read_plan(request: Request, plan_id: PlanId) -> Response:
    """Read a plan as last saved; 304 where If-None-Match names its ETag."""
    head = store_of(request).head(plan_id)
    if is_known(request, tag_of(head.revision)):
        return Response(status_code=304, headers={"ETag": tag_of(head.revision)})
    return plan_answer(store_of(request).revision(plan_id, head.revision))


@router.put(
    "/api/plans/{plan_id}",
    responses=described(200, PlanAnswer, "kept as the newest revision") | refusals(404, 412, 413, 415, 422, 428, 507),
    openapi_extra=plan_body(),
)
async def save_plan(request: Request, plan_id: PlanId) -> Response:
    """Keep a new revision of a plan; If-Match names the revision it was made from."""
    made_from = revision_to_match(request)
    plan = await asyncio.to_thread(plan_from, await json_of(request))
    return plan_answer(await asyncio.to_thread(store_of(request).save, plan_id, plan, made_from))


@router.delete("/api/plans/{plan_id}", status_code=204, responses=refusals(404, 412, 428))
def remove_plan(request: Request, plan_id: PlanId) -> Response:
    """Take a plan out of use; it can be restored from the list of removed plans."""
    store_of(request).remove(plan_id, revision_to_match(request))
    return Response(status_code=204)


@router.get(
    "/api/plans/{plan_id}/file",
    responses=of_type("application/json", "the plan file") | refusals(404),
)
def download_plan(request: Request, plan_id: PlanId) -> Response:
    """Download the plan file."""
    kept = store_of(request).newest(plan_id)
    headers = {"Content-Disposition": f'attachment; filename="{plan_id}.json"', "ETag": tag_of(kept.revision)}
    return Response(kept.content, media_type="application/json", headers=headers)


@router.post(
    "/api/plans/{plan_id}/copy",
    status_code=201,
    responses=described(201, PlanAnswer, "kept; Location and ETag say where and which") | refusals(404, 507),
)
def copy_kept(request: Request, plan_id: PlanId) -> Response:
    """Keep a plan as last saved as a plan of its own, with its pictures and letterhead, without its history."""
    store = store_of(request)
    return plan_answer(copy_plan(store.engine, plan_id, store.newest(plan_id).plan()), 201)


def plan_answer(kept: KeptPlan, status: int = 200) -> Response:
    """A plan with its id and revision; its JSON is passed on as it was kept."""
    headers = {"ETag": tag_of(kept.revision)}
    if status == 201:
        headers["Location"] = f"/api/plans/{kept.id}"
    return Response(plan_json(kept), status_code=status, media_type="application/json", headers=headers)


def plan_json(kept: KeptPlan) -> bytes:
    """A plan with its id and revision as JSON."""
    return b'{"id":"%s","revision":%d,"plan":%s}' % (kept.id.encode(), kept.revision, kept.content)
