"""Two revisions of a plan compared by HTTP: as JSON, as change sheets on a page, as a PDF; and how the plan stands."""

from __future__ import annotations

import asyncio
import re
from dataclasses import dataclass
from typing import Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import HTMLResponse, Response
from pydantic_core import from_json

from app.drawing.sheets.paper.habits import HABITS
from app.drawing.sheets.paper.papers import PAPERS
from app.drawing.sheets.paper.scales import AUTOMATIC, SCALES
from app.plan.faults import Fault
from app.storage.history import PlanHistory
from app.storage.letterheads import LetterheadStore
from app.storage.plans import Head, KeptPlan
from app.web.answers import ChangesAnswer, StandingAnswer, described, refusals
from app.web.problems import Refusal
from app.web.revision_words import printed_revision, side_of, standing_words
from app.web.routes.history import history_of
from app.web.routes.pages import refuse_unknown
from app.web.routes.plans import PlanId
from app.web.serving import JSON, json_answer, store_of, workshop_of
from app.web.templates import page

router = APIRouter(tags=["revisions"])
pages = APIRouter(include_in_schema=False)
_NUMBER = re.compile(r"[1-9][0-9]{0,8}")
_WHICH = "a revision's number, its letter as mark:A, or now for the working plan"
Earlier = Annotated[str, Query(alias="from", description=_WHICH)]
Later = Annotated[str, Query(alias="to", description=_WHICH)]


@dataclass(frozen=True)
class Compared:
    """What a comparison is made from: both revisions, the one in force, and the history."""

    old: KeptPlan
    new: KeptPlan
    head: Head
    history: PlanHistory


@router.get(
    "/api/plans/{plan_id}/changes",
    responses=described(200, ChangesAnswer, "what differs, and what that does") | refusals(404, 422),
)
async def compare_revisions(request: Request, plan_id: PlanId, earlier: Earlier, later: Later = "now") -> Response:
    """Compare two revisions of a plan."""
    compared = await asyncio.to_thread(_compared, request, plan_id, earlier, later)
    return Response(await _formed(request, compared, "json"), media_type=JSON)


@router.get(
    "/api/plans/{plan_id}/standing",
    responses=described(200, StandingAnswer, "how the working plan stands to what was approved") | refusals(404),
)
async def tell_standing(request: Request, plan_id: PlanId) -> Response:
    """How many changes the working plan has since a revision was approved."""
    head, history = await asyncio.to_thread(_head_and_history, request, plan_id)
    approved, count = history.approved, 0
    if approved is not None and approved.approval is not None and approved.approval.digest != head.digest:
        compared = await asyncio.to_thread(_compared, request, plan_id, str(approved.number), "now")
        count = from_json(await _formed(request, compared, "count"))["changes"]
    return json_answer(
        {
            "revision": head.revision,
            "approved": approved.number if approved else None,
            "changes": count,
            "words": standing_words(head, history, count),
            "printed": printed_revision(head, history),
        }
    )


@pages.get("/plans/{plan_id}/changes", response_class=HTMLResponse)
async def show_changes(
    request: Request,
    plan_id: PlanId,
    earlier: Earlier,
    later: Later = "now",
    paper: str = "",
    scale: str = AUTOMATIC,
    habit: str = "",
) -> HTMLResponse:
    """The change sheets of two revisions at true scale."""
    answer = await _sheets(request, plan_id, (earlier, later), "sheets", (paper, scale, habit))
    return page("changes.html", plan_id=plan_id, earlier=earlier, later=later, **from_json(answer))


@pages.get("/plans/{plan_id}/changes.pdf")
async def send_changes(
    request: Request,
    plan_id: PlanId,
    earlier: Earlier,
    later: Later = "now",
    paper: str = "",
    scale: str = AUTOMATIC,
    habit: str = "",
) -> Response:
    """The same sheets as a PDF file."""
    answer = await _sheets(request, plan_id, (earlier, later), "pdf", (paper, scale, habit))
    named = f'attachment; filename="{plan_id}-changes.pdf"'
    return Response(answer, media_type="application/pdf", headers={"Content-Disposition": named})


async def _sheets(
    request: Request, plan_id: str, which: tuple[str, str], form: str, chosen: tuple[str, str, str]
) -> bytes:
    paper, scale, habit = chosen
    refuse_unknown("paper", paper, ("", *PAPERS))
    refuse_unknown("scale", scale, (AUTOMATIC, *SCALES))
    refuse_unknown("habit", habit, ("", *HABITS))
    compared = await asyncio.to_thread(_compared, request, plan_id, *which)
    old, new = (side_of(each.revision, compared.head, compared.history) for each in (compared.old, compared.new))
    _, stationery = await asyncio.to_thread(LetterheadStore(store_of(request).engine).of, plan_id)
    saved = await asyncio.to_thread(_saved_at, request, plan_id, compared.new.revision)
    choices = {
        "old": vars(old),
        "new": vars(new),
        "paper": paper,
        "scale": scale,
        "habit": habit,
        "revision": f"{new.mark}, compared with {old.mark}",
        "saved_at": saved,
        "letterhead": list(stationery.letterhead.lines()),
    }
    return await _formed(request, compared, form, choices)


async def _formed(request: Request, compared: Compared, form: str, choices: dict[str, Any] | None = None) -> bytes:
    async def content() -> bytes:
        return compared.new.content

    before = {"digest": compared.old.digest, "before": compared.old.content.decode(), "form": form, "choices": choices}
    return await workshop_of(request).stored("changes", compared.new.digest, content, before)


def _compared(request: Request, plan_id: str, earlier: str, later: str) -> Compared:
    head, history = _head_and_history(request, plan_id)
    old, new = (_which(name, given, head, history) for name, given in (("from", earlier), ("to", later)))
    store = store_of(request)
    return Compared(store.revision(plan_id, old), store.revision(plan_id, new), head, history)


def _head_and_history(request: Request, plan_id: str) -> tuple[Head, PlanHistory]:
    return store_of(request).head(plan_id), history_of(request).of(plan_id)


def _which(name: str, given: str, head: Head, history: PlanHistory) -> int:
    """The number of the revision that a caller means."""
    if given == "now":
        return head.revision
    if _NUMBER.fullmatch(given):
        return int(given)
    mark = given.removeprefix("mark:").casefold()
    for standing in history.standings.values():
        if given.startswith("mark:") and standing.mark.casefold() == mark:
            return standing.number
    words = f"{given[:40]!r} is no revision here; give {_WHICH}"
    raise Refusal(422, f"{name}: {words}", [Fault(name, words)])


def _saved_at(request: Request, plan_id: str, number: int) -> str:
    lines = store_of(request).revisions(plan_id)
    return next((line.saved.isoformat(timespec="minutes") for line in lines if line.number == number), "")
