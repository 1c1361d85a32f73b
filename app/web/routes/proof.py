"""The proof by HTTP: the check of a plan, the trial of a moved device, the overlay of a level."""

from __future__ import annotations

from typing import Annotated

from fastapi import APIRouter, Path, Query, Request
from fastapi.responses import Response

from app.web.answers import CheckAnswer, TouchedAnswer, TrialAnswer, described, of_type, plan_body, refusals, trial_body
from app.web.bodies import body_of, json_of, refuse_other_than_json
from app.web.routes.plans import PlanId
from app.web.serving import JSON, stored_answer, workshop_of
from app.web.trials import trial_of

router = APIRouter(tags=["proof"])
LevelId = Annotated[str, Path(description="the level's id in the plan")]


@router.get("/api/plans/{plan_id}/check", responses=described(200, CheckAnswer, "as check --json") | refusals(404))
async def check_stored(request: Request, plan_id: PlanId) -> Response:
    """Coverage and findings of a stored plan."""
    return await stored_answer(request, plan_id, "check")


@router.post(
    "/api/check",
    responses=described(200, CheckAnswer, "as check --json") | refusals(413, 415, 422),
    openapi_extra=plan_body(),
)
async def check_sent(request: Request) -> Response:
    """Coverage and findings of a plan that is sent; nothing is stored."""
    refuse_other_than_json(request)
    return Response(await workshop_of(request).loose("check", await body_of(request)), media_type=JSON)


@router.post(
    "/api/plans/{plan_id}/trial",
    responses=described(200, TrialAnswer, "the level as it would be") | refusals(404, 413, 415, 422),
    openapi_extra=trial_body(),
)
async def try_device(request: Request, plan_id: PlanId) -> Response:
    """The level's panes and overlay with one device moved, changed or added: the drag call; nothing is stored."""
    return await stored_answer(request, plan_id, "trial", trial_of(await json_of(request)))


@router.post(
    "/api/plans/{plan_id}/trial/touched",
    responses=described(200, TouchedAnswer, "what differs from the plan as it stands") | refusals(404, 413, 415, 422),
    openapi_extra=trial_body(),
)
async def try_device_touched(request: Request, plan_id: PlanId) -> Response:
    """Of a trial only what differs from the stored plan, for a page that has the rest; the ETag tells its revision."""
    return await stored_answer(request, plan_id, "trial_touched", trial_of(await json_of(request)))


@router.get(
    "/api/plans/{plan_id}/levels/{level_id}/overlay.svg",
    responses=of_type("image/svg+xml", "the overlay") | refusals(404, 422),
)
async def draw_overlay(
    request: Request,
    plan_id: PlanId,
    level_id: LevelId,
    scale: Annotated[float | None, Query(ge=0.01, le=10_000, description="zoom in pixels a foot")] = None,
) -> Response:
    """The coverage of a level, drawn."""
    return await stored_answer(request, plan_id, "overlay", {"level": level_id, "scale": scale}, "image/svg+xml")
