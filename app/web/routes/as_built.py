"""What was really built of a plan, by HTTP: a record beside it with an edition of its own, and a file to keep.

The record's edition is its ``ETag``: "0" before the first.
"""

from __future__ import annotations

import asyncio
from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import Response
from pydantic_core import from_json, to_json

from app.plan.as_built import NOTHING_BUILT, AsBuilt, as_built_from, as_built_value, read_as_built
from app.plan.faults import PlanRefused
from app.storage.as_built import AsBuiltStore, KeptRecord
from app.web.answers import AsBuiltAnswer, described, of_type, refusals, said_body
from app.web.bodies import json_of
from app.web.entity_tags import revision_to_match, tag_of
from app.web.problems import Refusal
from app.web.routes.plans import PlanId
from app.web.serving import json_answer, store_of, stored_work

router = APIRouter(tags=["as built"])
_ANSWER = described(200, AsBuiltAnswer, "the record beside the design; ETag is its edition")


@router.get("/api/plans/{plan_id}/as-built", responses=_ANSWER | refusals(404))
async def read_as_built_record(request: Request, plan_id: PlanId) -> Response:
    """Read what was built, and how that differs from the plan as it stands."""
    kept = await asyncio.to_thread(as_built_of(request).newest, plan_id)
    return await _answer(request, plan_id, kept)


@router.put(
    "/api/plans/{plan_id}/as-built",
    responses=_ANSWER | refusals(404, 412, 413, 415, 422, 428, 507),
    openapi_extra=said_body("AsBuilt"),
)
async def save_as_built_record(request: Request, plan_id: PlanId) -> Response:
    """Keep a new edition of what was built; If-Match names the edition it was made from."""
    made_from = revision_to_match(request)
    record = _judged(await json_of(request))
    content = to_json(as_built_value(record))
    save = as_built_of(request).save
    kept = await asyncio.to_thread(save, plan_id, content, len(record.entries), made_from)
    return await _answer(request, plan_id, kept)


@router.get(
    "/api/plans/{plan_id}/as-built/file",
    responses=of_type("application/json", "the as-built file") | refusals(404),
)
def download_as_built(request: Request, plan_id: PlanId) -> Response:
    """Download what was built, as a file beside the plan's."""
    kept = as_built_of(request).newest(plan_id)
    content = kept.content if kept else to_json(as_built_value(NOTHING_BUILT))
    headers = {
        "Content-Disposition": f'attachment; filename="{plan_id}-as-built.json"',
        "ETag": tag_of(kept.edition if kept else 0),
    }
    return Response(content, media_type="application/json", headers=headers)


def as_built_of(request: Request) -> AsBuiltStore:
    """The as-built records of the store's plans."""
    return AsBuiltStore(store_of(request).engine)


async def _answer(request: Request, plan_id: str, kept: KeptRecord | None) -> Response:
    record = as_built_value(read_as_built(kept.content)) if kept else as_built_value(NOTHING_BUILT)
    _, devices = await stored_work(request, plan_id, "as_built", {"record": record})
    answer = json_answer(
        {
            "edition": kept.edition if kept else 0,
            "revision": kept.number if kept else None,
            "saved": kept.saved if kept else None,
            "record": record,
            "devices": from_json(devices),
        }
    )
    answer.headers["ETag"] = tag_of(kept.edition if kept else 0)
    return answer


def _judged(value: Any) -> AsBuilt:
    try:
        return as_built_from(value)
    except PlanRefused as refused:
        count = len(refused.faults)
        detail = str(refused.faults[0]) if count == 1 else f"{count} faults"
        raise Refusal(422, f"the as-built record cannot be used: {detail}", refused.faults) from None
