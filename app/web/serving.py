"""What every route takes from the application: the store, the workshop, and JSON answers."""

from __future__ import annotations

import asyncio
from typing import Any

from fastapi.responses import Response
from starlette.requests import HTTPConnection

from app.storage.heads import Heads
from app.storage.plans import Head, PlanStore
from app.web.entity_tags import tag_of
from app.web.json_bytes import as_json
from app.web.workshop.orders import Work
from app.web.workshop.pool import Workshop

JSON = "application/json"


def store_of(request: HTTPConnection) -> PlanStore:
    """The store of plans."""
    store: PlanStore = request.app.state.store
    return store


def workshop_of(request: HTTPConnection) -> Workshop:
    """Where heavy work is done."""
    workshop: Workshop = request.app.state.workshop
    return workshop


def json_answer(value: object, status: int = 200) -> Response:
    """A JSON answer."""
    return Response(as_json(value), status_code=status, media_type=JSON)


async def stored_work(
    request: HTTPConnection, plan_id: str, work: Work, arguments: dict[str, Any] | None = None
) -> tuple[int, bytes]:
    """The revision in force of a stored plan and the answer of some work on it.

    Raises ``PlanMissing``, and as the workshop does.
    """
    heads: Heads = request.app.state.heads
    head = await heads.of(plan_id)
    return head.revision, await work_on(request, head, work, arguments)


async def stored_answer(
    request: HTTPConnection, plan_id: str, work: Work, arguments: dict[str, Any] | None = None, media_type: str = JSON
) -> Response:
    """The same as a response whose ETag tells the revision."""
    revision, answer = await stored_work(request, plan_id, work, arguments)
    return Response(answer, media_type=media_type, headers={"ETag": tag_of(revision)})


async def work_on(request: HTTPConnection, head: Head, work: Work, arguments: dict[str, Any] | None = None) -> bytes:
    """The answer of some work on a revision that was looked up; raises as the workshop does."""

    async def content() -> bytes:
        return (await asyncio.to_thread(store_of(request).revision, head.id, head.revision)).content

    return await workshop_of(request).stored(work, head.digest, content, arguments)
