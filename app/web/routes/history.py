"""What is said of a plan's revisions by HTTP: named, approved, an approval withdrawn; nothing said is ever erased.

The history's edition is its ``ETag``; a new entry names the one it was made from.
"""

from __future__ import annotations

import asyncio
from collections.abc import Mapping
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response

from app.storage.history import Entry, History, PlanHistory, Standing
from app.web.answers import HistoryAnswer, described, refusals, said_body
from app.web.entity_tags import revision_to_match, tag_of
from app.web.history_bodies import Approval, RevisionName, Withdrawal, said_in
from app.web.routes.plans import PlanId
from app.web.routes.revisions import Number
from app.web.serving import json_answer, store_of

router = APIRouter(tags=["revisions"])
_ANSWER = described(200, HistoryAnswer, "the history as it is now")
_REFUSALS = refusals(404, 409, 412, 413, 415, 422, 428, 507)


@router.get("/api/plans/{plan_id}/history", responses=_ANSWER | refusals(404))
def read_history(request: Request, plan_id: PlanId) -> Response:
    """Read the named revisions of a plan, and every entry of its history, oldest first."""
    return history_answer(history_of(request).of(plan_id))


@router.put(
    "/api/plans/{plan_id}/revisions/{number}/name",
    responses=_ANSWER | _REFUSALS,
    openapi_extra=said_body("RevisionName"),
)
async def name_revision(request: Request, plan_id: PlanId, number: Number) -> Response:
    """Name a revision; it can be named anew until it is approved. If-Match names the history's edition."""
    edition = revision_to_match(request)
    said = await said_in(request, RevisionName)
    name = history_of(request).name
    return history_answer(await asyncio.to_thread(name, plan_id, number, said.mark, said.words, said.by, edition))


@router.post(
    "/api/plans/{plan_id}/revisions/{number}/approval",
    responses=_ANSWER | _REFUSALS,
    openapi_extra=said_body("Approval"),
)
async def approve_revision(request: Request, plan_id: PlanId, number: Number) -> Response:
    """Enter the client's approval of a named revision, which locks it; saves go on in later revisions."""
    edition = revision_to_match(request)
    said = await said_in(request, Approval)
    approve = history_of(request).approve
    return history_answer(await asyncio.to_thread(approve, plan_id, number, said.by, said.on, said.words, edition))


@router.post(
    "/api/plans/{plan_id}/revisions/{number}/withdrawal",
    responses=_ANSWER | _REFUSALS,
    openapi_extra=said_body("Withdrawal"),
)
async def withdraw_approval(request: Request, plan_id: PlanId, number: Number) -> Response:
    """Enter that an approval is withdrawn, by whom and why; the approval stays in the history."""
    edition = revision_to_match(request)
    said = await said_in(request, Withdrawal)
    withdraw = history_of(request).withdraw
    return history_answer(await asyncio.to_thread(withdraw, plan_id, number, said.by, said.words, edition))


def history_of(request: Request) -> History:
    """The histories of the store's plans."""
    return History(store_of(request).engine)


def history_answer(history: PlanHistory) -> Response:
    """A history as JSON, its edition as the ETag."""
    approved = history.approved
    answer = json_answer(
        {
            "edition": history.edition,
            "approved": approved.number if approved else None,
            "revisions": [standing_value(standing) for standing in history.standings.values()],
            "entries": [_entry(entry) for entry in history.entries],
        }
    )
    answer.headers["ETag"] = tag_of(history.edition)
    return answer


def standing_value(standing: Standing) -> Mapping[str, Any]:
    """A named revision as a JSON value."""
    approval = standing.approval
    return {
        "revision": standing.number,
        "mark": standing.mark,
        "words": standing.words,
        "by": standing.person,
        "named": standing.named,
        "approval": None
        if approval is None
        else {"by": approval.person, "on": approval.day, "words": approval.words, "recorded": approval.recorded},
    }


def _entry(entry: Entry) -> Mapping[str, Any]:
    return {
        "turn": entry.turn,
        "revision": entry.number,
        "what": entry.what,
        "mark": entry.mark,
        "words": entry.words,
        "by": entry.person,
        "on": entry.day,
        "recorded": entry.recorded,
    }
