"""A plan's history and the removed plans: what was is read, and brought back."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Request
from fastapi.responses import Response

from app.storage.history import History
from app.web.answers import PlanAnswer, RemovedLine, RevisionLine, described, refusals
from app.web.entity_tags import revision_to_match
from app.web.routes.plans import PlanId, plan_answer
from app.web.serving import json_answer, store_of

router = APIRouter(tags=["revisions"])
Number = Annotated[int, Path(ge=1, le=2**31 - 1, description="the revision's number")]


@router.get(
    "/api/plans/{plan_id}/revisions", responses=described(200, list[RevisionLine], "newest first") | refusals(404)
)
def list_revisions(request: Request, plan_id: PlanId) -> Response:
    """List every revision of a plan."""
    store = store_of(request)
    standings = History(store.engine).of(plan_id).standings
    lines = []
    for entry in store.revisions(plan_id):
        standing = standings.get(entry.number)
        said = {"mark": standing.mark if standing else None, "approved": bool(standing and standing.approval)}
        lines.append(
            {"revision": entry.number, "name": entry.name, "saved": entry.saved, "things": entry.things} | said
        )
    return json_answer(lines)


@router.get(
    "/api/plans/{plan_id}/revisions/{number}",
    responses=described(200, PlanAnswer, "the plan as it was") | refusals(404, 422),
)
def read_revision(request: Request, plan_id: PlanId, number: Number) -> Response:
    """Read one revision of a plan."""
    return plan_answer(store_of(request).revision(plan_id, number))


@router.post(
    "/api/plans/{plan_id}/revisions/{number}/restore",
    responses=described(200, PlanAnswer, "kept again as the newest revision") | refusals(404, 412, 422, 428),
)
def restore_revision(request: Request, plan_id: PlanId, number: Number) -> Response:
    """Bring an earlier revision back as the newest; If-Match names the one in force."""
    return plan_answer(store_of(request).bring_back(plan_id, number, revision_to_match(request)))


@router.get("/api/removed", responses=described(200, list[RemovedLine], "the last removed first"))
def list_removed(request: Request) -> Response:
    """List the removed plans."""
    lines = [
        {"id": entry.id, "name": entry.name, "revision": entry.revision, "removed": entry.when}
        for entry in store_of(request).removed()
    ]
    return json_answer(lines)


@router.post("/api/removed/{plan_id}/restore", responses=described(200, PlanAnswer, "in use again") | refusals(404))
def restore_removed(request: Request, plan_id: PlanId) -> Response:
    """Put a removed plan in use again."""
    return plan_answer(store_of(request).put_back(plan_id))
