"""The cable schedule by HTTP: home runs, boxes and totals, as JSON, CSV or a workbook."""

from __future__ import annotations

from fastapi import APIRouter, Request
from fastapi.responses import Response

from app.web.answers import PullsAnswer, PullsTrialAnswer, described, of_type, refusals, trial_body
from app.web.bodies import json_of
from app.web.routes.plans import PlanId
from app.web.serving import stored_answer, stored_work
from app.web.trials import trial_of

router = APIRouter(tags=["cable"])
BOOK = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"


@router.get("/api/plans/{plan_id}/pulls", responses=described(200, PullsAnswer, "as pulls --json") | refusals(404))
async def schedule_pulls(request: Request, plan_id: PlanId) -> Response:
    """The cable schedule of a stored plan."""
    return await stored_answer(request, plan_id, "pulls", {"form": "json"})


@router.get("/api/plans/{plan_id}/pulls.csv", responses=of_type("text/csv", "the pulls, RFC 4180") | refusals(404))
async def download_csv(request: Request, plan_id: PlanId) -> Response:
    """The pulls as CSV; no cell is taken for a formula."""
    _, answer = await stored_work(request, plan_id, "pulls", {"form": "csv"})
    return _file(answer, "text/csv", f"{plan_id}-pulls.csv")


@router.get("/api/plans/{plan_id}/pulls.xlsx", responses=of_type(BOOK, "pulls, boxes and totals") | refusals(404))
async def download_book(request: Request, plan_id: PlanId) -> Response:
    """The whole schedule as a workbook."""
    _, answer = await stored_work(request, plan_id, "pulls", {"form": "xlsx"})
    return _file(answer, BOOK, f"{plan_id}-pulls.xlsx")


@router.post(
    "/api/plans/{plan_id}/pulls/trial",
    responses=described(200, PullsTrialAnswer, "the pulls as they would be") | refusals(404, 413, 415, 422),
    openapi_extra=trial_body(),
)
async def try_run(request: Request, plan_id: PlanId) -> Response:
    """The home runs with one device moved, changed or added: the drag call of the step Cable; nothing is stored."""
    return await stored_answer(request, plan_id, "pulls_trial", trial_of(await json_of(request)))


def _file(content: bytes, media_type: str, name: str) -> Response:
    return Response(content, media_type=media_type, headers={"Content-Disposition": f'attachment; filename="{name}"'})
