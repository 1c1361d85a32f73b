"""Everything as one file, by HTTP: sent out, and brought in beside what is there, all of it or nothing."""

from __future__ import annotations

import asyncio
import tempfile
from collections.abc import Iterator
from datetime import UTC, datetime
from typing import IO, Annotated, Any

from fastapi import APIRouter, Query, Request
from fastapi.responses import Response, StreamingResponse

from app.storage.pack.merging import Came, merge_pack
from app.storage.pack.reading import MOST_BYTES, read_pack
from app.storage.pack.writing import write_pack
from app.storage.plans import PlanStore
from app.web.answers import CameAnswer, described, file_body, of_type, refusals
from app.web.bodies import body_into
from app.web.serving import json_answer, store_of

ZIP = "application/zip"
router = APIRouter(tags=["everything as one file"])
_IN_MEMORY = 2**24  # bytes; what is larger waits in a file that only the server can read
_PIECE = 2**18


@router.get("/api/pack", responses=of_type(ZIP, "a pack: the README tells its layout"))
async def send_pack(
    request: Request,
    removed: Annotated[bool, Query(description="whether removed plans are in it")] = True,
) -> Response:
    """Send every plan with all its revisions and what is kept beside it, and every template."""
    out = tempfile.SpooledTemporaryFile(_IN_MEMORY)  # noqa: SIM115 (closed when it is sent)
    await asyncio.to_thread(write_pack, store_of(request).engine, out, removed=removed)
    named = f'attachment; filename="studbay-{datetime.now(UTC):%Y-%m-%d}.zip"'
    headers = {"Content-Disposition": named, "Content-Length": str(out.tell())}
    return StreamingResponse(_pieces(out), media_type=ZIP, headers=headers)


@router.post(
    "/api/pack",
    responses=described(200, list[CameAnswer], "what became of each thing") | refusals(413, 422, 503, 507),
    openapi_extra=file_body(ZIP),
)
async def bring_pack(request: Request) -> Response:
    """Bring a pack in: what is here already stays as it is, what differs comes in as a copy that says so."""
    with tempfile.SpooledTemporaryFile(_IN_MEMORY) as sent:
        await body_into(request, sent, MOST_BYTES, "export fewer plans at a time")
        came = await asyncio.to_thread(_bring, store_of(request), sent)
    return json_answer([_value(each) for each in came])


def _bring(store: PlanStore, sent: IO[bytes]) -> list[Came]:
    return merge_pack(store.engine, read_pack(sent))


def _value(came: Came) -> dict[str, Any]:
    return vars(came) | {"words": came.words}


def _pieces(out: IO[bytes]) -> Iterator[bytes]:
    with out:
        out.seek(0)
        while piece := out.read(_PIECE):
            yield piece
