"""The first pass by HTTP: devices proposed for a stored plan, each with its reason; nothing is stored."""

from __future__ import annotations

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response
from pydantic import BaseModel

from app.plan.model import Device
from app.web.answers import described, refusals
from app.web.routes.plans import PlanId
from app.web.serving import stored_answer

router = APIRouter(tags=["first pass"])


class ProposalAnswer(BaseModel):
    """A device for a level; ``covers`` are the panes that a glass break is there for."""

    level: str
    device: Device
    reason: str
    covers: list[str]


class ContactAnswer(BaseModel):
    """A contact for an opening of a level; ``room`` is the one that the opening leads into."""

    level: str
    room: str | None
    device: Device
    reason: str


class ContactsAnswer(BaseModel):
    """A contact for each exterior opening that can be opened and has none."""

    proposals: list[ContactAnswer]


class RiserAnswer(BaseModel):
    """A riser, as the plan file says it."""

    riser: dict[str, Any]
    reason: str


class FewestAnswer(BaseModel):
    """How few glass breaks can do on the ceilings, given those that stand already."""

    panes: int
    kept: int
    proposed: int
    on_walls: int
    lower_bound: int
    optimal: bool
    gap: int
    exact: bool
    words: str


class UnreachableAnswer(BaseModel):
    """A pane that no ceiling place covers; ``instead`` is the proposed wall mount that does."""

    pane: str
    level: str
    why: str
    instead: str | None


class DraftAnswer(BaseModel):
    """The first pass over a plan."""

    proposals: list[ProposalAnswer]
    risers: list[RiserAnswer]
    proof: FewestAnswer
    unreachable: list[UnreachableAnswer]
    untried: list[str]


@router.post(
    "/api/plans/{plan_id}/draft",
    responses=described(200, DraftAnswer, "the proposals, one by one") | refusals(404, 503),
)
async def draft_stored(request: Request, plan_id: PlanId) -> Response:
    """Devices for a stored plan, each with its reason: what is taken of them is for the page to save."""
    return await stored_answer(request, plan_id, "draft")


@router.post(
    "/api/plans/{plan_id}/draft/contacts",
    responses=described(200, ContactsAnswer, "the contacts, one by one") | refusals(404, 503),
)
async def contacts_for_stored(request: Request, plan_id: PlanId) -> Response:
    """The first pass's contacts alone, at once: one for each opening that wants one."""
    return await stored_answer(request, plan_id, "contacts")
